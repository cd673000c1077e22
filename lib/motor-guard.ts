import { Cause } from './codes.ts';
import { V } from './constants.ts';
import { MISSING } from './signals.ts';

/**
 * Watches one motor by its current: ceiling, stall time, winding heat.
 *
 * Ceiling, from V d = R i + k w with the speed w unchanged over one tick: a command may exceed the
 * last one by at most (limit - i) R / V.
 * Stall: at w = 0 the current is V d / R; a current near it for too long is a stalled motor.
 * Heat, two bodies: Cw dw/dt = i^2 R (1 + a w) - G1 (w - h); Ch dh/dt = G1 (w - h) - G2 h, with w
 * and h the rises of winding and housing over ambient. An I2t limit is the same with h = 0, a = 0.
 */
export interface MotorGuard {
  /** Greatest magnitude of command in the present direction, permille. */
  ceiling: number;
  /** What heat leaves of the drive, permille, 0 to 1000. */
  heat: number;
  /** Rise of the winding over ambient, K. */
  winding: number;
  /** Cause.STALLED or Cause.OVERHEATED while present, else Cause.NONE. */
  cause: number;
  /** 1 if the vehicle has the sensor and this tick brought no sample. */
  lost: number;
  /**
   * @param ma current, mA, or MISSING
   * @param last this motor's command in the last tick, permille; its sign, or at rest the goal's,
   *   is the present direction
   * @param goal what this motor is to be commanded, permille
   * @param mv supply voltage, mV
   * @param stop as in Clock, ms
   */
  step(ma: number, last: number, goal: number, mv: number, stop: number): void;
}

/** No ceiling. */
const OPEN = 100000;

/** @param vehicle constants of the vehicle */
export function createMotorGuard(vehicle: number[]): MotorGuard {
  const fitted = vehicle[V.HAS_CURRENT];
  const resistance = vehicle[V.MOTOR_MOHM];
  const most = vehicle[V.CURRENT_LIMIT_MA];
  const stallTime = vehicle[V.STALL_MS];
  const winding = vehicle[V.WINDING_MJ_K];
  const housing = vehicle[V.HOUSING_MJ_K];
  const warn = vehicle[V.HEAT_WARN_K];
  const greatest = vehicle[V.HEAT_LIMIT_K];
  let stalledFor = 0;
  let stalled = 0;
  let hot = 0;
  let body = housing === 0 ? 0 : vehicle[V.HEAT_START_K];
  const guard = {
    ceiling: OPEN,
    heat: 1000,
    winding: vehicle[V.HEAT_START_K],
    cause: Cause.NONE as number,
    lost: 0,
    step: step,
  };

  function step(ma: number, last: number, goal: number, mv: number, stop: number): void {
    if (fitted === 0) return;
    const command = last < 0 ? 0 - last : last;
    guard.lost = ma === MISSING ? 1 : 0;
    const held = (mv * command) / resistance;
    // Unmeasured, the current is taken as the ceiling's share, or as that of a motor held still, so
    // that heat goes on counting.
    let current = most > 0 ? (most * command) / 1000 : held;
    guard.ceiling = OPEN;
    if (guard.lost === 0) {
      // Positive while the motor drives in the present direction.
      current = last < 0 || (last === 0 && goal < 0) ? 0 - ma : ma;
      if (most > 0 && mv > 0) guard.ceiling = command + ((most - current) * resistance) / mv;
      if (guard.ceiling < 0) guard.ceiling = 0;
      watchStall(current, held, stop);
    }
    if (winding > 0) warm(current, stop);
    guard.cause = Cause.NONE;
    if (hot === 1) guard.cause = Cause.OVERHEATED;
    if (stalled === 1) guard.cause = Cause.STALLED;
  }

  function watchStall(current: number, atRest: number, stop: number): void {
    const near = atRest > 0 && current * 1000 >= atRest * vehicle[V.STALL_SHARE];
    if (near && current >= vehicle[V.STALL_MIN_MA] && stallTime > 0) stalledFor += stop;
    else stalledFor = stalledFor > stop ? stalledFor - stop : 0;
    if (stalledFor === 0) stalled = 0;
    else if (stalledFor >= stallTime) {
      stalledFor = stallTime;
      stalled = 1;
    }
  }

  function warm(current: number, stop: number): void {
    const rise = guard.winding;
    // mA^2 mOhm = 1e-9 W; the result in mW.
    const copper = 1000000 + vehicle[V.COPPER_PPM_K] * rise;
    const heating = (((current * current) / 1000000) * resistance * copper) / 1000000;
    const flow = vehicle[V.WINDING_MW_K] * (rise - body);
    guard.winding = rise + ((heating - flow) * stop) / 1000 / winding;
    // Far beyond any limit, but a number still, whatever the current sensor says and for how long.
    if (guard.winding > OPEN) guard.winding = OPEN;
    if (housing > 0) {
      body += ((flow - vehicle[V.HOUSING_MW_K] * body) * stop) / 1000 / housing;
    }
    guard.heat = 1000;
    if (guard.winding >= greatest) hot = 1;
    else if (guard.winding < warn) hot = 0;
    if (guard.winding > warn) {
      guard.heat = ((greatest - guard.winding) * 1000) / (greatest - warn);
      if (guard.heat < 0) guard.heat = 0;
    }
  }

  return guard;
}
