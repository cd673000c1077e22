import type { YawPart } from './plan-yaw-drives.ts';
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
  /** Mean speed at the action, m/s. */
  speedWithout: number;
  speedWith: number;
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
  /**
   * Drives that let go of power in a bend which a driver holds; of the goals, sideslip is theirs.
   */
  lifted: YawRow[];
  /** Drives that let go of it at the limit of grip; no goal is theirs. */
  limit: YawRow[];
  stuck: { drives: number; acting: number; after: number; difference: number };
  goals: YawGoal[];
}

/** A difference of sideslip below this is none, degrees: the metric's own resolution. */
export const SIDESLIP_RESOLUTION = 0.1;

/** Adds up the results of a study. */
export function judgeYaw(results: readonly YawResult[]): YawVerdict {
  const of = (part: YawPart) => results.filter(({ bend }) => bend.part === part);
  const under = of('power');
  const all = rowOf('all', under);
  const lifted = byManoeuvre(of('lift'));
  const stuck = stuckOf(under);
  return {
    rows: byManoeuvre(under),
    all,
    lifted,
    limit: byManoeuvre(of('limit')),
    stuck,
    goals: [spreadGoal(all), sideslipGoal([all, ...lifted]), stuckGoal(stuck)],
  };
}

function spreadGoal({ spreadWith, spreadWithout }: YawRow): YawGoal {
  const ratio = spreadWith / spreadWithout;
  return {
    goal: 'Mean spread of balance over friction ±25 %: at most half of that without',
    measured:
      `${spreadWith.toFixed(2)}° against ${spreadWithout.toFixed(2)}°, ` +
      `${ratio.toFixed(2)} of it`,
    isMet: ratio <= 0.5,
  };
}

function sideslipGoal(rows: readonly YawRow[]): YawGoal {
  const risen = rows.reduce((sum, row) => sum + row.risen, 0);
  const drives = rows.reduce((sum, row) => sum + row.drives, 0);
  const worst = Math.max(...rows.map(({ worstRise }) => worstRise));
  return {
    goal: `No drive’s greatest sideslip above that without, by more than ${SIDESLIP_RESOLUTION}°`,
    measured: `${risen} of ${drives} drives, at most ${worst.toFixed(2)}°`,
    isMet: risen === 0,
  };
}

function stuckGoal({ drives, acting, after }: YawVerdict['stuck']): YawGoal {
  const most = after / 10;
  return {
    goal: 'From 300 ms after the gyro stuck on: no change of the cut',
    measured: `at most ${most} % in ${drives} drives, ${acting} of them at work when it stuck`,
    isMet: after === 0 && acting > 0,
  };
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
    speedWithout: mean(results.flatMap(({ without }) => without.map(({ speed }) => speed))),
    speedWith: mean(results.flatMap((result) => result.with.map(({ speed }) => speed))),
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
