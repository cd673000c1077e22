import { describe, expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { Found } from '../../lib/codes.ts';
import { V } from '../../lib/index.ts';
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

/** A controller's traction, tick by tick: commands, permille, and speeds of tracks, mm/s. */
function rig() {
  const traction = createTraction(vehicle, createWindings(vehicle));
  traction.load([...setups[0]!]);
  let found = 0;
  /** @returns bits of jams found so far */
  const tick = (d: Pair, v: Pair) => {
    const currentMa = d.map((each, m) => Math.round((MV * each - EMF * v[m]!) / OHM));
    const goal = [...d, 0, 0];
    traction.run(goal, goal, MV, [...currentMa, 0, 0], [], 0, true, 1, TICK, TICK);
    found |= traction.found;
    return found & (Found.JAM | (Found.JAM << 1));
  };
  for (let i = 0; i < 20; i++) tick([0, 0], [0, 0]);
  return tick;
}

/** Bits found in a bend of 600 ms with these commands, permille, and speeds of tracks, mm/s. */
function foundIn(drive: Pair, speeds: Pair): number {
  const tick = rig();
  let found = 0;
  for (let i = 1; i <= 60; i++) {
    const share = Math.min(1, i / 20);
    found = tick([drive[0] * share, drive[1] * share], [speeds[0] * share, speeds[1] * share]);
  }
  return found;
}

/** The same under way, where the first track stops as the second is driven by `second`. */
function foundWhenFirstStops(second: number): number {
  const tick = rig();
  const speed = 300;
  const drive = (EMF * speed + OHM * 300) / MV;
  for (let i = 1; i <= 100; i++) {
    const share = Math.min(1, i / 50);
    tick([drive * share, drive * share], [speed * share, speed * share]);
  }
  let found = 0;
  for (let i = 0; i < 30; i++) found = tick([330, second], [i < 5 ? speed - 60 * i : 0, 200]);
  return found;
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

  test('is none under way beside one that idles and drags it; a jam beside one driven', () => {
    expect(foundWhenFirstStops(0)).toBe(0);
    expect(foundWhenFirstStops(430)).toBe(Found.JAM);
  });
});
