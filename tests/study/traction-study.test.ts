import { expect, test } from 'vitest';
import { rateBound, shareText } from '../../harness/study/goals.ts';
import { loadStudyGarages, studyGarage } from '../../harness/study/load-study-garages.ts';
import { type DriveSet, planDrives } from '../../harness/study/plan-drives.ts';
import { BAKED, runDrive } from '../../harness/study/run-drive.ts';
import { addDrive, createTally } from '../../harness/study/tally.ts';

// A small piece of `npm run study:traction`; the bounds are no goals, they hold what is reached.

const garages = await loadStudyGarages();
const choice = [...garages].map(([name, garage]) => studyGarage(name, garage));

function study(set: DriveSet, count: number, seed: number) {
  const tally = createTally();
  for (const drive of planDrives(choice, set, count, seed))
    addDrive(tally, runDrive(drive, garages.get(drive.garage)!));
  return tally;
}

test('finds most of what is lost or jammed in 40 drives, soon', () => {
  const { scores } = study('everything', 40, 38).levels[BAKED]!;
  for (const [name, least] of [
    ['free', 0.65],
    ['jam', 0.75],
    ['jam before guard', 0.8],
  ] as const) {
    const { events, found } = scores.get(name)!;
    expect(events).toBeGreaterThan(7);
    expect(found / events, name).toBeGreaterThan(least);
  }
});

test('raises hardly an alarm in ten minutes of hard driving', () => {
  const { falseAlarms, nearAlarms } = study('hard', 20, 32).levels[BAKED]!;
  const count = ['spin', 'free', 'jam', 'front'].map((kind) => falseAlarms.get(kind) ?? 0);
  expect(count.reduce((sum, each) => sum + each)).toBeLessThanOrEqual(1);
  expect(nearAlarms.get('spin') ?? 0).toBeLessThanOrEqual(3);
});

test('the same seed gives the same drives, the first of more are those of fewer', () => {
  expect(planDrives(choice, 'everything', 5, 3)).toEqual(
    planDrives(choice, 'everything', 9, 3).slice(0, 5),
  );
});

test('bounds by hand: no event in 3 h leaves 1 an hour (rule of three), 3.0 exactly', () => {
  expect(rateBound(0, 1)).toBeCloseTo(2.9957, 3);
  expect(rateBound(1, 1)).toBeCloseTo(4.7439, 3);
  expect(shareText({ events: 10, found: 9, delays: [] })).toBe('90.0 % of 10 (59.6 to 98.2)');
});
