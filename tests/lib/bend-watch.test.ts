import { describe, expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { Found } from '../../lib/codes.ts';
import { State, V } from '../../lib/index.ts';
import { createTraction } from '../../lib/traction.ts';
import { createWindings } from '../../lib/winding.ts';
import { SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';

// Tracks of closed form: V d = R i + K v with the core's own constants.

const { vehicle, setups } = bake(vehicleOf(SAMPLES.forwarder), [
  setupOf({ name: 'a', surface: 'b' }),
]);
const TICK = 10;
const MV = 7800;
const EMF = vehicle[V.EMF_UV]!;
const OHM = vehicle[V.MOTOR_MOHM]!;

type Pair = readonly [number, number];

/** Bits found in a bend of 600 ms with these commands, permille, and speeds of tracks, mm/s. */
function foundIn(drive: Pair, speeds: Pair): number {
  const traction = createTraction(vehicle, createWindings(vehicle));
  traction.load([...setups[0]!]);
  let found = 0;
  const tick = (d: Pair, v: Pair) => {
    const currentMa = d.map((each, m) => Math.round((MV * each - EMF * v[m]!) / OHM));
    const goal = [...d, 0, 0];
    traction.run(goal, goal, MV, [...currentMa, 0, 0], [], 0, State.DRIVING, TICK, TICK);
    found |= traction.found;
  };
  for (let i = 0; i < 20; i++) tick([0, 0], [0, 0]);
  for (let i = 1; i <= 60; i++) {
    const share = Math.min(1, i / 20);
    tick([drive[0] * share, drive[1] * share], [speeds[0] * share, speeds[1] * share]);
  }
  return found & (Found.JAM | (Found.JAM << 1));
}

describe('a track held fast in a bend', () => {
  test('is a jam beside one that is driven the same way and turns', () => {
    expect(foundIn([430, 900], [0, 240])).toBe(Found.JAM);
    expect(foundIn([900, 430], [240, 0])).toBe(Found.JAM << 1);
    expect(foundIn([-430, -900], [0, -240])).toBe(Found.JAM);
    expect(foundIn([430, 900], [120, 0])).toBe(Found.JAM << 1);
  });

  test('is none beside one that coasts along, or is driven less than two fifths as hard', () => {
    const coasting = (MV * 200 - OHM * 30) / EMF;
    expect(foundIn([430, 200], [0, coasting])).toBe(0);
    expect(foundIn([900, 300], [0, 60])).toBe(0);
  });

  test('is none beside one that idles, brakes or pivots: the ground may hold it', () => {
    expect(foundIn([430, 0], [0, 0])).toBe(0);
    expect(foundIn([430, 0], [0, 60])).toBe(0);
    expect(foundIn([430, -430], [0, 0])).toBe(0);
    expect(foundIn([430, -430], [0, -60])).toBe(0);
  });
});
