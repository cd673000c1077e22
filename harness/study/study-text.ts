import { judgeGoals, quantile, rateBound, shareText } from './goals.ts';
import { BAKED, LEVELS } from './run-drive.ts';
import { RESIDUAL, SAMPLES, SIGMAS, type Tally, TICKS } from './tally.ts';

/** What of a study is printed: the rate found against false alarms, delays, conditions, goals. */
export function studyText(everything: Tally, hard: Tally): string {
  return [
    `${everything.drives} drives with and without faults, ${everything.hours.toFixed(1)} h; ` +
      `${hard.drives} of hard driving, ${hard.wholeHours.toFixed(1)} h.`,
    ...NAMES.flatMap(({ name, kind, title }) => [
      '',
      title,
      ...rocOf(everything, hard, name, kind),
    ]),
    ...NAMES.flatMap(({ name, title }) => [
      '',
      `${title}, by condition`,
      ...byCondition(everything, name),
    ]),
    '',
    'False alarms of hard driving, by condition',
    ...falseByCondition(hard),
    '',
    'Goals, at the thresholds of the setups, by a core that knows four calm starts of the vehicle',
    ...goalsOf(everything, hard, false),
    '',
    'Why: what is found by what the currents can show of it at all, errors of constants left out:',
    'mean residual over the noise of one sample, and how many samples show it',
    ...WHY.flatMap((name) => whyOf(everything, name)),
    '',
    'The same goals by a core that was switched on just before each drive',
    ...goalsOf(everything, hard, true),
  ].join('\n');
}

const NAMES = [
  { name: 'spin/full', kind: 'spin', title: 'Spin, full (slip above 1.5)' },
  { name: 'spin/hard', kind: 'spin', title: 'Spin, hard (slip 0.6 to 1.5)' },
  { name: 'spin/mild', kind: 'spin', title: 'Spin, mild (slip 0.3 to 0.6)' },
  { name: 'spin/sliding', kind: 'spin', title: 'Spin of any kind in a slide across the wheels' },
  { name: 'free', kind: 'free', title: 'Drive of a side lost' },
  { name: 'front', kind: 'front', title: 'Front drive lost' },
  { name: 'front/full', kind: 'front', title: 'Front drive lost, wheels spin fully in its starts' },
  { name: 'front/hard', kind: 'front', title: 'Front drive lost, wheels spin hard' },
  { name: 'front/mild', kind: 'front', title: 'Front drive lost, wheels spin mildly' },
  { name: 'front/grip', kind: 'front', title: 'Front drive lost, wheels never spin' },
  { name: 'jam', kind: 'jam', title: 'Jam, from a command of 30 % on that is held for 250 ms' },
];

function goalsOf(everything: Tally, hard: Tally, isCold: boolean): string[] {
  return judgeGoals(everything, hard, isCold).map(
    ({ what, goal, measured, isMet }) =>
      `  ${isMet ? 'met   ' : 'MISSED'} ${what} ${goal}: ${measured}`,
  );
}

/** What is told from a residual beside noise; a jam is told from a speed that is due. */
const WHY = ['spin/full', 'spin/hard', 'spin/mild', 'free', 'front'];

function whyOf({ levels }: Tally, name: string): string[] {
  const { scores } = levels[BAKED]!;
  const line = (condition: string, values: readonly string[]) => {
    const cells = values.map((value) => {
      const score = scores.get(`${name} ${condition}=${value}`);
      const found = score === undefined ? 'no event' : `${score.found} of ${score.events}`;
      return `${value}: ${found}`;
    });
    return `  ${name}, ${condition} ${cells.join('; ')}`;
  };
  return [line(RESIDUAL, SIGMAS), line(SAMPLES, TICKS)];
}

function rocOf(everything: Tally, hard: Tally, name: string, kind: string): string[] {
  return LEVELS.map((level, i) => {
    const score = everything.levels[i]!.scores.get(name) ?? { events: 0, found: 0, delays: [] };
    const { falseAlarms, nearAlarms } = hard.levels[i]!;
    const count = falseAlarms.get(kind) ?? 0;
    const near = nearAlarms.get(kind) ?? 0;
    const delays = [0.5, 0.95].map((at) => quantile(score.delays, at).toFixed(0)).join(' / ');
    return (
      `  h × ${level}: found ${shareText(score)}, delay 50 / 95 % ${delays} ms; ` +
      `false ${(count / hard.wholeHours).toFixed(2)} an hour ` +
      `(at most ${rateBound(count, hard.wholeHours).toFixed(2)})` +
      (kind === 'spin' ? `, while it slipped a little ${(near / hard.wholeHours).toFixed(1)}` : '')
    );
  });
}

function byCondition({ levels }: Tally, name: string): string[] {
  const { scores } = levels[BAKED]!;
  return [...scores]
    .filter(([key]) => key.startsWith(`${name} `) && key.includes('='))
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, score]) => `  ${key.slice(name.length + 1)}: ${shareText(score)}`);
}

function falseByCondition({ levels, hoursBy }: Tally): string[] {
  return [...levels[BAKED]!.falseAlarms]
    .filter(([key]) => key.includes('='))
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, count]) => {
      const condition = key.slice(key.indexOf(' ') + 1);
      const rate = count / hoursBy.get(condition)!;
      return `  ${key}: ${count}, ${rate.toFixed(2)} an hour`;
    });
}
