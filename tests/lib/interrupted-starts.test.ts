import { expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { Found, V } from '../../lib/index.ts';
import { SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';
import { createArmedBench, pulse } from './bench.ts';
import { speedInGrip, warmOhm } from './grip.ts';

// A vehicle of closed form behind a whole controller: V d = R i + K v, and its wheels grip.

const constants = bake(vehicleOf(SAMPLES.hatch), [setupOf({ name: 'a', surface: 'b' })]);
const { vehicle } = constants;
const MV = 7400;
const EMF = vehicle[V.EMF_UV]!;
const OHM = warmOhm(vehicle);

/** All that is found in plain starts, and then in some in which the left wheel is held at first. */
function foundIn(heldMs: number): number {
  const { outputs, step } = createArmedBench(constants);
  let speed = 0;
  let found = 0;
  const drive = (ticks: number, throttle: number, held = 0) => {
    for (let i = 0; i < ticks; i++) {
      const speeds = [i * 10 < held ? 0 : speed, speed];
      const currents = speeds.map((v, m) => Math.round((MV * outputs.drive[m]! - EMF * v) / OHM));
      step(1, { throttleUs: pulse(throttle), currentMa: [...currents, 0, 0] });
      found |= outputs.found;
      const turning = i * 10 < held ? currents.slice(1) : currents;
      speed = speedInGrip(vehicle, speed, turning, 10);
    }
  };
  const rest = () => {
    drive(250, 0);
    speed = 0;
    drive(30, 0);
  };
  for (let n = 0; n < 3; n++) {
    drive(90, 800);
    rest();
  }
  for (let n = 0; n < 8; n++) {
    drive(heldMs / 10 + 70, 800, heldMs);
    rest();
  }
  return found;
}

test.each([200, 250, 300, 400])('a wheel held for %i ms tells nothing of the front', (heldMs) => {
  const found = foundIn(heldMs);
  expect(found & Found.JAM).not.toBe(0);
  expect(found & Found.FRONT_FREE).toBe(0);
});
