import { expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { createBackEmf } from '../../lib/back-emf.ts';
import { createEvidence } from '../../lib/evidence.ts';
import { V } from '../../lib/index.ts';
import { createVehicleSpeed } from '../../lib/vehicle-speed.ts';
import { createWindings } from '../../lib/winding.ts';
import { SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';
import { speedInGrip } from './grip.ts';

// A car of closed form: V d = R i + K v with the core's own constants.

const { vehicle, setups } = bake(vehicleOf(SAMPLES.hatch), [setupOf({ name: 'a', surface: 'b' })]);
const TICK = 10;
const MV = 7400;

/** The stages up to the evidence of jams; currents of both motors alike, mA. */
function rig() {
  const motors = createBackEmf(vehicle, createWindings(vehicle));
  const ground = createVehicleSpeed(vehicle);
  const evidence = createEvidence(vehicle);
  evidence.load([...setups[0]!]);
  const windings = createWindings(vehicle);
  const tick = (drive: number, speeds: readonly [number, number], coasts = false) => {
    const ma = speeds.map((speed) =>
      coasts ? 0 : Math.round((MV * drive - vehicle[V.EMF_UV]! * speed) / windings.ohm(0)),
    );
    const last = [drive, drive, 0, 0];
    motors.run(last, MV, [...ma, 0, 0], [], ground.speed);
    ground.run(motors, 0, TICK);
    evidence.run(motors, ground, last, TICK);
    return evidence.jam;
  };
  return { tick };
}

/** Speed a tick later in grip, mm/s: what the currents push is what the vehicle gains. */
function speedAfter(speed: number, drive: number): number {
  const current = (MV * drive - vehicle[V.EMF_UV]! * speed) / vehicle[V.MOTOR_MOHM]!;
  return speedInGrip(vehicle, speed, [current, current], TICK);
}

/** Ticks from a command on until the held wheel's sum is 10, after rolling with none. */
function ticksUntilTold(way: number): number {
  const { tick } = rig();
  for (let i = 0; i < 80; i++) tick(way * Math.min(400, 8 * i), [way * 9 * i, way * 9 * i]);
  for (let i = 0; i < 10; i++) tick(0, [way * 700, way * 700]);
  let ticks = 0;
  while (ticks < 60 && tick(way * 450, [0, way * 700])[0]! < 10) ticks++;
  return ticks;
}

test('a wheel held fast after rolling is told in reverse as soon as forward', () => {
  expect(ticksUntilTold(1)).toBeLessThan(25);
  expect(ticksUntilTold(-1)).toBe(ticksUntilTold(1));
});

test('what a wheel was due ends with its command, though its bridge coasts', () => {
  const { tick } = rig();
  const start = () => {
    let most = 0;
    let speed = 0;
    for (let i = 0; i < 30; i++) {
      const drive = Math.min(500, 300 + 20 * i);
      most = Math.max(most, tick(drive, [speed, speed])[0]!);
      speed = speedAfter(speed, drive);
    }
    return most;
  };
  const first = start();
  for (let i = 0; i < 200; i++) tick(0, [0, 0], true);
  expect(start()).toBeLessThanOrEqual(first + 1);
});

test('a wheel that stops dead under way is told within 60 ms, at a command of a fifth', () => {
  for (const way of [1, -1]) {
    const { tick } = rig();
    let speed = 0;
    for (let i = 0; i < 300; i++) {
      const drive = Math.min(230, 4 * i);
      tick(way * drive, [way * speed, way * speed]);
      speed = speedAfter(speed, drive);
    }
    let ticks = 0;
    while (ticks < 60 && tick(way * 230, [0, way * speed])[0]! < 14) ticks++;
    expect(ticks * TICK, `${way}`).toBeLessThanOrEqual(60);
  }
});

test('wheels that the ground takes along, as the command falls in a slide, are not told', () => {
  const { tick } = rig();
  let speed = 0;
  for (let i = 0; i < 120; i++) {
    const drive = Math.min(250, 8 * i);
    tick(0 - drive, [0 - speed, 0 - speed]);
    speed = speedAfter(speed, drive);
  }
  let most = 0;
  for (let i = 0; i < 10; i++) {
    const drive = Math.max(0, 140 - 15 * i);
    most = Math.max(most, ...tick(0 - drive, [0, 0]));
  }
  expect(speed).toBeGreaterThan(300);
  expect(most).toBe(0);
});
