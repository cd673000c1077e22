import type { Figure, FigureSource } from './figure.ts';
import { STEP_BUDGETS } from './step-budgets.ts';
import {
  changeByHalfStep,
  type MetricChange,
  type StepChange,
  stepFixtures,
} from './step-change.ts';

/** What halving the plant's step changes, drive by drive, beside the budget of each. */
export const stepHalving: FigureSource = {
  name: 'step',
  async measure() {
    const fixtures = await stepFixtures();
    return fixtures.map(({ fixture, plan }, i) => {
      if (process.stderr.isTTY)
        process.stderr.write(`\r${i + 1} of ${fixtures.length} drives\x1b[K`);
      if (process.stderr.isTTY && i === fixtures.length - 1) process.stderr.write('\r\x1b[K');
      return figureOf(changeByHalfStep(fixture, plan));
    });
  },
};

/** No budget is below this, %. */
const LEAST = 0.1;

/** Whether a budget leaves four times the room that is needed; a sentence, or undefined. */
export function tightening({ fixture, worst }: StepChange): string | undefined {
  const budget = STEP_BUDGETS[fixture] ?? 0;
  if (budget <= LEAST || worst.percent >= budget / 4) return undefined;
  const measured = worst.percent.toPrecision(2);
  return `${fixture}: measured ${measured} % of ${budget} %; the budget can be tightened.`;
}

function figureOf(change: StepChange): Figure {
  const { fixture, worst } = change;
  const notes = [tightening(change), ...change.tooSmallToTell.map((each) => small(fixture, each))]
    .filter((note) => note !== undefined)
    .join(' ');
  return {
    what: `halving the step, ${fixture}`,
    where: pair(worst),
    value: Math.round(worst.percent * 1000) / 1000,
    unit: '%',
    most: STEP_BUDGETS[fixture] ?? 0,
    ...(notes !== '' && { note: notes }),
  };
}

function small(fixture: string, change: MetricChange): string {
  const share = change.ofValue.toPrecision(2);
  return `${fixture}: ${pair(change)}, ${share} % of a value too small to tell.`;
}

function pair({ label, unit, coarse, fine }: MetricChange): string {
  const show = (value: number | null) => (value === null ? 'none' : value.toPrecision(4));
  return `${label} ${show(coarse)} to ${show(fine)} ${unit}`.trim();
}
