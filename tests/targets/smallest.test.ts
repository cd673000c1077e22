import { describe, expect, it } from 'vitest';
import { both } from './both.ts';

const SMALL = { places: 0, fetch: false, names: true, small: true };

const small = (code: string, fields?: readonly string[]) => both(code, {}, SMALL, fields);

const times = (text: string, part: RegExp) => text.match(part)?.length ?? 0;

describe('functions that do the same where bytes count', () => {
  const two = (second: string, more = '') =>
    `function make(k) { var n = 0;
       function up(x, y) { for (var i = 0; i < y; i++) n = n + x * i; return n; }
       function add(p, q) { ${second} } ${more}
       function step(a, b) { return up(a, b) + add(b, a) * 100 + up(b, 2) + add(1, b) + add(a, 3) +
         up(k, b); } return step; }`;
  const same = 'for (var j = 0; j < q; j++) n = n + p * j; return n;';

  it('are one, and so is one that hands on', async () => {
    expect(times(await small(two(same)), /for \(/g)).toBe(1);
    const handed = await small(
      `function make(k) { var n = 0;
         function up(x, y) { for (var i = 0; i < y; i++) n = n + x * i; return n; }
         function on(p, q) { return up(p, q); }
         function step(a, b) { return on(a, b) + on(b, k) * 100 + up(b, 2) + on(1, b); }
         return step; }`,
    );
    expect(times(handed, /return up\S*\(\w/g)).toBeLessThan(2);
  });

  it('stay apart where they differ, or one turns what it is given round', async () => {
    expect(times(await small(two(same.replace('p * j', 'q * j'))), /for \(/g)).toBe(2);
    expect(times(await small(two(same.replace('j = 0', 'j = 1'))), /for \(/g)).toBe(2);
    const turned = await small(two('return up(q, p);'));
    expect(times(turned, /for \(/g)).toBe(1);
  });

  it('stay apart where each has names of its own around it', async () => {
    const after = await small(
      `function stage(k) { var n = k; function up(x) { for (var i = 0; i < x; i++) n = n + i * x;
           return n; }
         return { run: up, also: function (x) { return up(x + 1); } }; }
       function make(k) { var p = stage(k), q = stage(k + 1);
         function step(a, b) { return p.run(b) + q.run(a) * 100 + p.also(a) + q.also(b); }
         return step; }`,
    );
    expect(after).toMatch(/for \(/);
  });
});

describe('numbers that several functions have where bytes count', () => {
  const code = (third: string) =>
    `function make(k) { var n = 0; function up(x) { n = n + x * 12345; if (n > 99) n = 12345 - n;
         if (n < -99) n = 12345 + n; return n; }
       function step(a, b) { n = n - 12345 * b; ${third} return up(a) + up(b) + 12345; }
       return step; }`;

  it('get one name around them all', async () => {
    expect(times(await small(code('')), /12345/g)).toBe(1);
    expect(times(await both(code(''), {}, { ...SMALL, small: false }), /12345/g)).toBeGreaterThan(
      1,
    );
  });

  it('share it with the negative one, ratios as well, unless that comes as often', async () => {
    const ratios = (more: string) =>
      `function make(k) { var n = 0; function up(x) { n = n + x * (1234 / 7); return n; }
       function step(a, b) { n = n - 1234 / 7 * b; if (n < -1234 / 7) n = n * 3; ${more}
         return up(a) + up(b) + 1234 / 7 + n * (1234 / 7); } return step; }`;
    expect(times(await small(ratios('')), /1234/g)).toBe(1);
    const often = `n = b % 7 * (-1234 / 7); if (n < a) n = k + (-1234 / 7) / b;
      if (a > n) n = (n & 3) - b * (-1234 / 7); if (k < n * (-1234 / 7)) n = -1234 / 7 + n % 9;`;
    expect(times(await small(ratios(often)), /-1234/g)).toBe(1);
  });

  it('share it with no sum that begins with the negative one', async () => {
    // As long as the ratios that they come to, and so left as they are.
    const [sum, other] = ['(7 / 997 + 1 / 991)', '(-7 / 997 + 1 / 991)'];
    await small(
      `function make(k) { var n = 0; function step(a, b) { n = n + a * ${sum} + b * ${sum};
         return n + k * ${sum} + a * b * ${sum} + b * b * ${sum} + a * k * ${other}; }
       return step; }`,
    );
  });

  it('are counted by all their digits, however they are written', async () => {
    const after = await small(
      `function make(k) { function step(a, b) { return (a + 1e6) * 1000000 + (b - 1e6) / 1000000; }
       return step; }`,
    );
    expect(times(after, /1e6|1000000/g)).toBe(1);
  });
});

describe('copies of what a function around owns where bytes count', () => {
  const copied = (body: string, more = '') =>
    `function make(k) { var kept = 1, other = 2; ${more}
       function step(a, b) { ${body} } return step; }`;
  const isCopy = /= kept\S*;/;

  it('are read where they come from', async () => {
    const body =
      'var was = kept; other = other + b; kept = was + a * was; return kept * 7 + other;';
    expect(await small(copied(body))).not.toMatch(isCopy);
    expect(await both(copied(body), {}, { places: 0, fetch: false })).toMatch(isCopy);
  });

  it('stay if that is changed before they are read', async () => {
    expect(
      await small(copied('var was = kept; kept = kept + a; other = other + was; return other;')),
    ).toMatch(isCopy);
    expect(
      await small(
        copied(
          'var was = kept; for (var i = 0; i < b; i++) { other = other + was; kept = kept + a; } ' +
            'return other;',
        ),
      ),
    ).toMatch(isCopy);
  });

  it('stay if a function that is called changes it, or something unknown is called', async () => {
    const bump = `function deep(x) { kept = kept + x; }
      function bump(x) { for (var i = 0; i < x; i++) deep(i + 1); for (i = 0; i < 3; i++) deep(x);
        return x; }`;
    expect(
      await small(
        copied(
          'var was = kept; other = bump(b) + other; bump(a); return other + was * 3 + was;',
          bump,
        ),
      ),
    ).toMatch(isCopy);
    expect(
      await small(
        copied(
          'var was = kept; list[b & 1](); other = other + was; return other * was;',
          `var list = [up, down]; function up() { kept = kept + 3; }
           function down() { kept = kept - 1; }`,
        ),
      ),
    ).toMatch(isCopy);
  });

  it('stay where they may be from an earlier round', async () => {
    await small(
      copied(
        `var was = 0, s = 0; for (var i = 0; i < b; i++) { s = s + was; was = kept;
           kept = kept + i; } return s + was;`,
      ),
    );
  });
});

describe('branches that give the same place a value where bytes count', () => {
  const branches = (body: string) =>
    `function make(k) { var list = [0, 0], i = 0; function next() { i = 1 - i; return 3; }
       function step(a, b) { var x = 0; ${body} return list[0] + list[1] * 100 + x; }
       return step; }`;

  it('are one assignment', async () => {
    const after = await small(
      branches(
        'if (a > 0) list[b & 1] = a; else if (a < -1) list[b & 1] = b; else list[b & 1] = 7;',
      ),
    );
    expect(times(after, /& 1\] = /g)).toBe(1);
  });

  it('stay if the test or a value may change which element it is', async () => {
    await small(branches('if (next() > a) list[i] = a; else list[i] = b;'));
    await small(branches('if (a > 0) list[i] = next() + b; else list[i] = b;'));
    const after = await small(branches('if (a > 0) list[b & 1] = a; else list[k & 1] = b;'));
    expect(times(after, /& 1\] = /g)).toBe(2);
  });
});

describe('fields that are taken in alike where bytes count', () => {
  const taken = (third: string, test = '@ !== @ || @ << 16 >> 16 !== @') => {
    const take = (name: string, way: string) => {
      const by = way.replaceAll('@', `v${name}`).replaceAll('r.f', `r.${name}`);
      return `var v${name} = r.${name}; ${by}`;
    };
    const plain = `if (${test}) { @ = -9; r.f = -9; }`;
    const record = '{ one: 5, two: 5, three: 5, four: 5, five: 5 }';
    return `function make(k) { var all = [${record}, ${record}];
      function take(r, a, b) { ${['one', 'two', 'four', 'five'].map((x) => take(x, plain)).join('')}
        ${take('three', third)} return vone + vtwo * 3 + vthree * 5 + vfour * 7 + vfive * 11; }
      function step(a, b) { var r = all[b & 1]; r.one = a * 1000; r.two = b / 2;
        r.three = a / b; r.four = b * 9000; r.five = a + "x"; var s = take(r, a, b) + take(r, b, a);
        return s + r.one + r.two * 2 + r.three * 3 + r.four + r.five; } return step; }
      demo.keep = function (r) { return r.one + r.two + r.three + r.four + r.five; };`;
  };
  const same = 'if (@ !== @ || @ << 16 >> 16 !== @) { @ = -9; r.f = -9; }';
  const names = ['make', 'keep', 'one', 'two', 'three', 'four', 'five'];

  it('go through one function, unless their names may change', async () => {
    const after = await small(taken(same), names);
    expect(after).toMatch(/taken\$0\(\S+, ['"]three['"]\)/);
    expect(times(after, />> 16/g)).toBe(1);
    expect(await small(taken(same))).toMatch(/taken\$0\(\S+, ['"]three['"]\)/);
    const short = await small(taken(same), ['make', 'keep', 'one', 'two', 'four', 'five']);
    expect(short).not.toMatch(/['"]three['"]/);
    expect(await both(taken(same), {}, { places: 0 }, names)).not.toContain('taken');
  });

  it.each([
    ['another test', 'if (@ !== @ || @ << 8 >> 8 !== @) { @ = -9; r.f = -9; }'],
    ['another value', 'if (@ !== @ || @ << 16 >> 16 !== @) { @ = -8; r.f = -8; }'],
    ['two values', 'if (@ !== @ || @ << 16 >> 16 !== @) { @ = -9; r.f = -8; }'],
    ['another field', 'if (@ !== @ || @ << 16 >> 16 !== @) { @ = -9; r.one = -9; }'],
    ['a test of something else, too', 'if (@ !== @ || @ << 16 >> 16 !== b) { @ = -9; r.f = -9; }'],
    ['an alternative', 'if (@ !== @ || @ << 16 >> 16 !== @) { @ = -9; r.f = -9; } else r.f = 4;'],
  ])('but for one with %s', async (_what, third) => {
    const after = await small(taken(third), names);
    expect(after).toMatch(/taken\$0/);
    expect(after).not.toMatch(/['"]three['"]/);
  });
});

describe('a function of little text where bytes count', () => {
  const called = (body: string, calls: string) =>
    `function make(k) { var n = 0, m = 1, first = 0; function begin() { ${body} }
       function step(a, b) { ${calls} n = n + a; m = m + n * b; return n + m * 3 + first; }
       return step; }`;
  const calls = 'if (a > 0) begin(); else if (b > 7) { m = 3; begin(); first = first + 1; }';

  it('goes where it is called, a long one stays', async () => {
    expect(await small(called('n = 0; first = m;', calls))).not.toMatch(/begin/);
    const long = 'for (var i = 0; i < 5; i++) { n = n * 3 - i; first = (first + m * i) % 17; }';
    expect(await small(called(long, calls))).toMatch(/begin/);
  });

  it('stays if it cannot go to one of the places', async () => {
    expect(
      await small(called('n = 0; first = m; return 1;', `${calls} m = m + (n > 3 ? begin() : 2);`)),
    ).toMatch(/begin/);
  });
});

describe('loops where bytes count', () => {
  const loop = (body: string, before = '', more = '') =>
    `function make(k) { var list = [1, 2, 3], other = [4, 5, 6], n = 0; ${more}
       function step(a, b) { var s = 0, t = 1, x = 0; list[b % 3] = a * b - k; ${before}
         for (var i = 0; i < 3; i++) { ${body} } return s * 3 + t + list[0] * 5 + list[1] * 7 +
         list[2] * 11 + other[0] + other[1] * 2 + other[2] * 3 + n; }
       return step; }`;

  it.each([
    ['has variables of its own', 'x = list[i] * a; if (x > b) list[i] = x - b * 7 + k;'],
    ['goes on', 'if (other[i] > b) continue; list[i] = list[i] % 97 + other[i] * a - a % 7;'],
    ['counts', 'if (list[i] > 2 * a - b % 5 + k) s++; other[i] = list[i] * 3 + a;'],
    ['sets a flag', 'if (list[i] > b * 2 - a * k) t = 5; other[i] = list[i] + a * 3 - k;'],
    ['finds the greatest', 'x = list[i] * 2 + b; if (x > s) s = x; other[i] = x * a - k;'],
    ['reads others by any place', 'list[i] = other[i ^ 1 ? 0 : 2] + a * 3 + other[b % 3];'],
  ])('count down where each round %s', async (_what, body) => {
    expect(await small(loop(body))).toMatch(/for \(; ?i\S*--/);
    expect(await both(loop(body), {}, { places: 0 })).not.toMatch(/i\S*--/);
  });

  it.each([
    ['reads what an earlier one left', 's = s * 3 + list[i] + a;', ''],
    ['reads an element that another one writes', 'list[i] = list[(i + 1) % 3] * 3 + a;', ''],
    ['writes an element that another one reads', 'list[(i + b) % 3] = other[i] * 3 + a;', ''],
    ['sums', 's += list[i] / 3 + a;', ''],
    ['gives the flag different numbers', 'if (list[i] > a) t = i > 1 ? 5 : 6; else t = 7;', ''],
    ['reads the flag', 'if (t > 3) list[i] = list[i] * 2 + a; if (list[i] > b) t = 5;', ''],
    ['counts and reads the count', 's++; list[i] = list[i] * s + a * b;', ''],
    ['finds the last of the greatest', 'if (list[i] >= s) { s = list[i]; t = i; }', ''],
    ['finds the greatest of what may be below 0', 'if (list[i] > s) s = list[i];', 's = -100;'],
    ['finds the least', 'if (list[i] < s) s = list[i];', 's = 100;'],
    ['may leave', 'if (list[i] > b) break; other[i] = list[i] + a;', ''],
    ['calls what it does not know', 'list[i] = other[i] + hook[0](i) + a * 2;', ''],
    ['keeps what is read later', 'x = list[i] * a; s = x;', ''],
  ])('count up where a round %s', async (_what, body, before) => {
    const hook = 'var hook = [next, next]; function next(x) { n = n * 3 + x; return n % 7; }';
    expect(await small(loop(body, before, hook))).not.toMatch(/for \(; ?i\S*--/);
  });

  it('count up where two names may be one list', async () => {
    const after = await small(
      `function make(k) { var one = [1, 2, 3], all = [one, one];
         function step(a, b) { var p = all[b & 1]; for (var i = 0; i < 3; i++) { one[i] = p[i] + a;
             p[i] = one[i ^ 1 ? 0 : 1] * 2; } return one[0] + one[1] * 5 + one[2] * 7; }
         return step; }`,
    );
    expect(after).not.toMatch(/i\S*--/);
  });

  it('count up where the counter is read after', async () => {
    const after = await small(
      `function make(k) { var one = [1, 2, 3]; function step(a, b) { var i = 0;
         for (; i < 3; i++) one[i] = one[i] % 9 + a; return one[b % 3] + i; } return step; }`,
    );
    expect(after).not.toMatch(/i\S*--/);
  });
});

it('loops whose counter a function around owns count up where bytes count', async () => {
  const code = (told: string) => `function make(k) { var one = [1, 2, 3], i = 5, p = 0;
    function last() { return i; }
    function step(a, b) { p = last(); i = 0; for (; i < 3; i++) one[i] = one[i] % 9 + a * b - k;
      return one[b % 3] * 100 + ${told}; } return step; }`;
  expect(await small(code('p'))).not.toMatch(/i\S*--/);
  expect(await small(code('p * i'))).not.toMatch(/i\S*--/);
});

describe('a function that is handed on where bytes count', () => {
  it('stands where it is, unless it is called or there are several places', async () => {
    const code = (more: string) =>
      `function make(k) { var n = 0; function late(x) { n = n + x; return n; }
         function step(a, b) { n = n + a * b; return n; } ${more} return step; }`;
    expect(await small(code(''))).toMatch(/return function \(/);
    const two = await small(code('demo.late = late; demo.also = late;'));
    expect(two).toMatch(/function late\S*\(/);
    const called = await small(code('demo.late = late(3);'));
    expect(called).not.toMatch(/late = function/);
    expect(await both(code(''), {}, { places: 0 })).not.toMatch(/return function/);
  });
});
