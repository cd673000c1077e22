import { describe, expect, test } from 'vitest';
import { createPlant } from '../../harness/plant/plant.ts';
import type { PlantDescription } from '../../harness/plant/plant-description.ts';
import { VX, YAW_RATE } from '../../harness/plant/state.ts';
import practice from '../published/common-practice.json' with { type: 'json' };
import { referenceCar } from './reference-car.ts';

const STEP = 1e-3;
const DEGREES = 180 / Math.PI;

interface Bend {
  radius: number;
  sideslip: number;
  balance: number;
}

/** Means over the last of the seconds that a bend lasts. */
function bend(
  car: PlantDescription,
  how: { throttle: number; steer: number; cut: number; seconds: number },
): Bend {
  const plant = createPlant(car);
  const { body } = plant.state;
  const steps = how.seconds / STEP;
  const last = 1 / STEP;
  let [way, turn, sideslip, balance] = [0, 0, 0, 0];
  for (let i = 0; i < steps; i++) {
    const outer = 1000 * how.throttle * Math.min(1, i * STEP);
    plant.step([outer * (1 - how.cut), outer], 1, how.steer, STEP);
    if (i < steps - last) continue;
    const seen = plant.observe();
    way += Math.abs(seen.speed);
    turn += body[YAW_RATE]!;
    sideslip += seen.sideslip / last;
    balance += seen.balance / last;
  }
  return { radius: way / turn, sideslip: sideslip * DEGREES, balance: balance * DEGREES };
}

/** The manoeuvre of the reference car: from rest, full lock at once, throttle to full over 1 s. */
const fullLock = (car: PlantDescription, cut: number) =>
  bend(car, { throttle: 1, steer: 1000, cut, seconds: 4 });

/** Cut at which the balance changes sign, by bisection. */
function crossing(car: PlantDescription, low: number, high: number): number {
  let [from, to] = [low, high];
  for (let i = 0; i < 8; i++) {
    const middle = (from + to) / 2;
    if (fullLock(car, middle).balance > 0) from = middle;
    else to = middle;
  }
  return (from + to) / 2;
}

const slippery = referenceCar('slippery');
const geometric = 0.17 / Math.tan(slippery.steering.lock);
const show = ({ radius, sideslip, balance }: Bend) =>
  `radius ${radius.toFixed(2)} m, sideslip ${sideslip.toFixed(1)} deg, balance ${balance.toFixed(1)} deg`;

describe('reference car, slippery floor, full lock and throttle from rest (common practice, no source)', () => {
  test('inside cut 0 % ploughs: path radius at least twice the geometric one, sideslip at most 15 deg', () => {
    const found = fullLock(slippery, 0);
    console.info(`cut 0 %: ${show(found)}; geometric radius ${geometric.toFixed(3)} m`);
    expect(found.radius).toBeGreaterThan(2 * geometric);
    expect(Math.abs(found.sideslip)).toBeLessThan(15);
    expect(found.balance).toBeGreaterThan(0);
  });

  test('inside cut 20 % spins: sideslip at least 30 deg', () => {
    const found = fullLock(slippery, 0.2);
    console.info(`cut 20 %: ${show(found)}`);
    expect(Math.abs(found.sideslip)).toBeGreaterThan(30);
    expect(found.balance).toBeLessThan(0);
  });

  test('balance changes sign between 5 % and 15 %, and on the grippy floor elsewhere', () => {
    const found = crossing(slippery, 0, 0.3);
    const grippy = crossing(referenceCar('grippy'), 0, 0.9);
    const percent = [found, grippy].map((cut) => (100 * cut).toFixed(1));
    console.info(`balance changes sign at ${percent[0]} %, on the grippy floor at ${percent[1]} %`);
    expect(found).toBeGreaterThan(0.05);
    expect(found).toBeLessThan(0.15);
    expect(Math.abs(grippy - found)).toBeGreaterThan(0.05);
  });
});

describe('more common practice, no source', () => {
  test('17 km/h is reachable by a car that can also spin all four wheels on the slippery floor', () => {
    const plant = createPlant(slippery);
    const { body } = plant.state;
    let mostOfTheLeast = 0;
    for (let i = 0; i < 6 / STEP; i++) {
      plant.step([1000, 1000], 1, 0, STEP);
      if (i * STEP < 1.5 && body[VX]! > 0.1)
        mostOfTheLeast = Math.max(mostOfTheLeast, Math.min(...plant.observe().slipRatio));
    }
    console.info(
      `top speed ${(body[VX]! * 3.6).toFixed(1)} km/h, slip ratio ${mostOfTheLeast.toFixed(2)}`,
    );
    const wanted = practice.facts.find(({ unit }) => unit === 'km/h')?.value;
    expect(wanted).toBe(17);
    expect(body[VX]! * 3.6).toBeGreaterThan(Number(wanted));
    // Beyond the slip of greatest force, 0.5 on this tyre, a wheel has broken loose.
    expect(mostOfTheLeast).toBeGreaterThan(0.55);
  });

  test('weight moved forward, and grippier front tyres, make the steering act more', () => {
    const gentle = (car: PlantDescription) =>
      bend(car, { throttle: 0.45, steer: 700, cut: 0, seconds: 4 }).radius;
    const forward = { ...slippery, body: { ...slippery.body, cgToFront: 0.085, cgToRear: 0.085 } };
    const softer = {
      ...slippery,
      tyres: { ...slippery.tyres, front: { ...slippery.tyres.front, friction: 1.2 } },
    };
    const radii = [slippery, forward, softer].map(gentle);
    console.info(`radius of a gentle bend: ${radii.map((r) => r.toFixed(3)).join(', ')} m`);
    expect(radii[1]).toBeLessThan(0.98 * radii[0]!);
    expect(radii[2]).toBeLessThan(0.9 * radii[0]!);
  });
});
