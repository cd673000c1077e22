import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  createController,
  createInputs,
  createOutputs,
  Layout,
  MISSING,
  V,
} from '../../lib/index.ts';
import { plainConstants } from '../limits/plain-constants.ts';

const constants = plainConstants({});

/** What a fresh controller leaves in a field. */
function taken(field: 'timeMs' | 'batteryMv' | 'guest', value: unknown): number {
  const inputs = createInputs();
  Object.assign(inputs, { [field]: value });
  createController(constants).step(inputs, createOutputs());
  return inputs[field];
}

describe('what arrives is taken in', () => {
  it('as an integer of 16 bits, or as missing', () => {
    for (const value of [0, 1, -1, 32767, -32767]) expect(taken('batteryMv', value)).toBe(value);
    const odd = [-32768, 32768, -40000, 0.5, 1e300, Number.NaN, Infinity, 65536, 2 ** 32];
    for (const value of odd) expect(taken('batteryMv', value)).toBe(MISSING);
  });

  it('as an integer of 32 bits for the time, or as missing', () => {
    for (const value of [0, -1, 0x7fffffff, -0x80000000])
      expect(taken('timeMs', value)).toBe(value);
    for (const value of [2 ** 31, -(2 ** 31) - 1, 0.1])
      expect(taken('timeMs', value)).toBe(MISSING);
  });

  it('with anything but 0 as a guest', () => {
    expect(taken('guest', 0)).toBe(0);
    for (const value of [1, 2, '0', null, undefined, Number.NaN]) {
      expect(taken('guest', value)).toBe(1);
    }
  });

  it('whatever the list of currents is, without throwing', () => {
    fc.assert(
      fc.property(fc.anything(), (currentMa) => {
        const inputs = { ...createInputs(), currentMa: currentMa as number[] };
        // A list that cannot be written to is the caller's mistake, not an input.
        if (Object.isFrozen(currentMa) && typeof currentMa === 'object') return;
        createController(constants).step(inputs, createOutputs());
        expect(inputs.currentMa[0]).toSatisfy(Number.isInteger);
        expect(inputs.currentMa[1]).toSatisfy(Number.isInteger);
      }),
      { seed: 731, numRuns: 300 },
    );
  });

  it('with currents that were once none, then a list, then none again, as missing', () => {
    const controller = createController(constants);
    const inputs = createInputs();
    const outputs = createOutputs();
    inputs.currentMa = undefined as unknown as number[];
    controller.step(inputs, outputs);
    inputs.currentMa[0] = 1234;
    controller.step(inputs, outputs);
    inputs.currentMa = null as unknown as number[];
    controller.step(inputs, outputs);
    expect(inputs.currentMa.slice(0, 2)).toEqual([MISSING, MISSING]);
  });

  it('with each current by itself: beside a missing one the others are those of this tick', () => {
    const four = { [V.LAYOUT]: Layout.TWO_PAIRS, [V.MOTORS]: 4 };
    const inputs = createInputs();
    const outputs = createOutputs();
    const odd = [Number.NaN, 0.5, 40000, '7', 7n, Symbol('current'), null, undefined, {}];
    for (const first of odd) {
      for (const second of odd) {
        const controller = createController(plainConstants({ vehicle: four }));
        inputs.currentMa = [11, 12, 13, 14];
        controller.step(inputs, outputs);
        inputs.currentMa = [first, second, 300, 400] as number[];
        controller.step(inputs, outputs);
        expect([...inputs.currentMa]).toEqual([MISSING, MISSING, 300, 400]);
        inputs.currentMa = [100, first, second, 400] as number[];
        controller.step(inputs, outputs);
        expect([...inputs.currentMa]).toEqual([100, MISSING, MISSING, 400]);
      }
    }
  });
});
