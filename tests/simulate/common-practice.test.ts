import { describe, expect, test } from 'vitest';
import { type SimulationResult, simulate } from '../../harness/simulate/simulate.ts';
import { referenceCar } from '../plant/reference-car.ts';
import facts from '../published/common-practice.json' with { type: 'json' };
import car from '../published/reference-car.json' with { type: 'json' };
import { referenceDrive, scripted } from './drives.ts';

// Source of every expectation here: tests/published/common-practice.json, common practice, no
// source. The inside cut is set in a setup and made by the core; the plant fed directly is in
// tests/plant/common-practice.test.ts.

const DEGREES = 180 / Math.PI;
const GEOMETRIC = car.wheelbase_m / Math.tan((car.steering_lock_deg * Math.PI) / 180);

interface Settled {
  radius: number;
  sideslip: number;
  balance: number;
  speed: number;
}

/** Means over the last second of a drive; at 6 s the car no longer changes what it does. */
function settled({ trace }: SimulationResult): Settled {
  const from = trace.t.findIndex((t) => t >= trace.t.at(-1)! - 1);
  const mean = (column: Float64Array) => {
    const part = column.subarray(from);
    return part.reduce((sum, value) => sum + value, 0) / part.length;
  };
  return {
    radius: Math.abs(mean(trace.speed) / mean(trace.yawRate)),
    sideslip: Math.abs(mean(trace.sideslip)) * DEGREES,
    balance: mean(trace.balance) * DEGREES,
    speed: mean(trace.speed),
  };
}

const withCut = (floor: 'slippery' | 'grippy', cut: number) =>
  settled(simulate(referenceDrive(floor, cut)));

/** Cut at which the settled balance changes sign, by bisection. */
function crossing(floor: 'slippery' | 'grippy', low: number, high: number): number {
  let [from, to] = [low, high];
  for (let i = 0; i < 9; i++) {
    const middle = (from + to) / 2;
    if (withCut(floor, middle).balance > 0) from = middle;
    else to = middle;
  }
  return (from + to) / 2;
}

const show = (name: string, { radius, sideslip, balance }: Settled) =>
  console.info(
    `${name}: radius ${radius.toFixed(2)} m (${(radius / GEOMETRIC).toFixed(1)} x geometric), ` +
      `sideslip ${sideslip.toFixed(1)}°, balance ${balance.toFixed(1)}°`,
  );

describe('reference car with the core in the loop, full lock and throttle from rest', () => {
  test('slippery floor, inside cut 0 %: ploughs', () => {
    const found = withCut('slippery', 0);
    show('cut 0 %', found);
    expect(found.radius).toBeGreaterThanOrEqual(2 * GEOMETRIC);
    expect(found.sideslip).toBeLessThanOrEqual(15);
    expect(found.balance).toBeGreaterThan(0);
  });

  test('slippery floor, inside cut 20 %: spins', () => {
    const found = withCut('slippery', 0.2);
    show('cut 20 %', found);
    expect(found.sideslip).toBeGreaterThanOrEqual(30);
    expect(found.balance).toBeLessThan(0);
  });

  test('the balance changes sign between 5 % and 15 %, and on the grippy floor elsewhere', () => {
    const slippery = crossing('slippery', 0, 0.3);
    const grippy = crossing('grippy', 0, 0.95);
    console.info(
      `balance changes sign at ${(100 * slippery).toFixed(1)} %, ` +
        `on the grippy floor at ${(100 * grippy).toFixed(1)} %`,
    );
    expect(slippery).toBeGreaterThan(0.05);
    expect(slippery).toBeLessThan(0.15);
    expect(Math.abs(grippy - slippery)).toBeGreaterThan(0.05);
  });

  test('much weight on the rear: the split turns the car more than the steering does', () => {
    const ploughing = withCut('slippery', 0);
    const spinning = withCut('slippery', 0.2);
    // Without steering and cut it goes straight on, so this is all that full lock does.
    const bySteering = 1 / ploughing.radius;
    const bySplit = 1 / spinning.radius - 1 / ploughing.radius;
    console.info(
      `curvature by full lock alone ${bySteering.toFixed(2)}/m, by a cut of 20 % on top ` +
        `${bySplit.toFixed(2)}/m`,
    );
    expect(bySplit).toBeGreaterThan(2 * bySteering);
  });

  test('weight forward, and grippier (softer) front tyres, make the steering act more', () => {
    // Half throttle: below the point at which power alone decides where the car goes.
    const gentle = scripted(4, (t, sticks) => {
      sticks.steer = 0.7;
      sticks.throttle = 0.45 * Math.min(t, 1);
    });
    const plain = referenceCar('slippery');
    const half = car.wheelbase_m / 2;
    const forward = { ...plain, body: { ...plain.body, cgToFront: half, cgToRear: half } };
    const softer = {
      ...plain,
      tyres: { ...plain.tyres, front: { ...plain.tyres.front, friction: 1.2 } },
    };
    const [asIs, ahead, soft] = [plain, forward, softer].map(
      (plant) =>
        settled(simulate(referenceDrive('slippery', 0, { plant, manoeuvre: gentle }))).radius,
    );
    console.info(
      `radius ${asIs!.toFixed(3)} m, weight forward ${ahead!.toFixed(3)} m, ` +
        `softer front ${soft!.toFixed(3)} m`,
    );
    expect(ahead!).toBeLessThan(0.98 * asIs!);
    expect(soft!).toBeLessThan(0.98 * asIs!);
  });

  test('17 km/h is reached by the same car that spins all its wheels on the slippery floor', () => {
    const full = scripted(8, (t, sticks) => {
      sticks.throttle = t > 0 ? 1 : 0;
    });
    const { trace } = simulate(referenceDrive('slippery', 0, { manoeuvre: full }));
    const fact = facts.facts.find(({ what }) => what.startsWith('top speed'))!;
    const top = Math.max(...trace.speed) * 3.6;
    const least = Math.max(
      ...Array.from(trace.t, (_, i) => Math.min(...trace.slipRatio.map((wheel) => wheel[i]!))),
    );
    console.info(
      `top speed ${top.toFixed(1)} km/h; all four wheels slip by ${percent(least)} at once`,
    );
    expect(top).toBeGreaterThanOrEqual(Number(fact.value));
    expect(least).toBeGreaterThan(0.5);
  });
});

function percent(share: number): string {
  return `${(100 * share).toFixed(0)} %`;
}
