import { describe, expect, it } from 'vitest';
import { both } from './both.ts';

const SMALL = { places: 0, fetch: false, names: true, small: true };

const small = (code: string) => both(code, {}, SMALL);

describe('expressions of the same shape become a function where bytes count', () => {
  const sizes = (way: string) =>
    `function make(k) { var kept = 0; function step(a, b) { var s = 0;
       ${['a', 'b', 'a * b', 'kept', 'a - b', 'a - 3', 'b - 4', 'a - kept']
         .map((x, i) => `var v${i} = ${x}; ${way.replaceAll('v', `v${i}`)} s = s * 7 + v${i};`)
         .join(' ')} kept = s % 9 - k; return s; } return step; }`;

  it('magnitudes, be they a choice or a step', async () => {
    const after = await small(sizes('if (v < 0) v = 0 - v;'));
    expect(after.match(/< 0 \?/g)).toHaveLength(1);
    expect(after).toMatch(/function outlined\$0/);
    expect((await small(sizes('v = v < 0 ? 0 - v : v;'))).match(/< 0 \?/g)).toHaveLength(1);
  });

  it('comparisons that are turned round alike', async () => {
    const after = await small(
      `function make(k) { function step(a, b) {
         var c = a * b, d = a - b;
         return (a > b ? b + 100000 : a + 100000) + (d < c ? d + 100000 : c + 100000) +
           (k > b ? b + 100000 : k + 100000); } return step; }`,
    );
    expect(after.match(/ \? /g)).toHaveLength(1);
  });

  it('where a call is no longer, if many make its name short', async () => {
    const greatest = (count: number) => {
      const steps = Array.from(
        { length: count },
        (_, i) => `s = s * 3 + (a * ${i + 2} > b ? a * ${i + 2} : b);`,
      );
      return small(
        `function make(k) { function step(a, b) { var n = a > b ? a : b, s = n * n;
           ${steps.join(' ')}
           return s + k; } return step; }`,
      );
    };
    expect((await greatest(14)).match(/ \? /g)).toHaveLength(1);
    expect((await greatest(9)).match(/ \? /g)).toHaveLength(2);
  });

  it('not if what differs cannot always be computed', async () => {
    const after = await small(
      `function make(k) { function step(a, b) { var p = a > 0 ? { u: a } : null,
         q = a > 1 ? { v: b } : null, r = a > -1 ? { w: k } : null;
         return (p ? p.u * 1000000 + 1000000 : 1000000) + (q ? q.v * 1000000 + 1000000 : 1000000) +
           (r ? r.w * 1000000 + 1000000 : 1000000); } return step; }`,
    );
    expect(after.match(/function outlined/g) ?? []).toHaveLength(0);
  });

  it('not what has an effect, and nothing in a script that is to be quick', async () => {
    const effects = `function make(k) { var n = 0; function next(x) { n++; return x + n; }
      function step(a, b) { return (next(a) < 0 ? 100000 : 200000) + (next(b) < 0 ? 100000 :
        200000) + (next(k) < 0 ? 100000 : 200000); } return step; }`;
    expect(await small(effects)).not.toContain('outlined');
    expect(await both(sizes('if (v < 0) v = 0 - v;'))).not.toContain('outlined');
  });

  it('not if it takes more than it saves', async () => {
    const after = await small(
      'function make(k) { function step(a, b) { return (a + b) * k + (b + k) * a; } return step; }',
    );
    expect(after).not.toContain('outlined');
  });
});

describe('bounds where bytes count', () => {
  const bounded = (way: string) =>
    `function make(k) { function step(a, b) { var all = 0;
       ${Array.from({ length: 9 }, (_, i) => {
         const name = `x${i}`;
         const step = way.replaceAll('v', name);
         return `var ${name} = a * ${i} - b * k; ${step} all = all * 3 + ${name};`;
       }).join(' ')} return all; } return step; }`;

  it.each([
    ['a choice', 'v = v > 9 ? 9 : v < -5 ? -5 : v;'],
    ['steps', 'if (v > 9) v = 9; else if (v < -5) v = -5;'],
    ['from below first', 'if (v < -5) v = -5; else if (v > 9) v = 9;'],
  ])('are one step each: %s', async (_name, way) => {
    const after = await small(bounded(way));
    expect(after.match(/ \? /g)).toHaveLength(2);
    expect(after).not.toMatch(/else/);
  });

  it('are compared with what takes their place, be it negative', async () => {
    expect(await small(bounded('if (v < 0 - k) v = 0 - k;'))).toMatch(/< 0 - k\S* \?/);
  });

  it('stay one step where they may be in no order, or bound something else', async () => {
    const loose = await small(bounded('if (v > b) v = b; else if (v < k) v = k;'));
    expect(loose).toMatch(/\? [^:;]*: [^:;]* \?|else/);
    const other = await small(bounded('if (v > 9) v = 9; else if (a < -5) v = -5;'));
    expect(other).toMatch(/\? [^:;]*: [^:;]* \?|else/);
  });

  it('on both sides of zero are a magnitude, unless they are not the same', async () => {
    const at = (test: string) =>
      `function make(k) { function step(a, b) { var n = 0, x = a / b - a / b, c = b - 2;
         if (${test.replaceAll('v', 'a')}) n = 1; if (${test.replaceAll('v', 'x')}) n = n + 2;
         if (${test.replaceAll('v', 'k')}) n = n + 4; return n; } return step; }`;
    expect(await small(at('v > c || v < -c'))).not.toContain('||');
    expect(await small(at('v <= 1 && v >= -1'))).not.toContain('&&');
    expect((await small(at('b > 2 || v > c || v < -c'))).match(/\|\|/g)).toHaveLength(3);
    expect((await small(at('b > 2 && v > c || v < -c'))).match(/\|\|/g)).toHaveLength(3);
    expect((await small(at('v > c || v < -b'))).match(/\|\||outlined/g)).not.toBeNull();
    expect(await small(at('v > c || v <= -c'))).not.toMatch(/< 0 \?/);
  });
});

describe('rounds where bytes count', () => {
  const rounds = (body: string) =>
    `function make(k) { var list = [3, 1, 2], n = 0; function step(a, b) {
       for (var i = 0; i < 3; i++) { ${body} n = n + list[i] * b + i; } return n; } return step; }`;

  it('end by a branch, unless what follows would be there twice', async () => {
    expect(await small(rounds('if (list[i] < a + k) { n = n + 1; continue; }'))).not.toContain(
      'cont',
    );
    expect(await small(rounds('if (i > 1) { if (a > k) continue; n = n * 3; }'))).toContain('cont');
  });
});

describe('what a loop alone reads where bytes count', () => {
  const looping = (before: string, body: string) =>
    `function make(k) { var n = 1, list = [3, 1, 2]; function odd() { n = n + 1; return n % 3; }
       function step(a, b) { var s = n % 5; ${before}
         for (var i = 0; i < 3; i++) { ${body} } n = n + k; return s + list[0] * 9 + n; }
       return step; }`;
  const share = 'var share = (a + n) / (b * b + 7);';

  it('is worked out there', async () => {
    const code = looping(share, 'if (i !== a) list[i] = list[i] + i * share;');
    expect(await small(code)).not.toMatch(/share\S* =/);
    expect(await both(code, {}, { places: 0, fetch: false })).toMatch(/share\S* =/);
  });

  it.each([
    ['there is no loop', share, 's = i; } if (a > 0) { s = s + share; list[1] = a;'],
    ['it is read twice', share, 's = s + share; list[i] = i * share;'],
    ['the loop changes what it comes from', share, 's = s * 3 + share; n = n + i;'],
    ['what is called does', share, 's = s * 3 + share + odd() + odd();'],
    ['a step before the loop does', `${share} if (s > 2) n = n + 2;`, 's = s * 2 + share;'],
    ['it is an element', 'var share = list[1] + a;', 's = s * 2 + share; list[1] = b;'],
  ])('stays where %s', async (_why, before, body) => {
    expect(await small(looping(before, body))).toMatch(/share\S* =/);
  });
});

describe('steps and lists where bytes count', () => {
  const mixed = 'x = x * x % 1009 + 7 * b;';

  it('make a loop of the same step, unless it is short', async () => {
    const steps = (step: string) =>
      `function make(k) { function step(a, b) { var x = a + k; ${step} ${step} ${step} ${step}
         return x; } return step; }`;
    expect(await small(steps(mixed))).toMatch(/for \(/);
    expect(await small(steps('x = x + b;'))).not.toMatch(/for \(/);
    expect(await both(steps(mixed))).not.toMatch(/for \(/);
  });

  const loading = (more: string, early = '') =>
    `function make(k) { function copyOf(from) { var list = []; for (var i = 0; i < 12; i++)
         list.push(from[i]); return list; }
       var given = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12], spare = copyOf(given);
       var active = copyOf(given), n = 0;
       ${Array.from({ length: 12 }, (_, i) => `var v${i} = 0;`).join(' ')}
       function load() { ${Array.from({ length: 12 }, (_, i) => `v${i} = active[${i}];`).join(' ')}
         ${more} }
       function sum() { return ${Array.from({ length: 12 }, (_, i) => `v${i} * ${i}`).join('+')}; }
       function step(a, b) { n++; for (var i = 0; i < 12; i++) active[i] = active[i] + a + spare[i];
         if (n % 3 === 0) load(); return sum(); }
       ${early} load(); return step; }`;

  it('copy a list that much is taken over from, as it was then', async () => {
    const after = await small(loading(''));
    expect(after).not.toMatch(/v1\$\S* = active/);
    expect(after).toMatch(/active\S*\$then\[5\]/);
  });

  it('but not if that is read before, or the list changes in between', async () => {
    expect(await small(loading('', 'n = sum();'))).not.toContain('$then');
    expect(await small(loading('active[3] = n;'))).not.toContain('$then');
    expect(await both(loading(''))).not.toContain('$then');
  });

  it('make variables of a list that is filled, unless it is reached by a variable', async () => {
    const filled = (more: string) =>
      `function make(k) { var s = [0, 0, 0, 0, 0, 0]; function step(a, b) {
         if (a < 0) for (var i = 0; i < 6; i++) s[i] = 0;
         s[0] += a; s[1] += a * b; s[2] += b; s[3] += s[1]; s[4] += s[3]; s[5] += k;
         ${more} return s[0] + s[1] + s[2] + s[3] + s[4] + s[5]; } return step; }`;
    expect(await small(filled(''))).not.toMatch(/\[/);
    expect(await small(filled('s[b & 3] += 1;'))).toMatch(/\[1\]/);
  });

  it('name numbers of lists that come often', async () => {
    const after = await small(
      `function make(k) { var list = [12345, 12345, 12345, 12345, 7]; function step(a, b) {
         return list[b & 3] + a; } return step; }`,
    );
    expect(after.match(/12345/g)).toHaveLength(1);
  });
});
