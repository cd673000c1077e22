import { Found, Reaction } from '../../lib/codes.ts';
import { type Constants, Flag, Layout, S, TABLE_POINTS, V } from '../../lib/index.ts';
import { count, createLimitLog, percent } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { ROUNDING } from './slope.ts';
import type { Tick } from './tick.ts';

const TITLE = 'Traction and protection only ever lower a command';
/** Bits of a finding for the motors of the first pair. */
const PAIR_BITS = 3;
/** Bits of a finding for all motors. */
const ALL_BITS = 15;

/**
 * S12: traction and protection only lower a magnitude. A command may rise no higher than the split
 * of the demand asks for that motor, the inside one less, times the shares that the reaction to
 * what is found and protection leave.
 */
export function s12OnlyLower({ vehicle }: Constants): LimitMonitor {
  const log = createLimitLog();
  const tracked = vehicle[V.LAYOUT] === Layout.TRACKED;
  const fronts = vehicle.slice(V.FRONT_INSIDE, V.FRONT_INSIDE + 2 * TABLE_POINTS);
  const front = Math.max(...fronts) / 10000;
  const sensed = vehicle[V.HAS_SUPPLY] === 1 || vehicle[V.HAS_CURRENT] === 1;
  const idle = sensed
    ? 'Neither protection nor traction lowered a command.'
    : { why: 'Without a sensor of supply or currents there is neither protection nor traction.' };
  let least = 1000;
  let protecting = 0;
  let reacting = 0;

  /** The signals may be cut to integers, so each is taken one up. */
  function asked({ outputs, hi }: Tick): number {
    const { demand, cut, steer } = outputs;
    const shared = (Math.min(1000, Math.max(0, cut) + 1) * hi[S.MEAN_SHARE]!) / 2000;
    const outside = ((Math.abs(demand) + 1) * 1000) / (1000 - shared);
    const pivot = tracked ? (hi[S.PIVOT]! * (Math.abs(steer) + 1)) / 1000 : 0;
    return Math.min(1000, outside + pivot);
  }

  function watchMotor(tick: Tick, i: number, rear: number): void {
    const now = Math.abs(tick.outputs.drive[i]!);
    if (now <= Math.abs(tick.before.drive[i]!)) return;
    const isInside = insideMotor(tick) === (i & 1);
    const own = isInside ? rear - (rear * Math.max(0, tick.outputs.cut)) / 1000 : rear;
    // The front follows its own side of the rear; the cut comes before what no command passes.
    const ask = i < 2 ? own : Math.min(1000, (own * front * tick.hi[S.FRONT_SHARE]!) / 1000);
    const left = Math.min((ask * trimmed(tick, i >> 1)) / 1000, capped(tick));
    const bound = (left * (tick.outputs.limit + 1)) / 1000;
    if (now > bound + ROUNDING) log.breach(tick.atMs, 0, now, bound);
  }

  /** 0 = the left motors are inside, 1 = the right ones, -1 = neither, or a pivot turns tracks. */
  function insideMotor({ outputs, motors, hi }: Tick): number {
    const { steer, demand } = outputs;
    if (motors === 1 || steer === 0 || (tracked && hi[S.PIVOT]! > 0)) return -1;
    return steer > 0 === (!tracked || demand >= 0) ? 0 : 1;
  }

  return {
    id: 'S12',
    title: TITLE,
    observe(tick) {
      const { demand, limit } = tick.outputs;
      const end = demand < 0 ? tick.hi[S.REVERSE_LIMIT]! : tick.hi[S.FORWARD_LIMIT]!;
      const reacts = (tick.outputs.flags & Flag.TRACTION_LIMIT) !== 0;
      if (tick.armed) {
        if (limit < 1000) protecting++;
        if (reacts) reacting++;
        if (limit < 1000 || reacts) log.exercise(tick.atMs);
      }
      if (limit < least) least = limit;
      if (limit > 1000 + ROUNDING) log.breach(tick.atMs, 1, limit, 1000);
      // A setup that is faded out may have let the stick further than one in force now.
      if (Math.abs(demand) > end + ROUNDING && !tick.fading && tick.valid) smoothedOut(tick, end);
      const rear = asked(tick);
      for (let i = 0; i < tick.motors; i++) watchMotor(tick, i, rear);
    },
    verdict: () =>
      log.verdict(
        'S12',
        TITLE,
        () =>
          `Protection was at work for ${count(protecting, 'tick')} ` +
          `and left ${percent(least)} at least, traction for ${count(reacting, 'tick')}; ` +
          'neither ever raised a command.',
        [
          (value, bound) =>
            `A command rose to ${percent(value)}; split, traction and ` +
            `protection leave ${percent(bound)}.`,
          (value) => `Protection reported to leave ${percent(value)} of the commands.`,
          (value, bound) =>
            `The demand was ${percent(value)}; the stick's end limit is ${percent(bound)}.`,
        ],
        idle,
      ),
  };

  /** With a low-pass the demand of a setup before dies away; it may not rise beyond the limit. */
  function smoothedOut(tick: Tick, end: number): void {
    const { demand } = tick.outputs;
    if (Math.abs(demand) > Math.abs(tick.before.demand) + ROUNDING) {
      log.breach(tick.atMs, 2, demand, end);
    }
  }
}

/** What the reaction to what is found now leaves of a pair's commands, permille. */
function trimmed({ outputs, lo, hi }: Tick, pair: number): number {
  const { found } = outputs;
  const [spin, jam] = [found & ALL_BITS, found & (ALL_BITS * Found.JAM)];
  const surely = (at: number, reaction: number) => lo[at] === reaction && hi[at] === reaction;
  if (spin !== 0 && surely(S.SPIN_REACTION, Reaction.RAMP)) return 0;
  if (jam !== 0 && surely(S.JAM_REACTION, Reaction.RAMP)) return 0;
  const slips = (spin & (PAIR_BITS << (2 * pair))) !== 0;
  return slips && surely(S.SPIN_REACTION, Reaction.TRIM) ? hi[S.TRIM]! : 1000;
}

/** The cap of the reaction to what is found now, permille. */
function capped({ outputs, lo, hi }: Tick): number {
  const { found } = outputs;
  const surely = (at: number) => lo[at] === Reaction.LIMP && hi[at] === Reaction.LIMP;
  const limps =
    ((found & ALL_BITS) !== 0 && surely(S.SPIN_REACTION)) ||
    ((found & (ALL_BITS * Found.FREE)) !== 0 && surely(S.FREE_REACTION));
  return limps ? hi[S.LIMP_CAP]! : 1000;
}
