import { AT_REST } from './back-emf.ts';
import { V } from './constants.ts';

/**
 * Learns what the vehicle makes of its currents. While the wheels grip, they and the vehicle gain
 * (1 + sum(mr) / m) dw = r p sum(i) dt - a dt, with p = T / m and mr, the inertia of what a motor
 * turns, of the description; r is what T, K and m are wrong by together, a what drags.
 * Recursive least squares for the two (Plackett 1950; as a Kalman filter of two constants) over
 * spans of driving straight ahead with less than the greatest current, for wheels that let go draw
 * most. A span that errs by more than its own doubt is one in which wheels slid, and is left out;
 * so is one after which r or a would be further off than a description can be: a single one would
 * else take them to their bound, and count as learnt there.
 */
export interface MomentumFit {
  /** r, and what it may be wrong by. */
  ratio: number;
  ratioError: number;
  /** The same at first. */
  ratioDoubt: number;
  /** a, and what it may be wrong by, mm/s^2. */
  drag: number;
  dragError: number;
  /** Variances of r and a, and their covariance: who takes r for more takes a for more, too. */
  ratios: number;
  drags: number;
  both: number;
  /** Greatest current of all motors together, mA; fades within a minute or so. */
  strongest: number;
  /**
   * Everything in the direction of travel.
   *
   * @param wheel mean speed of the wheels, mm/s
   * @param pull sum of the currents, mA
   * @param steer steering command, permille
   * @param time length of the tick, ms
   */
  run(wheel: number, pull: number, steer: number, time: number): void;
}

/** Length of a span and low-pass of what it is made of, ms. */
const SPAN = 150;
const SMOOTH = 40;
/** Steering that bends the way, permille, and how long it may still be felt, ms. */
const STRAIGHT = 150;
const SETTLES = 200;
/** Share of the strongest current that wheels may bear without sliding. */
const GRIPS = 9 / 10;
/** How fast the strongest fades, 1/s. */
const FADES = 5 / 100;
/** Currents below this tell nothing of what is strong, in errors of a sample. */
const LEAST = 10;
/** Standard deviation of a change of speed, mm/s. */
const SPREAD = 35;
/** The same by slip, which changes with force: share of the gain of speed. */
const SLIPS = 7 / 100;
/** Greatest error of a span, squared, over its variance. */
const GATE = 3;
/**
 * Doubt at first of r, in model errors, and of a, over a; what both gain with each span, until a
 * is as much in doubt as when nothing was learnt.
 */
const RATIO = 16 / 5;
const DRAG = 2 / 5;
const RATIO_DRIFTS = 5 / 1000;
const DRAG_DRIFTS = 2 / 100;
/** Added to both at first, so that there always is a doubt: of r, and of a, mm/s^2. */
const LEAST_RATIO = 2 / 100;
const LEAST_DRAG = 20;
/** Bound of r - 1, in doubts of r at first; and in all, for currents drive forward anyhow. */
const MOST_RATIO = 4 / 5;
const FAR_RATIO = 3 / 4;
/** Bound of a, over that of the description. */
const MOST_DRAG = 4;

/** @param vehicle constants of the vehicle */
export function createMomentumFit(vehicle: number[]): MomentumFit {
  const count = vehicle[V.MOTORS];
  const mass = vehicle[V.MASS_G];
  const push = vehicle[V.THRUST_MN_A] / mass;
  const drag = (1000 * vehicle[V.DRAG_MN]) / mass + push * vehicle[V.NO_LOAD_MA] * count;
  const heavy = 1 + (vehicle[V.ROTATING_G] * count) / mass;
  const slow = vehicle[V.TOP_SPEED_MM_S] * AT_REST * 2;
  const weakest = vehicle[V.CURRENT_ERROR_MA] * LEAST * count;
  const ratioDoubt = (vehicle[V.MODEL_ERROR] / 1000) * RATIO + LEAST_RATIO;
  const dragDoubt = drag * DRAG + LEAST_DRAG;
  const bound = ratioDoubt * MOST_RATIO;
  const most = bound > FAR_RATIO ? FAR_RATIO : bound;
  let smoothWheel = 0;
  let smoothPull = 0;
  let bent = 0;
  /** Length of the span, s, or -1; gain of speed by r = 1, and speed at its start, mm/s. */
  let length = -1;
  let gained = 0;
  let from = 0;
  const fit = {
    ratio: 1,
    ratioError: ratioDoubt,
    ratioDoubt: ratioDoubt,
    drag: drag,
    dragError: dragDoubt,
    ratios: ratioDoubt * ratioDoubt,
    drags: dragDoubt * dragDoubt,
    both: 0,
    strongest: weakest,
    run: run,
  };

  function run(wheel: number, pull: number, steer: number, time: number): void {
    const self = fit;
    const share = time / (SMOOTH + time);
    smoothWheel += (wheel - smoothWheel) * share;
    smoothPull += (pull - smoothPull) * share;
    bent = steer > STRAIGHT || steer < 0 - STRAIGHT ? SETTLES : bent - time;
    const size = pull < 0 ? 0 - pull : pull;
    const faded = self.strongest - (self.strongest * FADES * time) / 1000;
    self.strongest = size > faded ? size : faded > weakest ? faded : weakest;
    const strong = self.strongest * GRIPS;
    const grips = pull > 0 && pull < strong && smoothPull > 0 && smoothPull < strong;
    if (bent > 0 || !grips || smoothWheel <= slow) length = -1;
    else if (length < 0) begin();
    else {
      length += time / 1000;
      gained += (smoothPull * push * time) / 1000;
      if (length * 1000 >= SPAN) learn((smoothWheel - from) * heavy);
    }
  }

  function begin(): void {
    length = 0;
    gained = 0;
    from = smoothWheel;
  }

  /** @param change of the wheels' speed over the span, as if what turns were part of the mass */
  function learn(change: number): void {
    const self = fit;
    const a = self.ratios * gained - self.both * length;
    const b = self.both * gained - self.drags * length;
    const slips = gained * gained * (SLIPS * SLIPS);
    const variance = SPREAD * SPREAD + slips + gained * a - length * b;
    const error = change - self.ratio * gained + self.drag * length;
    begin();
    if (error * error > variance * GATE) return;
    const off = self.ratio - 1 + (a * error) / variance;
    const held = self.drag + (b * error) / variance;
    if (off > most || off < 0 - most || held < 0 || held > drag * MOST_DRAG) return;
    self.ratio = 1 + off;
    self.drag = held;
    const drifts = self.dragError < dragDoubt ? 1 : 0;
    self.ratios += RATIO_DRIFTS * RATIO_DRIFTS * drifts - (a * a) / variance;
    self.drags += drag * drag * (DRAG_DRIFTS * DRAG_DRIFTS) * drifts - (b * b) / variance;
    self.both -= (a * b) / variance;
    // Heron's square root, a step with each span.
    self.ratioError = (self.ratioError + self.ratios / self.ratioError) / 2;
    self.dragError = (self.dragError + self.drags / self.dragError) / 2;
  }

  return fit;
}
