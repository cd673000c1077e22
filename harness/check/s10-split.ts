import { type Constants, Layout, S, State, V } from '../../lib/index.ts';
import { createLimitLog, percent } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { ROUNDING } from './slope.ts';
import { createStick } from './stick.ts';
import type { Tick } from './tick.ts';

const TITLE =
  'Without yaw assist the inside motor is never the faster; ' +
  'the cut keeps its ceiling; straight is equal';

/**
 * S10: the inside motor is never faster than the outside one without yaw assist, the cut never
 * passes its ceiling, straight = equal. Yaw assist never deepens the cut, changes it by no more
 * than its authority, and slows no outside motor below that share of the inside one. Coming from
 * another side, direction or setup the motors take their time; a pair is judged from the moment on
 * in which it is in order, was at rest, or must have settled, and until side, direction or setup
 * change again.
 */
export function s10Split(constants: Constants): LimitMonitor {
  const vehicle = constants.vehicle;
  const log = createLimitLog();
  const pairs = vehicle[V.MOTORS]! >> 1;
  const course = createCourse(constants);
  // Whether rear and front pair are in order, and the rear pair's cut under its ceiling.
  const ordered = [false, false];
  let cutKept = false;
  // Whether the rear pair's outside motor is no slower than yaw assist's authority lets it be.
  let assistKept = false;
  let level = false;
  let deepest = 0;

  function begin(tick: Tick): void {
    const { side, changed, rested, settled, straightMs } = course;
    const known = rested || settled;
    if (changed) {
      ordered.fill(false);
      cutKept = false;
      assistKept = false;
    }
    if (known && side !== 0) {
      ordered.fill(true);
      cutKept = true;
      assistKept = true;
    }
    // Below zero the outside motor is the slower one, and is so until both have settled again.
    if (tick.outputs.assist < 0) ordered.fill(false);
    const slow = 5 * tick.hi[S.STEER_SMOOTHING_MS]! + 50;
    if (straightMs === 0 || tick.fading) level = false;
    else if (rested && straightMs > slow) level = true;
  }

  function watchOrder(tick: Tick, pair: number, slack: number): void {
    const { outputs } = tick;
    const left = Math.abs(outputs.drive[2 * pair]!);
    const right = Math.abs(outputs.drive[2 * pair + 1]!);
    if (level && Math.abs(left - right) > slack) log.breach(tick.atMs, 3, left, right);
    if (course.side === 0) return;
    const inside = course.side > 0 ? left : right;
    const outside = course.side > 0 ? right : left;
    // Before they have turned round, the motors are not yet where the split wants them.
    const innerWay = Math.sign(outputs.drive[2 * pair + (course.side > 0 ? 0 : 1)]!);
    const outerWay = Math.sign(outputs.drive[2 * pair + (course.side > 0 ? 1 : 0)]!);
    const under = outerWay === course.travel;
    if (ordered[pair] && inside > outside + slack) log.breach(tick.atMs, 1, inside, outside);
    else if (under && inside + 1 <= outside && tick.outputs.assist >= 0) ordered[pair] = true;
    if (pair === 1 || course.turnsTracks) return;
    const rest = 1 - tick.hi[S.YAW_AUTHORITY]! / 1000;
    if (assistKept && outside + 1 + slack <= rest * inside - ROUNDING) {
      log.breach(tick.atMs, 5, outside, inside);
    } else if (under && innerWay === outerWay && outside >= rest * (inside + 1)) assistKept = true;
    const kept = 1 - tick.hi[S.CUT_CEILING]! / 1000;
    if (cutKept && inside + 1 + slack <= kept * outside - ROUNDING) {
      log.breach(tick.atMs, 2, inside, outside);
    } else if (under && innerWay === outerWay && inside >= kept * (outside + 1)) cutKept = true;
  }

  return {
    id: 'S10',
    title: TITLE,
    observe(tick) {
      if (pairs === 0) return;
      course.step(tick);
      begin(tick);
      const { cut, assist } = tick.outputs;
      const [ceiling, authority] = [tick.hi[S.CUT_CEILING]!, tick.hi[S.YAW_AUTHORITY]!];
      if (cut > deepest) deepest = cut;
      if (cut > ceiling + ROUNDING) log.breach(tick.atMs, 0, cut, ceiling);
      if (!(assist <= 0 && assist >= 0 - authority - ROUNDING)) {
        log.breach(tick.atMs, 4, assist, authority);
      }
      if (tick.most > 0 && (level || ordered[0] || ordered[1])) log.exercise(tick.atMs);
      for (let pair = 0; pair < pairs; pair++) watchOrder(tick, pair, tolerance(tick));
    },
    verdict: () =>
      log.verdict(
        'S10',
        TITLE,
        () =>
          `Both sides were compared in ${log.count} ticks under way; ` +
          `the deepest cut was ${percent(deepest)}.`,
        SENTENCES,
        pairs === 0 ? { why: 'With one motor there is no inside one.' } : NEVER,
      ),
  };
}

const NEVER =
  'No pair of motors was driven long enough, straight on or in one bend, to be compared.';

/** By how much cutting off fractions may turn round what is a fraction apart, permille. */
function tolerance({ hi }: Tick): number {
  return hi[S.THROTTLE_SMOOTHING_MS]! + hi[S.STEER_SMOOTHING_MS]! + hi[S.YAW_AUTHORITY]! > 0
    ? 1
    : 0;
}

const SENTENCES: ((value: string, bound: string) => string)[] = [
  (value, bound) => `The inside cut was ${percent(value)}; its ceiling is ${percent(bound)}.`,
  (value, bound) =>
    `The inside motor was at ${percent(value)}, the outside one at ${percent(bound)}.`,
  (value, bound) =>
    `The inside motor fell to ${percent(value)} of the outside one's ${percent(bound)}.`,
  (value, bound) =>
    `Straight on, the left motor was at ${percent(value)}, the right at ${percent(bound)}.`,
  (value, bound) =>
    `Yaw assist changed the cut by ${percent(value)}; it may lower it by ${percent(bound)}.`,
  (value, bound) =>
    `Under yaw assist the outside motor fell to ${percent(value)} of the ` +
    `inside one's ${percent(bound)}.`,
];

/** What the vehicle is doing, as far as it decides which motor is the inside one. */
interface Course {
  /** Direction of travel that is asked for: 1 = forward, -1 = reverse, 0 = none. */
  travel: number;
  /** 1 = the left motors are inside, -1 = the right ones, 0 = neither or not sure. */
  side: number;
  /** Side, direction of travel or setup differ from the tick before. */
  changed: boolean;
  /** All motors have stood still, and no rest they still owe differs between them. */
  rested: boolean;
  /** Everything has been constant for longer than any ramp takes. */
  settled: boolean;
  /** For how long the wheel has been at its centre, ms. */
  straightMs: number;
  /** The pivot turns tracks against each other, so that a cut says nothing. */
  turnsTracks: boolean;
  step(tick: Tick): void;
}

function createCourse({ vehicle }: Constants): Course {
  const wheel = createStick(vehicle, V.STEER_LOW_US);
  const tracked = vehicle[V.LAYOUT] === Layout.TRACKED;
  const gateTicks = vehicle[V.GATE_DWELL]! + 2;
  let direction = 0;
  let faded = false;
  let restMs = 0;
  let restTicks = 0;
  let steadyMs = 0;
  const course = {
    travel: 0,
    side: 0,
    changed: true,
    rested: false,
    settled: false,
    straightMs: 0,
    turnsTracks: false,
    step,
  };

  function step(tick: Tick): void {
    const { demand, steer } = tick.outputs;
    const travel = demand >= 1 ? 1 : demand <= -1 ? -1 : 0;
    let side = Math.sign(steer);
    if (tracked) side *= travel;
    course.turnsTracks = tracked && tick.hi[S.PIVOT]! > 0;
    const turned = side !== course.side || travel * direction < 0;
    course.changed = turned || tick.fading || faded;
    faded = tick.fading;
    course.side = side;
    course.travel = travel;
    rest(tick);
    // Out of a rest either direction is as good; a demand of less than 1 shows in the motors alone.
    if (travel !== 0 || course.rested) direction = travel;
    else if (!tracked && tick.most > 0) direction = motion(tick);
    const { lo, hi } = tick;
    steadyMs = steady(tick) ? steadyMs + tick.permitMs : 0;
    const ramps = 1e6 / lo[S.RISE]! + 1e6 / lo[S.FALL]! + hi[S.DWELL_MS]!;
    course.settled = steadyMs > 2 * (ramps + gateTicks * vehicle[V.TICK_MS]!);
    if (tick.valid) {
      const centred = steer === 0 && wheel.travel(tick.inputs.steerUs) <= lo[S.STEER_DEAD_BAND]!;
      course.straightMs = centred ? course.straightMs + tick.permitMs : 0;
    }
    if (tick.lost || steer !== 0) course.straightMs = 0;
  }

  function rest(tick: Tick): void {
    const { state } = tick.outputs;
    const asked = (state === State.READY || state === State.DRIVING) && !tick.surelyNeutral;
    const still = tick.most === 0 && !asked;
    restMs = still ? restMs + tick.permitMs : 0;
    restTicks = still ? restTicks + 1 : 0;
    course.rested = restTicks > gateTicks && restMs > tick.hi[S.DWELL_MS]! + 100;
  }

  return course;
}

/** Direction in which the first motor that moves does so. */
function motion({ outputs, motors }: Tick): number {
  for (let i = 0; i < motors; i++) if (outputs.drive[i] !== 0) return Math.sign(outputs.drive[i]!);
  return 0;
}

function steady({ outputs, before, fading, armed }: Tick): boolean {
  return (
    armed &&
    !fading &&
    outputs.steer === before.steer &&
    outputs.flags === before.flags &&
    Math.trunc(outputs.demand) === Math.trunc(before.demand) &&
    Math.trunc(outputs.cut) === Math.trunc(before.cut) &&
    Math.trunc(outputs.limit) === Math.trunc(before.limit)
  );
}
