import type { YawDrive, YawResult } from './run-yaw-bend.ts';

/** Drives of one manoeuvre, or of all, together. Angles in degrees. */
export interface YawRow {
  name: string;
  bends: number;
  drives: number;
  /** Mean over the bends of the range of balance over friction. */
  spreadWithout: number;
  spreadWith: number;
  /** Bends whose range is at least halved, percent. */
  halved: number;
  /** Greatest sideslip of all drives. */
  sideslipWithout: number;
  sideslipWith: number;
  /** By how much a drive's greatest sideslip rose at most. */
  worstRise: number;
  /** Drives in which it rose by more than the resolution. */
  risen: number;
}

/** A goal of the study, with what was measured. */
interface YawGoal {
  goal: string;
  measured: string;
  isMet: boolean;
}

/** What the study found. */
export interface YawVerdict {
  /** Of drives under power, by manoeuvre. */
  rows: YawRow[];
  /** All of these together. */
  all: YawRow;
  /** Drives that leave power; no goal is theirs. */
  after: YawRow[];
  stuck: { drives: number; acting: number; after: number; difference: number };
  goals: YawGoal[];
}

/** A difference of sideslip below this is none, degrees: the metric's own resolution. */
export const SIDESLIP_RESOLUTION = 0.1;

/** Adds up the results of a study. */
export function judgeYaw(results: readonly YawResult[]): YawVerdict {
  const under = results.filter(({ bend }) => bend.isUnderPower);
  const rows = byManoeuvre(under);
  const all = rowOf('all', under);
  const stuck = stuckOf(under);
  return {
    rows,
    all,
    after: byManoeuvre(results.filter(({ bend }) => !bend.isUnderPower)),
    stuck,
    goals: goalsOf(all, stuck),
  };
}

function goalsOf(all: YawRow, stuck: YawVerdict['stuck']): YawGoal[] {
  const ratio = all.spreadWith / all.spreadWithout;
  return [
    {
      goal: 'Mean spread of balance over friction ±25 %: at most half of that without',
      measured: `${all.spreadWith.toFixed(2)}° against ${all.spreadWithout.toFixed(2)}°, ${ratio.toFixed(2)} of it`,
      isMet: ratio <= 0.5,
    },
    {
      goal: `No drive’s greatest sideslip above that without, by more than ${SIDESLIP_RESOLUTION}°`,
      measured: `${all.risen} of ${all.drives} drives, at most ${all.worstRise.toFixed(2)}°`,
      isMet: all.risen === 0,
    },
    {
      goal: 'From 300 ms after the gyro stuck on: no change of the cut',
      measured: `at most ${stuck.after} ‰ in ${stuck.drives} drives, ${stuck.acting} of them at work when it stuck`,
      isMet: stuck.after === 0 && stuck.acting > 0,
    },
  ];
}

function byManoeuvre(results: readonly YawResult[]): YawRow[] {
  const names = [...new Set(results.map(({ bend }) => bend.manoeuvre.name))];
  return names.map((name) =>
    rowOf(
      name,
      results.filter(({ bend }) => bend.manoeuvre.name === name),
    ),
  );
}

function rowOf(name: string, results: readonly YawResult[]): YawRow {
  const spreads = results.flatMap((result) => {
    const [without, own] = [spreadOf(result.without), spreadOf(result.with)];
    return without === undefined || own === undefined ? [] : [{ without, own }];
  });
  const rises = results.flatMap((result) =>
    result.with.map((own, i) => own.sideslip - result.without[i]!.sideslip),
  );
  const most = (drives: YawDrive[]) => Math.max(...drives.map(({ sideslip }) => sideslip));
  return {
    name,
    bends: spreads.length,
    drives: rises.length,
    spreadWithout: mean(spreads.map(({ without }) => without)),
    spreadWith: mean(spreads.map(({ own }) => own)),
    halved: 100 * mean(spreads.map(({ without, own }) => (own <= without / 2 ? 1 : 0))),
    sideslipWithout: most(results.flatMap(({ without }) => without)),
    sideslipWith: most(results.flatMap((result) => result.with)),
    worstRise: Math.max(...rises),
    risen: rises.filter((rise) => rise > SIDESLIP_RESOLUTION).length,
  };
}

/** Range of the balance; undefined unless it could be read off every drive. */
function spreadOf(drives: readonly YawDrive[]): number | undefined {
  const balances = drives.flatMap(({ balance }) => (balance === undefined ? [] : [balance]));
  if (balances.length < drives.length) return undefined;
  return Math.max(...balances) - Math.min(...balances);
}

function stuckOf(results: readonly YawResult[]): YawVerdict['stuck'] {
  const drives = results.flatMap(({ stuck }) => (stuck === undefined ? [] : [stuck]));
  return {
    drives: drives.length,
    acting: drives.filter(({ before }) => before < 0).length,
    after: Math.max(...drives.map(({ after }) => after)),
    difference: Math.max(...drives.map(({ difference }) => difference)),
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
