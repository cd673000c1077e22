import { expect, test } from 'vitest';
import type { Verdict } from '../../harness/metrics/compute-verdict.ts';
import type { Metric } from '../../harness/metrics/metric.ts';
import type { SetupDrive } from '../../harness/simulate/drive-setup.ts';
import { handlingTexts } from '../../harness/simulate/verdict-words.ts';

const SCRUB = 'Tracks scrub: there is no balance to judge.';

/** As much of a drive as its sentence rests on. */
function drive(value: number, verdict: Pick<Verdict, 'kind' | 'text'>, more: object = {}) {
  const ratio = { label: 'Ratio', unit: '', digits: 2, value } as Metric;
  return { verdict, metrics: [ratio], result: {}, ...more } as SetupDrive;
}

test('why there is no balance to judge is said once of several drives', () => {
  const none = { kind: 'none', text: SCRUB } as const;
  expect(handlingTexts([drive(4.4, none)])).toEqual({ texts: [`Ratio: 4.40. ${SCRUB}`] });
  expect(handlingTexts([drive(4.4, none), drive(4.5, none)])).toEqual({
    texts: ['Ratio: 4.40.', 'Ratio: 4.50.'],
    ofAll: SCRUB,
  });
});

test('drives that differ each have their own sentence', () => {
  const none = { kind: 'none', text: SCRUB } as const;
  const spin = { kind: 'spin', text: 'Spins.' } as const;
  const ended = { result: { divergence: { time: 1, found: 'NaN', cause: 'Too light.' } } };
  expect(handlingTexts([drive(4.4, none), drive(4.5, spin)])).toEqual({
    texts: [`Ratio: 4.40. ${SCRUB}`, 'Spins.'],
  });
  expect(handlingTexts([drive(4.4, none), drive(4.5, none, ended)])).toEqual({
    texts: [`Ratio: 4.40. ${SCRUB}`, 'Ended at 1.00 s: NaN. Too light.'],
  });
});
