import { type Constants, MISSING, V } from '../../lib/index.ts';

/** What one motor's samples say of its current, of a stall and of heat, as limit S8 means it. */
export interface MotorView {
  /** Greatest magnitude that keeps the current under its ceiling, permille; Infinity = free. */
  ceiling: number;
  /** How long stall current has flowed, ms; it runs back while less flows. */
  stalledMs: number;
  /** Rise of the winding over ambient, K, at least; time without a sample counts as unheated. */
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
export function createMotorView({ vehicle }: Constants): MotorView {
  const ohm = vehicle[V.MOTOR_MOHM]! / 1000;
  const limit = vehicle[V.CURRENT_LIMIT_MA]!;
  const heated = vehicle[V.WINDING_MJ_K]! > 0;
  const housed = vehicle[V.HOUSING_MJ_K]! > 0;
  let housingK = housed ? vehicle[V.HEAT_START_K]! : 0;
  const view = { ceiling: Infinity, stalledMs: 0, windingK: vehicle[V.HEAT_START_K]!, step };

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
    if (heated) warm(sampled ? ma / 1000 : 0, forbidMs / 1000);
  }

  function watchStall(towards: number, command: number, mv: number, forbidMs: number): void {
    const atRest = (mv * command) / 1000 / ohm;
    const near = towards * 1000 > atRest * vehicle[V.STALL_SHARE]! * (1 + 1e-9);
    if (near && command > 0 && towards >= vehicle[V.STALL_MIN_MA]!) view.stalledMs += forbidMs;
    else view.stalledMs = Math.max(0, view.stalledMs - forbidMs);
  }

  function warm(ampere: number, seconds: number): void {
    const copper = 1 + (vehicle[V.COPPER_PPM_K]! * view.windingK) / 1e6;
    const watt = ampere * ampere * ohm * copper;
    const flow = (vehicle[V.WINDING_MW_K]! / 1000) * (view.windingK - housingK);
    const loss = (vehicle[V.HOUSING_MW_K]! / 1000) * housingK;
    // Beyond any limit the value no longer matters, but it must stay a number.
    const winding = view.windingK + ((watt - flow) * seconds * 1000) / vehicle[V.WINDING_MJ_K]!;
    if (housed) housingK += ((flow - loss) * seconds * 1000) / vehicle[V.HOUSING_MJ_K]!;
    view.windingK = Math.min(winding, 2000);
  }

  return view;
}
