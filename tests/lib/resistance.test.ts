import { Matrix, solve } from 'ml-matrix';
import { expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { V } from '../../lib/index.ts';
import { createResistance } from '../../lib/resistance.ts';
import { SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';

const { vehicle } = bake(vehicleOf(SAMPLES.hatch), [setupOf({ name: 'a', surface: 'b' })]);
const EMF = vehicle[V.EMF_UV]!;
const RECKONED = 2000;
const LEAST = 4 * vehicle[V.CURRENT_ERROR_MA]!;

/** One start: currents in mA with the resistance in mOhm, and the share of the voltage of speed. */
interface Sample {
  ma: number;
  ohm: number;
  share: number;
}

/** What is learnt of a start by the resistance itself, and how sure that is. */
function learn(samples: readonly Sample[]) {
  const resistance = createResistance([...vehicle]);
  const before = resistance.unsure[0]!;
  resistance.begin(0, RECKONED);
  for (const { ma, ohm, share } of samples) {
    const uv = (ohm * ma) / (1 - share);
    resistance.learn(0, RECKONED, uv, ma, (uv * share) / EMF);
  }
  return { ratio: resistance.ratio[0]!, unsure: resistance.unsure[0]!, before };
}

const rising = Array.from({ length: 12 }, (_, n) => LEAST * (2 + n));

test.each([0.9, 1, 1.2])('learns the resistance from the currents of a start: %d', (ratio) => {
  const {
    ratio: learnt,
    unsure,
    before,
  } = learn(rising.map((ma) => ({ ma, ohm: RECKONED * ratio, share: 0 })));
  expect(Math.abs(learnt - ratio)).toBeLessThan(0.003);
  expect(unsure).toBeLessThan(before / 2);
});

test('is least squares with weights of the biweight, as ml-matrix solves it in one piece', () => {
  // Ever more of the voltage is taken by speed, and the resistance seems ever greater.
  const samples = rising.map((ma, n) => ({ ma, ohm: RECKONED * (1 + n / 60), share: n * 0.013 }));
  const prior = 6 * vehicle[V.CURRENT_ERROR_MA]!;
  const rows = [[prior], ...samples.map(({ ma, share }) => [ma * (1 - (share / 0.17) ** 2)])];
  const values = [prior, ...samples.map(({ ohm }, n) => (ohm / RECKONED) * rows[n + 1]![0]!)];
  const [ratio] = solve(new Matrix(rows), Matrix.columnVector(values)).to1DArray();
  expect(learn(samples).ratio).toBeCloseTo(ratio!, 9);
});

test.each([0.18, -0.18])('learns nothing where speed takes more than 17 %%: %d', (share) => {
  const { ratio, unsure, before } = learn(rising.map((ma) => ({ ma, ohm: 3000, share })));
  expect([ratio, unsure]).toEqual([1, before]);
});

test('learns nothing from currents that fall, or lag the voltage as of a loose wheel', () => {
  const first = { ma: rising[6]!, ohm: RECKONED, share: 0 };
  const alone = learn([first]);
  const falling = rising.slice(0, 6).map((ma) => ({ ma, ohm: 2600, share: 0 }));
  expect(learn([first, ...falling])).toEqual(alone);
  expect(learn([first, { ma: rising[7]!, ohm: 3000, share: 0 }])).toEqual(alone);
});
