import { generate } from 'astring';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nodeEngine } from '../../harness/engines/node-engine.ts';
import { plainStatements } from '../../targets/build/plain-statements.ts';
import { simplestRatio } from '../../targets/specialise/simplest-ratio.ts';
import { both } from './both.ts';

const textOf = (value: number): string | undefined => {
  const ratio = simplestRatio(value);
  return ratio && generate(ratio);
};

describe('a constant is written as the simplest ratio that has its bits', () => {
  it.each([
    [3 / 100, '3 / 100'],
    [5465 * (3 / 100), '3279 / 20'],
    [(900 / 1537) * (15 / 100), '135 / 1537'],
    [-22 / 7, '-22 / 7'],
    [Math.PI, '245850922 / 78256779'],
  ])('%d', (value, text) => expect(textOf(value)).toBe(text));

  it('of any ratio of whole numbers it is no longer', () => {
    const whole = fc.integer({ min: 1, max: 1_000_000 });
    const check = fc.property(whole, whole, (p, q) => {
      if (Number.isInteger(p / q)) return;
      const text = textOf(p / q)!;
      expect(text.length).toBeLessThanOrEqual(`${p} / ${q}`.length);
      expect(new Function(`return ${text}`)()).toBe(p / q);
    });
    fc.assert(check, { seed: 7, numRuns: 500 });
  });

  it('of any double it has the bits, or there is none', () => {
    const check = fc.property(fc.double({ noNaN: true }), (value) => {
      const text = textOf(value);
      if (text !== undefined) expect(new Function(`return ${text}`)()).toBe(value);
    });
    fc.assert(check, { seed: 7, numRuns: 500 });
  });

  it('neutral operands go, but no zero that is added: it turns minus zero into zero', async () => {
    const after = await both(
      `function make(k) { function step(a, b) { var x = a * -0 * 1 - 0; var y = x / 1;
         return 1 / (y + 0) + ' ' + 1 / y + ' ' + (a > 0 && false) +
           (b > 3 || true) + (b && false) + (a > 0 && true) + (b > 3 || false); }
       return step; }`,
    );
    expect(after).toMatch(/\+ 0\b/);
    expect(after).not.toMatch(/\* 1\b|\/ 1\b|- 0\b|\|\|/);
    expect(after.match(/&&/g)).toHaveLength(1);
  });
});

describe('loops', () => {
  const code = `function make(k) { var list = [1, 2]; var kept = [0, 0]; function step(a, b) {
      var sum = 0;
      for (var i = 0; i < 2; i++) { var x = list[i] + a; if (x < 0) continue;
        kept[i] = kept[i] + x; sum = sum + (b << i) + (i & 1) + x; }
      return sum * 10000 + kept[0] * 100 + kept[1] * 10 + i; } return step; }`;

  it('of two rounds are written out where there is room, and arrays become variables', async () => {
    const after = await both(code, {}, { loop: 500 });
    expect(after).not.toMatch(/for|\[/);
  });

  it('stay where there is none', async () => {
    expect(await both(code, {}, { loop: 20 })).toContain('for');
  });

  it('of one round always go', async () => {
    expect(await both(code.replaceAll('i < 2', 'i < 1'))).not.toContain('for');
  });

  it('that are left in the middle, or have too many rounds, stay', async () => {
    const breaks = code.replace('continue', 'break');
    expect(await both(breaks, {}, { loop: 500 })).toContain('for');
    const long = `function make(k) { function step(a, b) { var x = a;
      for (var i = 0; i < 32; i++) x = x + (b & i); return x; } return step; }`;
    expect(await both(long, {}, { loop: 5000 })).toContain('for');
  });
});

describe('arrays', () => {
  it('filled at creation become variables, with the stages in them', async () => {
    const after = await both(
      `function createStage(k) { var sum = k; function run(x) { sum = sum + x; return sum; }
         return { run: run }; }
       function make(k) { var stages = []; for (var i = 0; i < 2; i++) stages.push(createStage(k));
         function step(a, b) { var all = 0;
           for (var m = 0; m < 2; m++) all = all * 100 + stages[m].run(a + m);
           return all + stages.length; } return step; }`,
      {},
      { loop: 500 },
    );
    expect(after).not.toMatch(/push|\[|for|createStage/);
  });

  it('that are handed out, or reached by what is computed, stay', async () => {
    const after = await both(
      `function make(k) { var list = [1, 2, 3]; var other = [4, 5]; var out = { list: null };
         function step(a, b) { list[b % 3] = a; out.list = other; other[0] = b;
           return list[0] * 100 + list[1] * 10 + out.list[0]; } return step; }`,
    );
    expect(after).toMatch(/\[1, 2, 3\]/);
    expect(after).toMatch(/\[4, 5\]/);
  });

  it('that are looked at while they are filled stay', async () => {
    const after = await both(
      `function make(k) { var list = []; list.push(list.length + k);
         list.push(list.length + list[0]);
         function step(a, b) { return list[0] * 10 + list[1] + a; } return step; }`,
    );
    expect(after).toContain('push');
  });
});

it('a short function of many parameters goes to where it is called, a long one stays', async () => {
  const long = Array.from({ length: 12 }, (_, i) => `x = x * ${i + 2} - y;`).join(' ');
  const after = await both(
    `function short(x, y, z) { var next = x + y - z; return next > 9 ? 9 : next > 0 ? next : 0; }
     function long(x, y, z) { ${long} return x + z; }
     function make(k) { var list = [0, 0]; function step(a, b) {
       list[0] = short(list[0], a, b & 3); list[1] = short(list[1], b, a);
       return list[0] * 100 + list[1] + long(a, b, k) - long(b, a, list[0]); } return step; }`,
  );
  expect(after).not.toContain('short');
  expect(after.match(/long\$\w+\(/g)).toHaveLength(3);
});

it('a short function that a cloned maker calls as well goes wherever it is called', async () => {
  const after = await both(
    `function short(x, y, z) { var next = x + y - z; return next > 9 ? 9 : next > 0 ? next : 0; }
     function createSum(k) { var sum = 0; function add(x) { sum = short(sum, x, k); return sum; }
       return { add: add }; }
     function make(k) { var first = createSum(k); var second = createSum(1);
       function step(a, b) { var x = first.add(a); var y = second.add(b); var z = short(a, b, k);
         return x * 100 + y * 10 + z; } return step; }`,
  );
  expect(after).not.toMatch(/short|createSum/);
});

it('what nobody reads goes, in the middle of an assignment as well', async () => {
  const after = await both(
    `function make(k) { var seen = 0; var out = 0; var last = 0; function step(a, b) {
       out = seen = last = a * k; if (a > 0) seen = b; return out + last; } return step; }`,
  );
  expect(after).not.toContain('seen');
});

describe('a copy', () => {
  it('of what changes only in the next round is the same name', async () => {
    const after = await both(
      `function make(k) { var list = [0, 0, 0]; function step(a, b) { var sum = 0;
         for (var i = 0; i < 3; i++) { var place = i; var once = a + i; var twice = once;
           list[place] = list[place] + twice * place; sum = sum + list[place] + twice; }
         return sum; } return step; }`,
    );
    expect(after).not.toMatch(/place|twice/);
  });

  it('stays where its source changes before it is read, or in a loop around the read', async () => {
    await both(
      `function make(k) { function step(a, b) { var x = a; var old = x; x = b; var sum = old + x;
         var kept = x; for (var i = 0; i < 2; i++) { sum = sum * 3 + kept; x = x + 1; }
         return sum * 10 + x; } return step; }`,
    );
  });

  it('of a copy stays right', async () => {
    await both(
      `function make(k) { function step(a, b) { var sum = 0; var x = k;
         for (var i = 0; i < 3; i++) { var y = x; var z = y; x = x + a; sum = sum + z * 2 + y;
           var w = z; z = b; sum = sum * 3 + w + z; } return sum; } return step; }`,
    );
  });
});

describe('where room is dear', () => {
  it('numbers that come often have a name, and ratios', async () => {
    const after = await both(
      `function make(k) { var sum = k; function step(a, b) {
         sum = sum + a * 1000 - b / 1000 + a * (7 / 100) - b * (7 / 100) + a * b * (7 / 100);
         sum = sum * (7 / 100) + 1000;
         if (sum > 1000) sum = sum - 1000; if (sum < -1000) sum = sum + 1000;
         return sum + 25; } return step; }`,
      {},
      { names: true },
    );
    expect(after.match(/\b1000\b/g)).toHaveLength(1);
    expect(after.match(/7 \/ 100/g)).toHaveLength(1);
    expect(after).toMatch(/\+ 25/);
  });

  it('lists of the same numbers are made by one function, each anew', async () => {
    const lists = Array.from({ length: 8 }, (_, i) => `var l${i} = [0, 0, 0, 0];`).join(' ');
    const steps = Array.from({ length: 8 }, (_, i) => `l${i}[b & 3] = l${i}[a & 3] + ${i} + a;`);
    const after = await both(
      `function make(k) { ${lists} var other = [0, 0, 1]; function step(a, b) { ${steps.join(' ')}
         other[b % 3] = a; return l0[b & 3] * 100 + l7[a & 3] + other[2]; } return step; }`,
      {},
      { names: true },
    );
    expect(after.match(/\[0, 0, 0, 0\]/g)).toHaveLength(1);
    expect(after).toContain('[0, 0, 1]');
  });

  it('a table keeps what is read of it', async () => {
    const table = Array.from({ length: 20 }, (_, i) => i * i);
    const after = await both(
      `var table = [${table}];
       function make(k) { var points = []; points = table; function step(a, b) {
         var i = b % 5; return points[12 + i] + (points[13 + i] - points[12 + i]) * a; }
       return step; }`,
    );
    expect(after).toMatch(/= \[144, 169/);
    expect(after).not.toMatch(/12 \+|13 \+/);
  });

  it('a table that is read from before it, or has another name, stays whole', async () => {
    const after = await both(
      `var table = [1, 2, 3, 4, 5, 6]; var twin = [0, 0, 0]; var other = twin = [7, 8, 9];
       function make(k) { function step(a, b) { other[0] = a;
         return table[-1 + (b % 4 + 1)] + twin[1 + (b & 1)] + other[2] + twin[0]; }
       return step; }`,
    );
    expect(after).toContain('[1, 2, 3, 4, 5, 6]');
  });

  it('a table that is read at other places stays whole', async () => {
    const after = await both(
      `var table = [1, 2, 3, 4, 5, 6];
       function make(k) { function step(a, b) { return table[2 + (b & 1)] + table[b & 3]; }
       return step; }`,
    );
    expect(after).toContain('[1, 2, 3, 4, 5, 6]');
  });

  it('state is not fetched, nor put back', async () => {
    const code = `function make(k) { var x = k; function step(a, b) {
      if (a > 0) x = x + b; x = x * 2 - a; if (x > 99) x = x - 77; return x + 1; } return step; }`;
    expect(await both(code, {}, { places: 0 })).toContain('local');
    expect(await both(code, {}, { places: 0, fetch: false })).not.toContain('local');
  });
});

describe('state', () => {
  const names = Array.from({ length: 12 }, (_, i) => `s${i}`);
  const declared = names.map((name, i) => `var ${name} = ${i};`).join(' ');
  const steps = names.map((name, i) => `if (b > ${i}) ${name} = ${name} + a;`).join(' ');

  it('of many variables is one array, with what it starts from, for each one made', async () => {
    const after = await both(
      `function make(k) { ${declared} s3 = k; function reset(x) { s4 = x; s5 = x; }
         reset(k + 1); function step(a, b) { ${steps} if (b === 7) reset(a);
           return ${names.join(' * 2 + ')}; } return step; }`,
    );
    expect(after).toMatch(/state\$\S+ = \[[\d, ]+\]/);
    expect(after).not.toMatch(/var s\d+\$\w+ = \d/);
  });

  it('of few stays in variables', async () => {
    const after = await both(
      `function make(k) { var x = k; var y = 1; function step(a, b) {
         if (a > 0) x = x + b; if (b > 3) y = y + a; return x * 100 + y; } return step; }`,
    );
    expect(after).not.toContain('[');
  });
});

it('ratios are worked out once where state stays in variables, each once', async () => {
  const code = `function make(k) { var sum = 7 / 3; function step(a, b) { var x = a * (7 / 10);
    sum = sum + b * (7 / 10) + k / 4 - x * (2 / 3); return sum; } return step; }`;
  const after = await both(code, {}, { places: 0, ratios: true });
  expect(after.match(/(?<=[ (])\d \/ \d+/g)).toEqual(['7 / 10', '2 / 3', '7 / 3']);
  expect(after).toMatch(/function step[^}]* k\$\w+ \/ 4[^}]*}/);
});

describe('a flag', () => {
  it('of 0 and 1 is tested itself where only truth is asked for', async () => {
    const after = await both(
      `function make(k) { var on = 0; function step(a, b) { var is = b > 3 ? 1 : 0;
         if (a === 0) on = 1; else if (on === 1 && is !== 1) on = 0;
         return on === 0 ? is === 1 : (on !== 0) + b; } return step; }`,
    );
    expect(after).toMatch(/if \((on[$\w]*) && !(is[$\w]*)\)/);
    // Where its value counts, and for what may hold anything, the comparison stays.
    expect(after).toMatch(/is\S* === 1 :/);
    expect(after).toMatch(/a\$\w+ === 0/);
  });

  it('that may be more than 1 is compared with 1, one that may be NaN with 0 as well', async () => {
    const after = await both(
      `function make(k) { var more = 0; var none = 0; function step(a, b) {
         if (more === 1) none = a / b; if (more !== 0) more = none !== 0 ? 1 : 2; else more = b & 3;
         return more * 10 + none; } return step; }`,
    );
    expect(after).toMatch(/more\S* === 1/);
    expect(after).toMatch(/if \(more\S*\)/);
    expect(after).toMatch(/none\S* !== 0/);
  });
});

it('a call inside a function that tries stays', async () => {
  const after = await both(
    `function make(k) { function mend(x) { if (x > 2) x = x - 1; return x; }
       function step(a, b) { try { return mend(a) * b; } catch (_) { return k; } }
       return step; }`,
  );
  expect(after).toMatch(/mend\$\w+\(a/);
});

it('0 - x is -x where minus zero cannot be told from zero, and nowhere else', async () => {
  const after = await both(
    `function make(k) { function step(a, b) { var size = a < 0 ? 0 - a : a; var turned = 0 - a;
       return size * 10 + (b > 0 - k ? 1 : 0) + ' ' + 1 / turned + ' ' + 1 / (0 - turned * 2); }
     return step; }`,
  );
  expect(after).toMatch(/-a\$/);
  expect(after).toMatch(/> -k\$/);
  expect(after.match(/0 - /g)).toHaveLength(2);
});

describe('statements that were joined stand apart again', () => {
  it('in bodies', () => {
    const plain = plainStatements(
      'function f(a) { a && (b = 1, c = 2), d = 3; if (e = a, e) g(); return h = 1, h; }',
      false,
    );
    expect(plain.replace(/\s+/g, ' ')).toContain(
      'if (a) (b = 1, c = 2); d = 3; e = a; if (e) g(); h = 1; return h;',
    );
  });

  it('and branches with them, where that is wanted', () => {
    const text = (code: string) => plainStatements(code, true).replace(/\s+/g, ' ').trim();
    expect(text('a ? b = 1 : (c = 2, d = 3);')).toBe('if (a) b = 1; else { c = 2; d = 3; }');
    expect(text('a || (b = 1);')).toBe('if (!a) b = 1;');
    expect(text('if (a && b) c = 1;')).toBe('if (a) if (b) c = 1;');
    // The `else` is not that of the inner `if`.
    expect(text('a ? b && (c = 1) : d = 1;')).toBe('if (a) { if (b) c = 1; } else d = 1;');
    expect(text('a && (b ? c = 1 : d = 1);')).toBe('if (a) if (b) c = 1; else d = 1;');
    expect(text('x = a ? 1 : 2;')).toBe('x = a ? 1 : 2;');
  });

  it('and branches that give the same name a value are one assignment, where bytes count', () => {
    const text = (code: string) =>
      plainStatements(code, false, true).replace(/\s+/g, ' ').replace(/; $/, ';').trim();
    expect(text('a ? b = 1 : b = 2;')).toBe('b = a ? 1 : 2;');
    expect(text('a ? (c = 1, b = c) : d ? b = 2 : (d = 3, b = 4);')).toBe(
      'b = a ? (c = 1, c) : d ? 2 : (d = 3, 4);',
    );
    for (const other of [
      'b = 1 : c = 2',
      'b = 1 : b += 2',
      'b[0] = 1 : b[0] = 2',
      '(b = 1, c) : b = 2',
    ])
      expect(text(`a ? ${other};`)).toBe(`a ? ${other};`);
    expect(plainStatements('a ? b = 1 : b = 2;', false)).toContain('a ? b');
  });

  it.each([
    [false, false],
    [true, false],
    [false, true],
  ])('and do the same (branches apart: %s, as one: %s)', async (branches, alike) => {
    const code =
      'var x = 0, y = 5; function f(a) { for (x = a, y = 1; y < 9; y++) a > 3 && (x += y, a--), ' +
      'x++; y > 9 || (a ? x++ : a < 0 && x--); a > x ? (y = x, x = y + a) : x < 9 ? x = 2 - x : ' +
      '(a += x, x = a); return x += a, x; } print(f(2) + " " + f(7) + " " + f(30) + " " + x);';
    const plain = plainStatements(code, branches, alike);
    expect(await nodeEngine.run(plain)).toBe(await nodeEngine.run(code));
  });
});
