import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { createPlant } from '../../harness/plant/plant.ts';
import { YAW_RATE } from '../../harness/plant/state.ts';
import { referenceCar } from './reference-car.ts';

// A run of the reference car by somebody else's model: tests/fixtures/runs/hall-floor.md. The plant
// gets the commands of the run and must turn as its gyro says and draw the currents it logged. Two
// models agreeing is no proof of the real world, but neither has seen the other.

const RUN = fileURLToPath(new URL('../fixtures/runs/hall-floor.csv', import.meta.url));
const DEGREES = 180 / Math.PI;
/** When the run loses its front drive for good, s. */
const LOST = 51.3;

/** Columns of the run and what the plant did, once a row. */
interface Row {
  t: number;
  gyro: number;
  yawRate: number;
  logged: number;
  current: number;
  sideslip: number;
  rearSlip: number;
}

/** @param rollShareFront what the file of the car leaves open */
function follow(rollShareFront: number, losesDrive = true): Row[] {
  const car = referenceCar('slippery');
  const plant = createPlant({ ...car, body: { ...car.body, rollShareFront } });
  const lines = readFileSync(RUN, 'utf8').trim().split('\r\n').slice(1);
  const rows = lines.map((line) => line.split(',').map(Number));
  return rows.map((row, i) => {
    const [timeMs = 0, , , , , left = 0, right = 0, gyro = 0, driveLeft, driveRight, steer] = row;
    const { slipRatio, sideslip } = plant.observe();
    const seen: Row = {
      t: timeMs / 1000,
      gyro,
      yawRate: 1000 * plant.state.body[YAW_RATE]!,
      logged: (left + right) / 2,
      current: 500 * (plant.state.current[0]! + plant.state.current[1]!),
      sideslip: Math.abs(sideslip) * DEGREES,
      rearSlip: Math.max(slipRatio[0]!, slipRatio[1]!),
    };
    const next = rows[i + 1]?.[0] ?? timeMs + 10;
    for (let ms = timeMs; ms < next; ms++) {
      if (losesDrive && ms === 1000 * LOST)
        plant.setFaults([{ kind: 'lostDrive', constraint: 'frontDrive' }]);
      plant.step([driveLeft!, driveRight!], 1, steer!, 0.001);
    }
    return seen;
  });
}

/** Means over a part of the run, s. */
function part(rows: readonly Row[], fromS: number, toS: number) {
  const some = rows.filter(({ t }) => t >= fromS && t < toS);
  const mean = (of: (row: Row) => number) =>
    some.reduce((sum, row) => sum + of(row), 0) / some.length;
  return {
    gyro: mean(({ gyro }) => gyro),
    yawRate: mean(({ yawRate }) => yawRate),
    logged: mean(({ logged }) => logged),
    current: mean(({ current }) => current),
    apart: Math.sqrt(mean(({ gyro, yawRate }) => (gyro - yawRate) ** 2)),
    sideslip: Math.max(...some.map(({ sideslip }) => sideslip)),
    rearSlip: Math.max(...some.map(({ rearSlip }) => rearSlip)),
  };
}

const show = (what: string, { gyro, yawRate, logged, current }: ReturnType<typeof part>) =>
  console.info(
    `${what}: gyro ${gyro.toFixed(0)}, plant ${yawRate.toFixed(0)} mrad/s; ` +
      `logged ${logged.toFixed(0)}, plant ${current.toFixed(0)} mA`,
  );

describe('the plant under the commands of the independent run', () => {
  let rows: Row[] = [];
  beforeAll(() => {
    rows = follow(0.5);
  });

  // Parts in which the car holds what it does; tolerance in the yaw rate.
  test.each([
    { what: 'straight at 35 %', from: 4, to: 5, within: 0.03 },
    { what: 'full lock at half speed', from: 12, to: 17, within: 0.05 },
    { what: 'a gentle bend', from: 36, to: 40, within: 0.02 },
    { what: 'a fast bend', from: 50, to: 51.2, within: 0.02 },
    { what: 'the fast bend without front drive', from: 53, to: 57, within: 0.05 },
  ])('$what: yaw rate and mean current', ({ what, from, to, within }) => {
    const found = part(rows, from, to);
    show(what, found);
    // 20 mrad/s is the noise of the gyro, 18 mA the step of the converter.
    expect(Math.abs(found.yawRate - found.gyro)).toBeLessThan(
      Math.max(within * Math.abs(found.gyro), 20),
    );
    expect(Math.abs(found.current - found.logged)).toBeLessThan(18);
  });

  test('top speed at full throttle: the current at the end of the straight', () => {
    const { logged, current } = part(rows, 24, 25);
    expect(Math.abs(current - logged)).toBeLessThan(18);
  });

  test('sample by sample up to the first spin, within three times the noise of the gyro', () => {
    const { apart } = part(rows, 0, 11);
    console.info(`root mean square apart: ${apart.toFixed(0)} mrad/s, noise alone 20`);
    expect(apart).toBeLessThan(60);
  });

  test('full lock, hard power: sideslip on the way and rear slip as in the other model', () => {
    const found = part(rows, 29.1, 31.5);
    show('hard right', found);
    console.info(
      `sideslip to ${found.sideslip.toFixed(0)}° of 24°, slip to ${found.rearSlip.toFixed(2)}`,
    );
    expect(Math.abs(found.sideslip - 24)).toBeLessThan(3);
    expect(found.rearSlip).toBeGreaterThan(0.2);
    expect(found.rearSlip).toBeLessThan(0.4);
  });

  test('roll moment 38 % in front, as the weight: the full-lock circle is the same to 1 %', () => {
    const other = follow(0.38, false);
    for (const [from, to] of [
      [12, 17],
      [29.1, 31.5],
    ] as const) {
      const { gyro, yawRate } = part(other, from, to);
      const half = part(rows, from, to);
      console.info(
        `${from} to ${to} s: gyro ${gyro.toFixed(0)}, plant ${yawRate.toFixed(0)} with 38 %, ` +
          `${half.yawRate.toFixed(0)} with 50 %`,
      );
      expect(Math.abs(yawRate / gyro - 1)).toBeLessThan(0.015);
      expect(Math.abs(half.yawRate / gyro - 1)).toBeGreaterThan(0.03);
    }
  });
});
