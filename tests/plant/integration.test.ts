import { createRequire } from 'node:module';
import { expect, test } from 'vitest';
import { createPlant, type Plant } from '../../harness/plant/plant.ts';
import { VX, VY, X, Y, YAW_RATE } from '../../harness/plant/state.ts';
import { equationsOf } from './derivative.ts';
import { referenceCar } from './reference-car.ts';

/** The package ships TypeScript sources that a strict compiler refuses; its types are said here. */
interface Odex {
  Solver: new (
    size: number,
  ) => {
    absoluteTolerance: number;
    relativeTolerance: number;
    solve(
      rates: (t: number, y: number[]) => number[],
      from: number,
      start: number[],
      to: number,
    ): { y: number[] };
  };
}
const require = createRequire(import.meta.url);
const { Solver }: Odex = require('odex');

const DRIVE = [600, 600];
const STEER = 400;
const DURATION = 1.5;

/** The reference car on the grippy floor, rolling at 2 m/s, its front wheels turned already. */
function rolling(): Plant {
  const plant = createPlant(referenceCar('grippy'));
  plant.place({ x: 0, y: 0, yaw: 0, speed: 2 });
  plant.state.steering[0] = (STEER / 1000) * plant.description.steering.lock;
  plant.restore(plant.snapshot());
  return plant;
}

/** The same as the plant's equations see it under an extrapolation method with error control. */
function referee(): number[] {
  const plant = rolling();
  const equations = equationsOf(plant.description, plant.state, DRIVE);
  const start = equations.read(plant.state);
  const solver = new Solver(start.length);
  solver.absoluteTolerance = 1e-10;
  solver.relativeTolerance = 1e-10;
  return solver.solve((_, y) => equations.rates(y), 0, start, DURATION).y;
}

function stepped(dt: number): Float64Array {
  const plant = rolling();
  for (let i = 0; i < Math.round(DURATION / dt); i++) plant.step(DRIVE, 1, STEER, dt);
  return plant.state.body;
}

test('a smooth bend agrees with odex (Hairer’s ODEX); the integration is of second order', () => {
  const exact = referee();
  const scale = { [X]: 1, [Y]: 1, [VX]: 1, [VY]: 0.1, [YAW_RATE]: 1 };
  const errors = [2e-3, 1e-3, 5e-4, 2.5e-4].map((dt) => {
    const body = stepped(dt);
    const apart = Object.entries(scale).map(
      ([i, unit]) => (body[Number(i)]! - exact[Number(i)]!) / unit,
    );
    return { dt, error: Math.hypot(...apart), place: Math.hypot(apart[0]!, apart[1]!) };
  });
  const lines = errors.map(
    ({ dt, place, error }) =>
      `step ${dt * 1000} ms: place ${(place * 1000).toPrecision(3)} mm, ` +
      `all ${error.toExponential(2)}`,
  );
  const way = `${exact[X]!.toFixed(3)}, ${exact[Y]!.toFixed(3)} m`;
  console.info([`Against odex at ${way} after ${DURATION} s:`, ...lines].join('\n  '));
  expect(errors[1]!.place).toBeLessThan(0.002);
  for (let i = 1; i < errors.length; i++) {
    const order = Math.log2(errors[i - 1]!.error / errors[i]!.error);
    expect(order).toBeGreaterThan(1.8);
    expect(order).toBeLessThan(2.3);
  }
});
