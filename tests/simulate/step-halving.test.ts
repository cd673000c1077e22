import { describe, expect, test } from 'vitest';
import { STEP_BUDGETS } from '../../harness/figures/step-budgets.ts';
import { changeByHalfStep, stepFixtures } from '../../harness/figures/step-change.ts';
import { tightening } from '../../harness/figures/step-halving.ts';

/** Goal for every fixture, %. */
const GOAL = 1;

describe('halving the plant’s step changes no metric beyond the budget of its drive', async () => {
  const fixtures = await stepFixtures();

  test('every manoeuvre of every demo car has its budget, within the goal of 1 %', () => {
    expect(Object.keys(STEP_BUDGETS).sort()).toEqual(fixtures.map((each) => each.fixture).sort());
    for (const budget of Object.values(STEP_BUDGETS)) expect(budget).toBeLessThanOrEqual(GOAL);
  });

  test.each(fixtures)('$fixture', ({ fixture, plan }) => {
    const change = changeByHalfStep(fixture, plan);
    const { label, unit, coarse, fine, percent } = change.worst;
    const hint = tightening(change);
    if (hint !== undefined) console.info(hint);
    expect(change.metrics).toBeGreaterThan(3);
    expect(
      percent,
      `${label} ${coarse} to ${fine} ${unit}; see harness/figures/step-budgets.ts`,
    ).toBeLessThanOrEqual(STEP_BUDGETS[fixture]!);
    for (const small of change.tooSmallToTell)
      expect(Math.abs(small.coarse! - small.fine!)).toBeLessThan(small.resolution);
  });

  test('the comparison is not blind: it sees that the change falls with the step', () => {
    const { fixture, plan } = fixtures.find((each) => each.fixture === 'hatch, launch-circle')!;
    const asIs = changeByHalfStep(fixture, plan);
    const coarse = changeByHalfStep(fixture, plan, 0.0005);
    // Second order: half the step, a quarter of the change.
    expect(coarse.worst.percent).toBeGreaterThan(0);
    expect(coarse.worst.percent).toBeLessThan(asIs.worst.percent / 1.5);
  });
});
