import { describe, expect, it } from 'vitest';
import { both } from './both.ts';

const SMALL = { places: 0, fetch: false, names: true, small: true };
const VARIABLES = { places: 0, fetch: false };

const step = (body: string, before = '') =>
  `function make(k) { ${before} function step(a, b) { ${body} } return step; }`;

it('x * (1 / q) stays where q is next to a great power of two', async () => {
  const after = await both(step('return (a + b / 7) * (1 / 562949953421313);'));
  expect(after).toMatch(/\* \(1 \/ 562949953421313\)/);
});

describe('a value is given before a test', () => {
  it('that may begin another round, which reads it', async () => {
    await both(
      step(`var x = 0, s = 0; for (var i = 0; i < b; i++) { s = s + x; x = a * i;
        if (x > 4) continue; x = 0; s = s + 1; } return s;`),
      {},
      VARIABLES,
    );
  });

  it('that may leave the loop, after which it is read', async () => {
    await both(
      step(`var x = 0, s = 0; for (var i = 0; i < b; i++) { x = b * i; if (x > 4) break; x = s;
        s = s + 1 + x * 2; } return s + x * 100;`),
      {},
      VARIABLES,
    );
  });
});

it('records with numbers for fields keep them, and all else what it is given', async () => {
  const code = step(
    'var q = b & 1; q = q + 1; return table[q] + a;',
    'var table = { 0: 5, 1: 6, 2: 8 };',
  );
  await both(code, {}, VARIABLES, ['make', 'push']);
});

describe('a name handed over once and used twice', () => {
  it('is a number where one of the places needs it', async () => {
    await both(
      step(
        `var up = a > 0 ? 1 : 0, out = 0; var r = pick(up, b); if (r === 0) out = 1;
         return out + r * 10;`,
        'function pick(p, q) { return p ? q : p; }',
      ),
      {},
      VARIABLES,
    );
  });

  it('is a list as long as the greatest place that either reaches', async () => {
    await both(
      step(
        `var t = 0; for (var w = 0; w < b; w++) {
           if (a + g(kept, a) > w) t = t + 1 + f([1, 2, 3, 4], [a, 2, 3, 4], b); } return t;`,
        `var kept = [1, 2, 3, 4];
         function f(p, q, i) { var s = 0; for (var j = 0; j < 2; j++) s += p[j] + i;
           for (var m = 0; m < 4; m++) s += q[m] * s; p[0] = i; return s; }
         function g(p, i) { return f(p, p, i); }`,
      ),
      {},
      VARIABLES,
    );
  });
});

describe('what a function made of expressions reads is not written in between', () => {
  const state = `var n = 1, m = 2, z = 0; function other() { return n + m + z; } make.o = other;`;
  const long = (x: string) => `((${x}) * n * 1000003 + n * n * 7 - m * n * 31 + m)`;

  it('where steps are joined', async () => {
    const after = await both(
      step(
        `var p = a * 3 - b; var v = ${long('p')}; n = b; var s = p + v * 2;
         var w = ${long('b - k')}; n = a; s = s * 3 + w; var x = ${long('a + 1')}; n = b + 1;
         s = s * 3 + x; m = s % 5; return s;`,
        state,
      ),
      {},
      SMALL,
    );
    expect(after).toContain('outlined');
  });

  it('where steps give the same value', async () => {
    const after = await both(
      step(
        `var q = 0, r = 0, t = 0; n = 4; q = ${long('a * b')}; z = 4; n = 3; r = ${long('b')};
         m = 3; n = 5 + a; t = ${long('k - a')};
         return q + r * 2 + t * 3 + q * r + r * t + q * t + z + n;`,
        state,
      ),
      {},
      SMALL,
    );
    expect(after).toContain('outlined');
  });
});

describe('a copy of a list holds what was taken over', () => {
  const places = Array.from({ length: 12 }, (_, i) => i);
  const loads = places.map((i) => `v${i} = active[${i}];`).join(' ');
  const loading = (load: string, after = '') =>
    `function make(k) { function copyOf(from) { var list = [];
         for (var i = 0; i < 12; i++) list.push(from[i]); return list; }
       var given = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12], active = copyOf(given);
       var spare = copyOf(given), n = 0, h = 0; ${places.map((i) => `var v${i} = 0;`).join(' ')}
       function help(x) { h = h * 3 + v5 + x; if (h > 1000) h = 0; return h; }
       function load() { ${load} }
       function sum() { return ${places.map((i) => `v${i} * ${i}`).join('+')}; }
       function step(a, b) { n++; for (var i = 0; i < 12; i++) active[i] += a + spare[i];
         if (n % 3 === 0) load(); if (n % 5 === 2) help(n); return sum() + h * 1000000; }
       load(); ${after} return step; }`;

  it.each([
    ['not where that may end before', `if (n > 5) return; ${loads}`, ''],
    ['not before', `help(n); ${loads} help(n); help(2);`, ''],
    ['not where it is given something else later', loads, 'v3 = 9;'],
  ])('%s', async (_name, load, after) => {
    await both(loading(load, after), {}, SMALL);
  });
});
