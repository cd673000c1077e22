import { describe, expect, it } from 'vitest';
import { specialise } from '../../targets/specialise/specialise.ts';
import { both, script } from './both.ts';

describe('specialised code does the same', () => {
  it.each([
    [
      'a copy of what changes afterwards stays what it was',
      `function make(k) { var state = k; function step(a, b) {
         var old = state; state = old + a; var now = state; state = b;
         return old * 10000 + now * 100 + state; } return step; }`,
    ],
    [
      'returns in the middle, in branches of branches, and none at the end',
      `function pick(x, y) { if (x > 0) { if (y > 6) { return 1; } return 2; }
         if (x < 0) return 3; y = y + 1; return y; }
       function make(k) { var kept = k; function step(a, b) {
         var r = pick(a, b); if (r === 3) { kept = kept + 1; return 0 - kept; }
         return r + kept; } return step; }`,
    ],
    [
      'a stage with a record, state of its own and two functions',
      `function createStage(k) { var sum = 0; var stage = { out: k, run: run, clear: clear };
         function run(x) { var self = stage; sum = sum + x; self.out = sum * k; }
         function clear() { sum = 0; } return stage; }
       function make(k) { var stages = { one: createStage(k), two: createStage(2) };
         function step(a, b) { var s = stages.one; s.run(a); stages.two.run(b);
           if (b === 7) s.clear(); return s.out * 1000 + stages.two.out; } return step; }`,
    ],
    [
      'loops with continue, and values that live from round to round',
      `function make(k) { var list = [0, 0, 0]; var last = 0; function step(a, b) {
         var most = 0; var before = last; for (var i = 0; i < k; i++) { var x = list[i] + a + i;
           if (x < 0) continue; var y = x * 2; if (y > most) most = y; before = before + y;
           list[i] = x; } last = most; return most * 100 + before; } return step; }`,
    ],
    [
      'a value used before and after what it is computed from has changed',
      `function make(k) { function step(a, b) { var x = a + k; var y = x * 2; var z = y - a;
         x = b; var w = x + z; y = w; return x * 1000 + y * 10 + z; } return step; }`,
    ],
    [
      'arguments evaluated in order, once',
      `function make(k) { var count = 0; function next() { count = count + 1; return count; }
         function join(x, y, z) { return x * 10000 + y * 100 + z; }
         function step(a, b) { var first = count; return join(first, next(), next()); }
         return step; }`,
    ],
    [
      'state read behind a call that changes it',
      `function make(k) { var level = k; function lift(x) { level = level + x; return level; }
         function step(a, b) { var before = level; var after = lift(a) + level;
           return before * 1000 + after + lift(b); } return step; }`,
    ],
    [
      'a record that is handed out stays a record',
      `function make(k) { var box = { value: k, twice: 0 }; function grow(other) {
           other.value = other.value + 1; }
         function step(a, b) { grow(box); box.twice = box.value * 2; return box.twice + a; }
         return step; }`,
    ],
    [
      'arrays and elements that are written between two reads',
      `function make(k) { var list = [1, 2, 3]; function step(a, b) {
         var x = list[0]; list[0] = a; var y = list[0]; list[1] = x + y; var z = list[1];
         list[0] = z + b; return x * 10000 + y * 100 + z + list[0]; } return step; }`,
    ],
    [
      'logical operators that skip what has an effect',
      `function make(k) { var n = 0; function tick() { n = n + 1; return n > 4; }
         function step(a, b) { var x = a > 0 && tick(); var y = a < 0 || tick();
           return n * 100 + (x ? 10 : 0) + (y ? 1 : 0); } return step; }`,
    ],
    [
      'minus zero, not-a-number and fractions are not computed in advance',
      `function make(k) { function step(a, b) { var zero = 0; var x = 0 - 0 * a;
         return 1 / x + ' ' + (zero / zero) + ' ' + 7 / 100 * b + ' ' + (0 - 0) / -1; }
         return step; }`,
    ],
    [
      'a parameter that is written, and one that every call gives the same',
      `function scale(x, by) { if (x < 0) x = 0 - x; x = x * by; return x; }
       function make(k) { var by = k; function step(a, b) {
         return scale(a, by) * 100 + scale(b, by); } return step; }`,
    ],
  ])('%s', async (_what, code) => {
    await both(code);
  });

  it('puts known numbers in, and drops the branches they decide', async () => {
    const after = await both(
      `function createStage(vehicle) { var fitted = vehicle[0]; var gain = vehicle[1] / 1000;
         function run(x) { if (fitted === 0) return 5; return x * gain; } return { run: run }; }
       function make(k) { var vehicle = [1, 70]; var stage = createStage(vehicle);
         function step(a, b) { return stage.run(b); } return step; }`,
      { vehicle: [1, 70] },
    );
    expect(after).toContain('7 / 100');
    expect(after).not.toContain('fitted');
    expect(after).not.toMatch(/return 5|= 5/);
    expect(after).not.toContain('run');
  });

  it('lets variables that are never needed at once share one', async () => {
    const steps = Array.from({ length: 40 }, (_, i) => {
      const from = i === 0 ? 'a' : `v${i - 1}`;
      return `var v${i} = ${from} + b; if (v${i} > 9) v${i} = v${i} - 3;`;
    });
    const after = await both(
      `function make(k) { function step(a, b) { ${steps.join(' ')} return v39; } return step; }`,
    );
    expect(new Set(after.match(/\b(v\d+|a)\$/g))).toHaveProperty('size', 1);
  });

  it('gives the same code again', () => {
    const code = script('function make(k) { function step(a) { return a + k; } return step; }');
    const options = { known: {}, globals: ['demo'] };
    expect(specialise(code, options)).toEqual(specialise(code, options));
  });
});
