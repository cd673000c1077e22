import { describe, expect, test } from 'vitest';
import { createPlant } from '../../harness/plant/plant.ts';
import type { PlantDescription } from '../../harness/plant/plant-description.ts';
import { VX, YAW_RATE } from '../../harness/plant/state.ts';
import practice from '../published/common-practice.json' with { type: 'json' };
import { createPlainCar, drivePlainCar } from './plain-car.ts';
import { referenceCar } from './reference-car.ts';

// Source of every expectation here: tests/published/common-practice.json, common practice, no
// source, on the car and manoeuvre of tests/published/reference-car.json.
//
// What the check means, and which model is right. The facts speak of where the car goes, so they
// are held against the last of four seconds. From rest they could hold for no car: below 1 m/s
// hardly any tyre slips and the path is the geometric circle, whatever the cut. The car then
// carries the yaw rate of that tight circle into the plough: with no cut the sideslip passes
// through 26° before it settles at 11°. This is no artefact of the plant: a plain model that shares
// no code with it (plain-car.ts: no relaxation, no lag of loads, another driveline, Euler steps of
// 20 us) passes through the same 26°, settles at the same radius, and agrees on every figure below;
// a run by somebody else's model of this car is followed as well (hall-floor.test.ts).
//
// The cut at which the balance changes sign hangs on what is known least. It is 14.8 % with half of
// the roll moment on each axle, which is assumed here and stood before the answer was known; with
// 38 % of it in front, the share of the weight there, which that other model's run points to, it is
// 17.5 %, outside of the 5 to 15 % expected of it. Five per cent of friction more or less move it
// to 22 % or 7 %. So the trade's "about 10 %" can be neither confirmed nor refuted to better than
// that, and each setup has to be tried on its floor, as the trade says.

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
  `radius ${radius.toFixed(2)} m, sideslip ${sideslip.toFixed(1)} deg, ` +
  `balance ${balance.toFixed(1)} deg`;

describe('reference car, slippery floor, full lock, full gas (common practice, no source)', () => {
  test('inside cut 0 % ploughs: radius twice the geometric or more, sideslip up to 15 deg', () => {
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

describe('what that rests on', () => {
  const rollInFront = (car: PlantDescription, rollShareFront: number): PlantDescription => ({
    ...car,
    body: { ...car.body, rollShareFront },
  });
  const withFriction = (friction: number): PlantDescription => ({
    ...slippery,
    ground: { ...slippery.ground, base: { ...slippery.ground.base, friction } },
  });

  test.each([0, 0.2])('cut %d: up to walking pace the path is the geometric circle', (cut) => {
    const plant = createPlant(slippery);
    const tight = Math.hypot(geometric, slippery.body.cgToRear);
    for (let i = 0; i < 0.6 / STEP; i++) {
      const outer = 1000 * i * STEP;
      plant.step([outer * (1 - cut), outer], 1, 1000, STEP);
    }
    const { speed } = plant.observe();
    expect(speed).toBeGreaterThan(0.5);
    expect(speed / plant.state.body[YAW_RATE]! / tight).toBeGreaterThan(0.9);
    expect(speed / plant.state.body[YAW_RATE]! / tight).toBeLessThan(1.1);
  });

  test.each([
    { cut: 0, share: 0.5 },
    { cut: 0.1, share: 0.5 },
    { cut: 0.2, share: 0.5 },
    { cut: 0.2, share: 0.38 },
  ])('a plain model says the same: cut $cut, $share of the roll moment in front', (each) => {
    const { cut, share } = each;
    const plant = createPlant(rollInFront(slippery, share));
    const plain = createPlainCar();
    const options = { friction: 0.5, rollShareFront: share };
    const [ours, theirs] = [sums(), sums()];
    for (let i = 0; i < 4 / STEP; i++) {
      const outer = Math.min(1, i * STEP);
      plant.step([1000 * outer * (1 - cut), 1000 * outer], 1, 1000, STEP);
      drivePlainCar(plain, [outer * (1 - cut), outer], 1, STEP, options);
      const isLast = i >= 3 / STEP;
      const { speed, sideslip, balance } = plant.observe();
      ours.add(isLast, { speed, sideslip, balance, yawRate: plant.state.body[YAW_RATE]! });
      theirs.add(isLast, {
        speed: Math.hypot(plain.vx, plain.vy),
        sideslip: Math.atan2(plain.vy, Math.abs(plain.vx)),
        balance: plain.balance,
        yawRate: plain.yawRate,
      });
    }
    console.info(`cut ${cut}, share ${share}: plant ${ours.text()}; plain model ${theirs.text()}`);
    expect(Math.abs(ours.passing() - theirs.passing())).toBeLessThan(1);
    const [a, b] = [ours.settled(), theirs.settled()];
    expect(Math.abs(a.radius / b.radius - 1)).toBeLessThan(0.02);
    expect(Math.abs(a.sideslip - b.sideslip)).toBeLessThan(0.3);
    expect(Math.abs(a.balance - b.balance)).toBeLessThan(0.3);
  });

  test('the cut at which the balance changes sign, by what is known least', () => {
    const percent = (car: PlantDescription) => 100 * crossing(car, 0, 0.4);
    const found = {
      'as assumed': percent(slippery),
      '38 % of the roll moment in front': percent(rollInFront(slippery, 0.38)),
      'friction 0.475': percent(withFriction(0.475)),
      'friction 0.525': percent(withFriction(0.525)),
    };
    for (const [what, cut] of Object.entries(found)) console.info(`${what}: ${cut.toFixed(1)} %`);
    expect(found['38 % of the roll moment in front']).toBeGreaterThan(15);
    expect(found['38 % of the roll moment in front']).toBeLessThan(20);
    expect(found['friction 0.475']).toBeLessThan(found['as assumed'] - 5);
    expect(found['friction 0.525']).toBeGreaterThan(found['as assumed'] + 5);
  });

  test('a load sensitivity of 10 %, full-size tyres’ from memory, cannot be this car’s', () => {
    const sensitive = (loadSensitivity: number): PlantDescription => ({
      ...slippery,
      tyres: {
        front: { ...slippery.tyres.front, loadSensitivity },
        rear: { ...slippery.tyres.rear, loadSensitivity },
      },
    });
    const without = fullLock(sensitive(0.1), 0);
    console.info(`load sensitivity 10 %, cut 0 %: ${show(without)}`);
    expect(Math.abs(without.sideslip)).toBeGreaterThan(30);
    const [none, some] = [0, 0.05].map((share) => crossing(sensitive(share), 0, 0.4));
    console.info(`balance changes sign at ${(100 * some!).toFixed(1)} % with 5 %`);
    expect(some!).toBeGreaterThan(0.03);
    expect(some!).toBeLessThan(none! - 0.05);
  });

  test('at a friction of 0.45 it spins without any cut', () => {
    const found = fullLock(withFriction(0.45), 0);
    console.info(`friction 0.45, cut 0 %: ${show(found)}`);
    expect(Math.abs(found.sideslip)).toBeGreaterThan(30);
  });
});

interface Seen {
  speed: number;
  yawRate: number;
  sideslip: number;
  balance: number;
}

/** Greatest sideslip of all, and means of the last part. */
function sums() {
  let most = 0;
  let count = 0;
  const sum = { speed: 0, yawRate: 0, sideslip: 0, balance: 0 };
  const all = {
    add: (isLast: boolean, { speed, yawRate, sideslip, balance }: Seen) => {
      most = Math.max(most, Math.abs(sideslip));
      if (!isLast) return;
      count++;
      sum.speed += Math.abs(speed);
      sum.yawRate += yawRate;
      sum.sideslip += sideslip;
      sum.balance += balance;
    },
    passing: () => most * DEGREES,
    settled: (): Bend => ({
      radius: sum.speed / sum.yawRate,
      sideslip: (sum.sideslip / count) * DEGREES,
      balance: (sum.balance / count) * DEGREES,
    }),
    text: () => `sideslip up to ${all.passing().toFixed(1)} deg, then ${show(all.settled())}`,
  };
  return all;
}

describe('more common practice, no source', () => {
  test('17 km/h is reached by a car that also spins all four wheels on the slippery floor', () => {
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
