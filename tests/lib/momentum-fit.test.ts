import { Matrix, solve } from 'ml-matrix';
import { expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { V } from '../../lib/index.ts';
import { createMomentumFit } from '../../lib/momentum-fit.ts';
import { SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';

// Vehicles of closed form: what they make of their currents is known.

const { vehicle } = bake(vehicleOf(SAMPLES.hatch), [setupOf({ name: 'a', surface: 'b' })]);
const TICK = 10;
const PUSH = vehicle[V.THRUST_MN_A]! / vehicle[V.MASS_G]!;
const HEAVY = 1 + (2 * vehicle[V.ROTATING_G]!) / vehicle[V.MASS_G]!;
const DRAG = (1000 * vehicle[V.DRAG_MN]!) / vehicle[V.MASS_G]! + 2 * PUSH * vehicle[V.NO_LOAD_MA]!;

/** Pull of each tick, mA: pushes of falling strength, one after the other, with rests between. */
function* pulls(pushes: number) {
  for (let n = 0; n < pushes; n++) {
    const most = 4000 + 1500 * (n % 3);
    for (let i = 0; i < 160; i++) yield most * (1 - i / 200);
    for (let i = 0; i < 60; i++) yield 0;
  }
}

interface Course {
  ratio: number;
  drag: number;
  pushes: number;
  steer?: number;
  constants?: readonly number[];
  /** What the wheels show more than the vehicle's speed, mm/s, in a tick of a push. */
  slides?: (tick: number) => number;
}

function learn({ ratio, drag, pushes, steer = 0, constants = vehicle, slides }: Course) {
  const fit = createMomentumFit([...constants]);
  let speed = 0;
  let tick = 0;
  for (const pull of pulls(pushes)) {
    const gain = ((ratio * PUSH * pull - drag) / HEAVY) * (TICK / 1000);
    speed = pull === 0 ? 0 : Math.max(0, speed + gain);
    fit.run(speed + (pull > 0 ? (slides?.(tick % 220) ?? 0) : 0), pull, steer, TICK);
    tick++;
  }
  return fit;
}

test.each([
  { ratio: 0.72, drag: 0.7 * DRAG },
  { ratio: 1, drag: DRAG },
  { ratio: 1.32, drag: 1.5 * DRAG },
])('learns what motors off by 15 per cent and another floor make of currents: $ratio', (true_) => {
  const fit = learn({ ...true_, pushes: 30 });
  expect(fit.ratio / true_.ratio).toBeCloseTo(1, 1);
  expect(Math.abs(fit.ratio / true_.ratio - 1)).toBeLessThan(0.03);
  expect(Math.abs(fit.drag / true_.drag - 1)).toBeLessThan(0.1);
  expect(Math.abs(fit.ratio - true_.ratio)).toBeLessThan(3 * fit.ratioError);
});

test('is least squares: a few spans give what ml-matrix solves in one piece', () => {
  const fit = createMomentumFit([...vehicle]);
  // The same prior as rows, each over its own spread; the drift of a few spans is nearly nothing.
  const rows = [
    [1 / fit.ratioError, 0],
    [0, 1 / fit.dragError],
  ];
  const values = [1 / fit.ratioError, DRAG / fit.dragError];
  const SPREAD = 35;
  const SLIPS = 0.07;
  // A greater current first, so that those of the spans count as borne in grip.
  fit.run(0, 20000, 0, TICK);
  for (let i = 0; i < 100; i++) fit.run(400, 0, 0, TICK);
  let speed = 400;
  for (const [pull, rate] of [
    [3000, 3000],
    [1500, 700],
    [5000, 5600],
  ] as const) {
    for (let i = 0; i < 100; i++) fit.run(speed, pull, 999, TICK);
    // The bend lets the filters settle; with the end of its time the span begins.
    for (let i = 0; i < 20; i++) fit.run(speed, pull, 0, TICK);
    const before = fit.ratio;
    const from = speed;
    let slow = speed;
    let ticks = 0;
    while (fit.ratio === before) {
      speed += (rate * TICK) / 1000;
      slow += ((speed - slow) * TICK) / (40 + TICK);
      fit.run(speed, pull, 0, TICK);
      ticks++;
      if (ticks > 40) throw new Error('no span was learnt from');
    }
    const change = (slow - from) * HEAVY;
    const span = (ticks * TICK) / 1000;
    const gain = PUSH * pull * span;
    const spread = Math.hypot(SPREAD, SLIPS * gain);
    rows.push([gain / spread, -span / spread]);
    values.push(change / spread);
  }
  const design = new Matrix(rows);
  const [ratio, drag] = solve(
    design.transpose().mmul(design),
    design.transpose().mmul(Matrix.columnVector(values)),
  ).to1DArray();
  expect(fit.ratio).toBeCloseTo(ratio!, 3);
  expect(fit.drag / drag!).toBeCloseTo(1, 2);
});

test('leaves out spans in which wheels break loose, or come back to grip', () => {
  const slides = (tick: number) => (tick >= 40 && tick < 70 ? 1500 : 0);
  const fit = learn({ ratio: 1, drag: DRAG, pushes: 30, slides });
  expect(Math.abs(fit.ratio - 1)).toBeLessThan(0.05);
});

test('learns nothing in bends', () => {
  const fit = learn({ ratio: 0.7, drag: DRAG, pushes: 10, steer: -400 });
  expect(fit.ratio).toBe(1);
  expect(fit.drag).toBeCloseTo(DRAG, 9);
});

test.each([0.35, 1.65])(
  'a vehicle no description could be so far off for teaches nothing: %d',
  (ratio) => {
    const fit = learn({ ratio, drag: DRAG, pushes: 3 });
    const fresh = createMomentumFit([...vehicle]);
    expect([fit.ratio, fit.drag, fit.ratioError]).toEqual([1, fresh.drag, fresh.ratioError]);
  },
);

test('stays within what wrong constants explain, finite where they are said to be right', () => {
  const wild = learn({ ratio: 6, drag: 9 * DRAG, pushes: 40 });
  expect(wild.ratio).toBeLessThan(1.5);
  expect(wild.drag).toBeLessThanOrEqual(4 * DRAG + 1e-6);
  const constants = vehicle.map((value, i) => (i === V.MODEL_ERROR ? 0 : value));
  const sure = learn({ ratio: 1.01, drag: DRAG, pushes: 40, constants });
  expect(Math.abs(sure.ratio - 1.01)).toBeLessThan(0.01);
  expect(sure.ratioError).toBeGreaterThan(0);
});

test('hours of steady driving leave no more in doubt than there was at first', () => {
  const fit = createMomentumFit([...vehicle]);
  const [ratio, drag] = [fit.ratioError, fit.dragError];
  const push = (seconds: number, gain: number) => {
    for (let i = 0; i < seconds * 100; i++) {
      speed += gain / 100;
      fit.run(speed, (gain * HEAVY + DRAG) / PUSH, 0, TICK);
    }
  };
  let speed = 0;
  push(1, 2000);
  for (let minute = 0; minute < 120; minute++) push(60, 0);
  expect(fit.ratioError).toBeLessThan(1.1 * ratio);
  expect(fit.dragError).toBeLessThan(1.1 * drag);
});
