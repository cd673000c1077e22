import { type Constants, MISSING, V } from '../../lib/index.ts';
import { createWindingView } from './winding-view.ts';

/** What one motor's samples say of its current, of a stall and of heat, as limit S8 means it. */
export interface MotorView {
  /** Greatest magnitude that keeps the current under its ceiling, permille; Infinity = free. */
  ceiling: number;
  /** How long stall current has flowed, ms; it runs back while less flows. */
  stalledMs: number;
  /** Rise of the winding over ambient, K, at least. */
  windingK: number;
  /**
   * @param ma current, mA, or MISSING
   * @param last command of the tick before, permille
   * @param now command of this tick, permille
   * @param mv supply voltage, mV
   */
  step(ma: number, last: number, now: number, mv: number, forbidMs: number): void;
}

/** A motor as at power-up. */
export function createMotorView(constants: Constants): MotorView {
  const vehicle = constants.vehicle;
  const ohm = vehicle[V.MOTOR_MOHM]! / 1000;
  const limit = vehicle[V.CURRENT_LIMIT_MA]!;
  const stallShare = vehicle[V.STALL_SHARE]! * (1 + 1e-9);
  const stallLeast = vehicle[V.STALL_MIN_MA]!;
  const winding = createWindingView(constants);
  const view = { ceiling: Infinity, stalledMs: 0, windingK: winding.rise, step };

  function step(ma: number, last: number, now: number, mv: number, forbidMs: number): void {
    const sampled = ma !== MISSING;
    view.ceiling = Infinity;
    if (sampled) {
      const towards = last < 0 || (last === 0 && now < 0) ? -ma : ma;
      const command = Math.abs(last);
      // At a speed that cannot change in one tick, V d = R i + k w gives d' - d = R (i' - i) / V.
      if (limit > 0 && mv > 0) {
        view.ceiling = Math.max(0, command + ((limit - towards) * ohm * 1000) / mv);
      }
      watchStall(towards, command, mv, forbidMs);
    }
    winding.step(sampled ? ma / 1000 : 0, forbidMs);
    view.windingK = winding.rise;
  }

  function watchStall(towards: number, command: number, mv: number, forbidMs: number): void {
    // As warm as the winding is at least: a warmer one draws less when it stalls.
    const atRest = (mv * command) / 1000 / winding.ohm();
    const near = towards * 1000 > atRest * stallShare;
    if (near && command > 0 && towards >= stallLeast) view.stalledMs += forbidMs;
    else view.stalledMs = Math.max(0, view.stalledMs - forbidMs);
  }

  return view;
}
