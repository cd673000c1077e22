import { Flag, type Layout } from '../../lib/index.ts';
import type { RunChunk } from '../runs/run-chunk.ts';
import { motorNames } from '../runs/run-columns.ts';
import { Out } from './row-layout.ts';

/** Whether the laptop recomputed what the hub recorded, and where it first did not. */
export interface Verification {
  identical: boolean;
  /** Ticks compared. */
  ticks: number;
  /** Columns compared, in the order of the stages; none if the run holds no output. */
  columns: string[];
  /** Outputs that the run does not hold, so that nobody can compare them. */
  missing: string[];
  /** The first tick that differs, and there the first stage that does. */
  first?: Difference;
}

/** One value that came out otherwise. */
interface Difference {
  /** Which of the ticks compared, from 1. */
  tick: number;
  atMs: number;
  line: number;
  /** Stage of the core that gave the value. */
  stage: string;
  column: string;
  recorded: number;
  recomputed: number;
  /** A setup that the hub was offered in this tick, which no recording holds. */
  offer?: 'taken' | 'refused';
}

/** Compares recorded outputs with recomputed ones as they stream by. */
export interface Verifier {
  /**
   * @param chunk rows of the run, and which of them this is
   * @param outputs recomputed rows, see row-layout, and where this tick's begins
   * @param atMs run time, ms
   */
  compare(chunk: RunChunk, row: number, outputs: Int32Array, at: number, atMs: number): void;
  result(): Verification;
}

/** @param present columns the run has */
export function createVerifier(layout: Layout, present: ReadonlySet<string>): Verifier {
  const all = stageColumns(layout);
  const found = all.filter((check) => present.has(check.column));
  // The slot that is wished for is an input of the same name.
  const checks = found.some(({ column }) => column !== 'slot') ? found : [];
  let ticks = 0;
  let first: Difference | undefined;
  return {
    compare(chunk, row, outputs, at, atMs) {
      ticks++;
      if (first !== undefined) return;
      for (const { stage, column, offset } of checks) {
        const was = chunk.columns.get(column)![row]!;
        const is = outputs[at + offset]!;
        if (was !== is) {
          const offer = offerOf(chunk.columns.get('flags')?.[row], outputs[at + Out.FLAGS]!);
          const place = { tick: ticks, atMs, line: chunk.lines[row]!, stage, column };
          first = { ...place, recorded: was, recomputed: is, ...(offer && { offer }) };
          return;
        }
      }
    },
    result: () => ({
      identical: first === undefined,
      ticks,
      columns: checks.map((check) => check.column),
      missing: all.map((check) => check.column).filter((column) => !present.has(column)),
      ...(first === undefined ? {} : { first }),
    }),
  };
}

/** What flags that no input explains say: a fade without another slot, a setup that was refused. */
function offerOf(recorded: number | undefined, recomputed: number): Difference['offer'] {
  const only = (recorded ?? 0) & ~recomputed;
  if ((only & Flag.FADING) !== 0) return 'taken';
  return (only & Flag.SETUP_REFUSED) !== 0 ? 'refused' : undefined;
}

/** Stages in the order of the tick, with the columns each one fills. */
interface StageColumn {
  stage: string;
  column: string;
  offset: number;
}

function stageColumns(layout: Layout): StageColumn[] {
  const drives = motorNames(layout).map((name, i) => ({
    stage: 'slew and gate',
    column: `drive_${name}_permille`,
    offset: Out.DRIVE + i,
  }));
  return [
    { stage: 'slots', column: 'slot', offset: Out.SLOT },
    { stage: 'shaping', column: 'throttle_permille', offset: Out.THROTTLE },
    { stage: 'supervisor', column: 'state', offset: Out.STATE },
    { stage: 'supervisor', column: 'cause', offset: Out.CAUSE },
    { stage: 'supervisor', column: 'demand_permille', offset: Out.DEMAND },
    { stage: 'steering', column: 'steer_permille', offset: Out.STEER },
    { stage: 'yaw assist', column: 'assist_permille', offset: Out.ASSIST },
    { stage: 'split', column: 'cut_permille', offset: Out.CUT },
    { stage: 'traction', column: 'speed_mm_s', offset: Out.SPEED },
    { stage: 'traction', column: 'found', offset: Out.FOUND },
    { stage: 'traction', column: 'spin_permille', offset: Out.SPIN },
    { stage: 'traction', column: 'free_permille', offset: Out.FREE },
    { stage: 'traction', column: 'jam_permille', offset: Out.JAM },
    { stage: 'protection', column: 'limit_permille', offset: Out.LIMIT },
    ...drives,
    { stage: 'gate', column: 'enable', offset: Out.ENABLE },
    { stage: 'controller', column: 'flags', offset: Out.FLAGS },
  ];
}
