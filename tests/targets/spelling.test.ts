import { describe, expect, it } from 'vitest';
import { nodeEngine } from '../../harness/engines/node-engine.ts';
import { plainTokens } from '../../targets/build/plain-tokens.ts';
import { shortNames } from '../../targets/build/short-names.ts';
import { both } from './both.ts';

describe('several places given the same', () => {
  it('are given it in one step', async () => {
    const after = await both(
      `function make(k) { var p = 1, q = 2, list = [5, 5]; function step(a, b) {
         var s = p * 100 + q * 10 + list[0]; if (a > 0) { p = 0; q = 0; list[0] = 0; list[1] = 0; }
         else { p = b; q = p; list[b & 1] = 3; } return s + list[1]; } return step; }`,
      {},
      { places: 0, fetch: false },
    );
    expect(after).toMatch(/= \w\S* = \S+ = \S+ = 0/);
    expect(after).toMatch(/q\S* = p\S* = b/);
  });

  it('are not where a place is told by one of them, or is read before it is given', async () => {
    const after = await both(
      `function make(k) { var i = 2, j = 1, n = 3, list = [5, 6, 7]; function step(a, b) {
         if (a > 0) { i = 0; j = 0; list[j] = 0; n = 1; n += 1; } else { j = b % 3; i = 2; }
         return list[0] + list[1] * 10 + list[2] * 100 + n * 1000 + i + j; } return step; }`,
      {},
      { places: 0, fetch: false },
    );
    expect(after).toMatch(/= 0;\s*list\S*\[j\S*\] = 0/);
    expect(after).not.toMatch(/\+= n\S* = 1/);
  });

  it('are not where the one is read in between, or tells where the other is', async () => {
    const after = await both(
      `function make(k) { var p = 1, q = 2, i = 1, list = [5, 6, 7]; function step(a, b) {
         if (a > 0) { p = 0; list[2] = p + list[i]; q = 0; i = 0; list[i] = 0; i = b % 3; }
         else { p = b; q = k; i = 1; } return p + q * 10 + list[0] * 100 +
           list[1] * 1000 + list[2]; }
       return step; }`,
      {},
      { places: 0, fetch: false },
    );
    expect(after).not.toMatch(/\] = i\S* = 0/);
  });
});

it('x = x + y is x += y, and x += 1 as a step x++; x = y - x stays', async () => {
  const after = await both(
    `function make(k) { var n = 0, p = 1, d = 5; function step(a, b) { n = n + 1; p = b * p;
       d = a - d; var m = (n += 1) + p; return n + p * 3 + d * 7 + m; } return step; }`,
    {},
    { places: 0, fetch: false },
  );
  expect(after).toMatch(/\bn\S*\+\+;/);
  expect(after).toMatch(/p\S* \*= b/);
  expect(after).toMatch(/d\S* = \S+ - d/);
  expect(after).toMatch(/n\S* \+= 1\)/);
});

it('variables share a name over gaps in which neither is needed, not while one is', async () => {
  const after = await both(
    `function make(k) { function step(a, b) { var s = 0; for (var i = 0; i < 3; i++) {
         var u = a + i; if (u > 1) { var v = u * b; s = s + v; continue; } var w = u - b; u = w * 2;
         s = s + w + u; } return s + i; } return step; }`,
  );
  expect(new Set(after.match(/\b[uvw]\$\w+/g)).size).toBeLessThan(3);
  expect(new Set(after.match(/\b(s|i|a|b)\$\w+/g)).size).toBe(4);
});

describe('short names', () => {
  const run = async (code: string) => [
    await nodeEngine.run(code),
    await nodeEngine.run(shortNames(code)),
  ];

  it('are the same in functions that do not see each other', () => {
    const code =
      'var g=1;(function(){function first(alpha,beta){return alpha+beta*alpha}' +
      'function second(gamma,delta){return gamma-delta*gamma}g=first(1,2)+second(3,4)})();';
    expect(shortNames(code)).toBe(
      'var g=1;(function(){function a(a,b){return a+b*a}' +
        'function b(a,b){return a-b*a}g=a(1,2)+b(3,4)})();',
    );
  });

  it('leave what a function uses from outside of it, globals, fields and catches', async () => {
    const code =
      'var out=[],a=7;(function(){var outer=1,other=2;function use(inner){var a1=inner+outer;' +
      'try{out.push(a1+a);null.x}catch(caught){var late={other:a1,a:outer};out.push(late.other)}' +
      'return a1+late.a}function none(outer){return outer*2}' +
      'out.push(use(5),none(other))})();print(out.join());';
    const [before, after] = await run(code);
    expect(after).toBe(before);
    const short = shortNames(code);
    expect(short).toContain('var out=[],a=7;');
    expect(short).toContain('other:');
    expect(short).not.toMatch(/inner|outer|caught|late=/);
  });

  it('of two letters are no words of the language', () => {
    const names = Array.from({ length: 4000 }, (_, i) => `name${i}`);
    const code = `(function(){var ${names.join()};})();`;
    const short = shortNames(code);
    const given = short.slice('(function(){var '.length, -';})();'.length).split(',');
    expect(new Set(given).size).toBe(4000);
    expect(() => new Function(short)).not.toThrow();
  });
});

it('no space stands before a truth value where none is needed', () => {
  expect(plainTokens('function a(){return true}', true)).toBe('function a(){return!0}');
  expect(plainTokens('function a(){return true}')).toBe('function a(){return !0}');
});

it('a global that is used often has a short name within, a rare one has not', async () => {
  const often = await both(
    `function make(k) { return function (a, b) { return a + b + k; }; }
     demo.first = 1; demo.second = 2; demo.third = 3; demo.fourth = 4; demo.fifth = 5;`,
  );
  expect(often.match(/(?<!\$)\bdemo\b/g)).toHaveLength(2);
  const rare = await both('function make(k) { return function (a, b) { return a + b + k; }; }');
  expect(rare).toMatch(/demo\.make = /);
});
