import type { Residual } from './residual.ts';
import { type Alarm, type DriveResult, LEVELS } from './run-drive.ts';
import type { TrueEvent } from './truth.ts';

/** How often something of one kind was found, and how soon. */
export interface Score {
  events: number;
  found: number;
  /** Delays of those found, ms. */
  delays: number[];
}

/** What a study has seen at one threshold. */
export interface LevelTally {
  /** By `kind`, `kind/severity`, and each of them with ` condition=value`. */
  scores: Map<string, Score>;
  /** Alarms while nothing of the kind was true: with the wheel in grip, and while it slipped. */
  falseAlarms: Map<string, number>;
  nearAlarms: Map<string, number>;
}

/** What a study has seen. */
export interface Tally {
  drives: number;
  /** Time simulated, and time driven with nothing broken, h. */
  hours: number;
  wholeHours: number;
  /** Time driven with nothing broken, by `condition=value`, h. */
  hoursBy: Map<string, number>;
  levels: LevelTally[];
  /** At the baked threshold, by a core that was switched on just before the drive. */
  cold: LevelTally;
}

/** A tally of nothing. */
export function createTally(): Tally {
  return {
    drives: 0,
    hours: 0,
    wholeHours: 0,
    hoursBy: new Map(),
    levels: LEVELS.map(createLevel),
    cold: createLevel(),
  };
}

function createLevel(): LevelTally {
  return { scores: new Map(), falseAlarms: new Map(), nearAlarms: new Map() };
}

/** Spin may be told from the speed it has reached shortly before or after its event, s. */
const BEFORE_S = 0.3;
const AFTER_S = 0.2;

/** Adds a drive. */
export function addDrive(tally: Tally, result: DriveResult): void {
  const { truth, lengthS } = result;
  const whole = Math.min(truth.brokenS, lengthS) / 3600;
  tally.drives++;
  tally.hours += lengthS / 3600;
  tally.wholeHours += whole;
  for (const each of conditionsOf(result)) {
    tally.hoursBy.set(each, (tally.hoursBy.get(each) ?? 0) + whole);
  }
  for (const [level, into] of tally.levels.entries()) judge(into, result, result.alarms[level]!);
  judge(tally.cold, result, result.coldAlarms);
}

function judge(into: LevelTally, result: DriveResult, alarms: readonly Alarm[]): void {
  for (const [i, event] of result.truth.events.entries()) {
    const conditions = [...conditionsOf(result), ...shownBy(result.residuals[i])];
    scoreEvent(into, result, event, alarms, conditions);
  }
  for (const alarm of alarms) judgeAlarm(into, result, alarm);
}

/** What sets drives apart, as `condition=value`. */
function conditionsOf({ drive }: DriveResult): string[] {
  const { garage, surface, conditions } = drive;
  const sign = (value: number) => (value === 0 ? 'right' : value > 0 ? '+15 %' : '-15 %');
  return [
    `vehicle=${garage}`,
    `surface=${surface}`,
    `manoeuvre=${drive.manoeuvre}`,
    `sensing=${conditions.bits} bit`,
    `resistance=${sign(conditions.resistance)}`,
    `motor constant=${sign(conditions.constant)}`,
    `windings=${conditions.startC} °C`,
  ];
}

/** The same of what currents could show of an event; see residual.ts. */
function shownBy(residual: Residual | undefined): string[] {
  if (residual === undefined) return [];
  const { sigmas, ticks } = residual;
  return [
    `${RESIDUAL}=${sigmas < 2 ? SIGMAS[0] : sigmas < 4 ? SIGMAS[1] : SIGMAS[2]}`,
    `${SAMPLES}=${ticks <= 5 ? TICKS[0] : ticks <= 10 ? TICKS[1] : TICKS[2]}`,
  ];
}

/** Conditions by which the study says why something is missed. */
export const RESIDUAL = 'residual';
export const SAMPLES = 'samples';
export const SIGMAS = ['below 2 sigma', '2 to 4 sigma', 'above 4 sigma'] as const;
export const TICKS = ['5 at most', '6 to 10', 'more than 10'] as const;

function scoreEvent(
  { scores }: LevelTally,
  result: DriveResult,
  event: TrueEvent,
  alarms: readonly Alarm[],
  conditions: readonly string[],
): void {
  const { kind, motor, fromS, dueS, isSliding } = event;
  const alarm = alarms.find(
    (each) => each.kind === kind && each.motor === motor && each.fromS <= dueS && each.toS >= fromS,
  );
  const severity = isSliding ? 'sliding' : event.severity;
  const name = severity === '' ? kind : `${kind}/${severity}`;
  const keys = [...new Set([kind, name])].flatMap((each) => [
    each,
    ...conditions.map((condition) => `${each} ${condition}`),
  ]);
  for (const key of keys) addScore(scores, key, alarm && alarm.fromS - fromS);
  if (kind !== 'jam') return;
  const first = alarms.find(
    (each) => each.kind === kind && each.motor === motor && each.toS >= fromS,
  );
  const { guardedS } = result;
  // A jam that was neither found nor stopped heated nothing for long.
  if (guardedS < fromS || (first === undefined && guardedS === Infinity)) return;
  const isBefore = first !== undefined && first.fromS < guardedS;
  addScore(scores, 'jam before guard', isBefore ? first.fromS - fromS : undefined);
}

function addScore(scores: Map<string, Score>, key: string, delayS: number | undefined): void {
  const score = scores.get(key) ?? { events: 0, found: 0, delays: [] };
  scores.set(key, score);
  score.events++;
  if (delayS === undefined) return;
  score.found++;
  score.delays.push(Math.max(0, 1000 * delayS));
}

function judgeAlarm(
  tally: LevelTally,
  result: DriveResult,
  { kind, motor, fromS, toS }: Alarm,
): void {
  const { truth } = result;
  // Whatever is found once something is broken may be its doing.
  if (fromS >= truth.brokenS) return;
  const meets = (span: { motor: number; fromS: number; toS: number }) =>
    span.motor === motor && fromS <= span.toS + AFTER_S && toS >= span.fromS - BEFORE_S;
  if (kind === 'spin' && truth.events.some((each) => each.kind === 'spin' && meets(each))) return;
  const into = kind === 'spin' && truth.slipping.some(meets) ? tally.nearAlarms : tally.falseAlarms;
  for (const key of [kind, ...conditionsOf(result).map((each) => `${kind} ${each}`)]) {
    into.set(key, (into.get(key) ?? 0) + 1);
  }
}
