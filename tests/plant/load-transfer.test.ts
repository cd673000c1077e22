import { describe, expect, test } from 'vitest';
import { deflectTyres, measureContacts } from '../../harness/plant/deflect-tyres.ts';
import { createFrame, type Frame } from '../../harness/plant/frame.ts';
import { evenGround } from '../../harness/plant/ground.ts';
import { loadWheels } from '../../harness/plant/load-wheels.ts';
import { pressTyres } from '../../harness/plant/press-tyres.ts';
import published from '../published/load-transfer.json' with { type: 'json' };
import { referenceCar } from './reference-car.ts';

interface Case {
  m: number;
  h: number;
  t: number;
  ay: number;
  ax: number;
}

/** Axle distances of the source's case: they follow from its static loads. */
const lf = 0.15875;
const lr = 0.17145;

function loaded({ m, h, t, ay, ax }: Case): Float64Array {
  const car = referenceCar('slippery');
  const body = {
    ...car.body,
    mass: m,
    cgHeight: h,
    trackFront: t,
    trackRear: t,
    cgToFront: lf,
    cgToRear: lr,
  };
  const frame = createFrame({ ...car, body }, false);
  frame.state.transfer.set([ax, ay, ax, ay]);
  loadWheels(frame);
  return frame.state.force.slice(8);
}

describe('load transfer (formulas; CommonRoad doc. section 7; Gillespie ch. 6 from memory)', () => {
  test.each(published.load_transfer.cases)('ax $ax, ay $ay', (each) => {
    const level = loaded({ ...each, ax: 0, ay: 0 });
    expect(level[2]! + level[3]!).toBeCloseTo(each.static_f, 9);
    expect(level[0]! + level[1]!).toBeCloseTo(each.static_r, 9);
    const moving = loaded(each);
    expect(moving[2]! + moving[3]!).toBeCloseTo(each.Fzf, 9);
    expect(moving[0]! + moving[1]!).toBeCloseTo(each.Fzr, 9);
    // Turning left loads the right wheels; each wheel gains what its partner loses.
    const shift = (moving[1]! - moving[0]! + moving[3]! - moving[2]!) / 2;
    expect(shift).toBeCloseTo(each.dFz_lateral_total, 9);
  });

  test.each(published.load_transfer.cases)('tips over beyond $rollover_ay_g g', (each) => {
    const inner = (g: number) => loaded({ ...each, ax: 0, ay: g * 9.81 });
    const before = inner(each.rollover_ay_g * 0.999);
    const after = inner(each.rollover_ay_g * 1.001);
    expect(before[0]! + before[2]!).toBeGreaterThan(0);
    expect(after[0]! + after[2]!).toBeCloseTo(0, 9);
    expect(after[1]! + after[3]!).toBeCloseTo(each.m * 9.81, 9);
  });

  test('the axle with the stiffer roll takes its share of the moment', () => {
    const car = referenceCar('slippery');
    const frame = createFrame({ ...car, body: { ...car.body, rollShareFront: 0.8 } }, false);
    frame.state.transfer.set([0, 2, 0, 2]);
    loadWheels(frame);
    const [rl, rr, fl, fr] = frame.state.force.slice(8);
    expect((fr! - fl!) / (rr! - rl!)).toBeCloseTo(4, 9);
  });
});

/** Forces along the wheels, N, given; the sum on the body. */
function momentOf(track: number, left: number, right: number): number {
  const car = referenceCar('slippery');
  const body = { ...car.body, trackFront: track, trackRear: track };
  const frame: Frame = createFrame({ ...car, body }, false);
  const stiff = 1e6;
  for (const [i, force] of [left, right].entries()) {
    frame.tyre.model[i] = {
      force: (slip) => slip * stiff,
      stiffness: () => stiff,
      peakSlip: () => 1,
      trail: () => 0,
    };
    frame.state.deflection[i] = (force / stiff) * frame.tyre.relaxation[i]!;
  }
  frame.contact.rolling.fill(10);
  pressTyres(frame);
  return frame.sum[2]!;
}

describe('yaw moments of the rear axle (derived; locked: Milliken ch. 20, from memory)', () => {
  test('two motors: (Tr - Tl) / r t / 2', () => {
    const { Tr, Tl, rw, t, Mz } = published.two_motor_yaw_moment.case;
    expect(momentOf(t, Tl / rw, Tr / rw)).toBeCloseTo(Mz, 6);
  });

  test.each(published.locked_axle.cases)('locked axle, R $R m: opposes the turn', (each) => {
    const { t, R, Ckappa, kappa_inner: inner, kappa_outer: outer } = each;
    expect(momentOf(t, Ckappa * inner, Ckappa * outer)).toBeCloseTo(each.Mz_into_turn, 5);
    // The plant takes theoretical slip, against the wheels' own speed: then both sides slip alike,
    // which is the source's small-slip formula; its printed value takes slip against the ground.
    const found = lockedAxleMoment(t, R, Ckappa);
    expect(found).toBeCloseTo(each.small_slip_formula, 3);
    expect(Math.abs(found / each.Mz_into_turn - 1)).toBeLessThan(0.03);
  });
});

/** Moment of the rear axle's forces along the wheels, both turning alike, on a circle; N m. */
function lockedAxleMoment(track: number, radius: number, slipStiffness: number): number {
  const car = referenceCar('slippery');
  const tyre = { kind: 'brush' as const, slipStiffness, halfContact: 0 };
  const base = { ...car.ground.base, friction: 10_000, tyre };
  const body = { ...car.body, trackRear: track, cgHeight: 0 };
  const frame = createFrame({ ...car, body, ground: evenGround(base) }, false);
  const { state } = frame;
  state.body.set([0, 0, 0, 1, body.cgToRear / radius, 1 / radius]);
  for (let i = 0; i < 4; i++) state.speeds[i] = 1 / frame.radius[i]!;
  measureContacts(frame);
  frame.span[1] = 0.01;
  for (let i = 0; i < 1000; i++) deflectTyres(frame);
  loadWheels(frame);
  pressTyres(frame);
  return ((state.force[1]! - state.force[0]!) * track) / 2;
}
