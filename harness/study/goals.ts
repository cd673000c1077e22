import { BAKED } from './run-drive.ts';
import type { LevelTally, Score, Tally } from './tally.ts';

/** A goal of the study beside what was measured. */
interface Goal {
  what: string;
  goal: string;
  measured: string;
  isMet: boolean;
}

/**
 * All goals, at the baked thresholds.
 *
 * @param isCold judge cores that were switched on just before, not those that know calm starts
 */
export function judgeGoals(everything: Tally, hard: Tally, isCold = false): Goal[] {
  const levelOf = ({ levels, cold }: Tally) => (isCold ? cold : levels[BAKED]!);
  const { scores } = levelOf(everything);
  const score = (name: string): Score => scores.get(name) ?? { events: 0, found: 0, delays: [] };
  return [
    ...['full', 'hard'].flatMap((severity) => {
      const spin = score(`spin/${severity}`);
      return [
        share(`${severity} spins found`, spin, 0.99),
        delay(`${severity} spins, median delay`, spin, 0.5, 80),
        delay(`${severity} spins, 95 % of those found`, spin, 0.95, 150),
      ];
    }),
    share('a side free, found within 500 ms', score('free'), 0.98),
    share('front drive lost, found within three launches', score('front'), 0.9),
    share('jams found within 250 ms of 30 % command', score('jam'), 0.999),
    share('jams found before stall time and heat stop them', score('jam before guard'), 0.999),
    falseAlarms(levelOf(hard), hard.wholeHours),
  ];
}

/** Share, with its 95 % interval by Wilson 1927, in percent. */
export function shareText({ events, found }: Score): string {
  if (events === 0) return 'no event';
  const [least, most] = wilson(found, events);
  const percent = (value: number) => (100 * value).toFixed(1);
  return `${percent(found / events)} % of ${events} (${percent(least)} to ${percent(most)})`;
}

/** Quantile of delays, ms. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}

/** Greatest rate that so many events in that time still allow, 95 %, one-sided: exact Poisson. */
export function rateBound(events: number, hours: number): number {
  // Many events: the square root is nearly normal, and the sum below would underflow.
  if (events > 200) return (Math.sqrt(events + 1) + 0.82) ** 2 / hours;
  let [least, most] = [events, events + 10 + 5 * Math.sqrt(events + 1)];
  for (let i = 0; i < 60; i++) {
    const mean = (least + most) / 2;
    if (poissonUpTo(events, mean) > 0.05) least = mean;
    else most = mean;
  }
  return most / hours;
}

function share(what: string, score: Score, least: number): Goal {
  return {
    what,
    goal: `≥ ${100 * least} %`,
    measured: shareText(score),
    isMet: score.events > 0 && score.found / score.events >= least,
  };
}

function delay(what: string, { delays }: Score, at: number, most: number): Goal {
  const value = quantile(delays, at);
  const measured = Number.isNaN(value) ? 'none found' : `${value.toFixed(0)} ms`;
  return { what, goal: `≤ ${most} ms`, measured, isMet: value <= most };
}

function falseAlarms({ falseAlarms: counts }: LevelTally, wholeHours: number): Goal {
  const kinds = ['spin', 'free', 'front', 'jam'].map((kind) => [kind, counts.get(kind) ?? 0]);
  const count = kinds.reduce((sum, [, each]) => sum + Number(each), 0);
  const per10 = (10 * count) / wholeHours;
  const bound = 10 * rateBound(count, wholeHours);
  const parts = kinds.map(([kind, each]) => `${kind} ${each}`).join(', ');
  return {
    what: 'false alarms in 10 h of normal hard driving',
    goal: '≤ 1',
    measured:
      `${per10.toFixed(2)}: ${parts} in ${wholeHours.toFixed(1)} h; ` +
      `at most ${bound.toFixed(2)} with 95 %`,
    isMet: per10 <= 1,
  };
}

function wilson(found: number, events: number): [number, number] {
  const z = 1.96;
  const p = found / events;
  const middle = p + (z * z) / (2 * events);
  const half = z * Math.sqrt((p * (1 - p)) / events + (z * z) / (4 * events * events));
  const scale = 1 + (z * z) / events;
  return [Math.max(0, (middle - half) / scale), Math.min(1, (middle + half) / scale)];
}

function poissonUpTo(count: number, mean: number): number {
  let term = Math.exp(-mean);
  let sum = term;
  for (let i = 1; i <= count; i++) {
    term *= mean / i;
    sum += term;
  }
  return sum;
}
