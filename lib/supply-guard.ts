import { Cause } from './codes.ts';
import { V } from './constants.ts';
import { Fit } from './fit.ts';

/** Watches the supply: compensation, derating with hysteresis, cut-off. */
export interface SupplyGuard {
  /** What is left of the drive, permille, 0 to 1000; compensation included. */
  left: number;
  /** What derating alone leaves of it, permille, 0 to 1000. */
  derating: number;
  /** Filtered supply voltage, mV; the nominal one while none was ever measured. */
  voltage: number;
  /** Cause.LOW_SUPPLY while the supply is too low to drive, else Cause.NONE. */
  fault: number;
  /** 1 if the vehicle has the sensor and this tick brought no sample. */
  lost: number;
  /**
   * Durations as in Clock.
   *
   * @param mv sample, mV; below 0, as MISSING is, means none, and so does 0 without a cut-off
   */
  run(mv: number, rise: number, stop: number): void;
}

/** Time constant of the supply's low-pass, ms: longer than a commutation dip, shorter than sag. */
const SMOOTHING_MS = 200;
/** How fast derating is eased once the supply has recovered, permille/s. */
const EASE_PER_S = 250;

/** @param vehicle constants of the vehicle */
export function createSupplyGuard(vehicle: number[]): SupplyGuard {
  const fitted = vehicle[V.HAS_SUPPLY];
  const reference = vehicle[V.SUPPLY_REFERENCE_MV];
  const warn = vehicle[V.SUPPLY_WARN_MV];
  const low = vehicle[V.SUPPLY_LOW_MV];
  const floor = vehicle[V.SUPPLY_FLOOR];
  // The loader holds it to `warn` at most.
  const cut = vehicle[V.SUPPLY_CUT_MV];
  const clear = cut + vehicle[V.SUPPLY_HYSTERESIS_MV];
  // No motor drives at 0 mV. A cut-off stops it until re-armed; without one the sensor is torn.
  const least = cut === 0 ? 1 : 0;
  const recovered = warn + vehicle[V.SUPPLY_HYSTERESIS_MV];
  let measured = 0;
  let cutFor = 0;
  const guard = {
    left: 1000,
    derating: 1000,
    voltage: vehicle[V.SUPPLY_NOMINAL_MV],
    fault: Cause.NONE as number,
    lost: 0,
    run: run,
  };

  function run(mv: number, rise: number, stop: number): void {
    if (fitted === 0) return;
    const self = guard;
    if (mv < least) {
      self.lost = 1;
      return;
    }
    let voltage = self.voltage;
    if (measured === 0) {
      measured = 1;
      voltage = mv;
    } else voltage += ((mv - voltage) * stop) / (SMOOTHING_MS + stop);
    if (voltage < cut) sink(stop);
    else {
      cutFor = 0;
      if (voltage >= clear) self.fault = Cause.NONE;
    }
    let derating = self.derating;
    if (voltage < warn) derating = derate(voltage, derating);
    // What was never taken is not given back.
    else if (voltage >= recovered && (Fit.BYTES_COUNT || derating < 1000)) {
      derating = ease(derating, rise);
    }
    self.lost = 0;
    self.voltage = voltage;
    self.derating = derating;
    const over = reference > 0 && voltage > reference;
    self.left = over ? (derating * reference) / voltage : derating;
  }

  function sink(stop: number): void {
    cutFor += stop;
    if (cutFor < vehicle[V.SUPPLY_CUT_MS]) return;
    guard.fault = Cause.LOW_SUPPLY;
  }

  function derate(voltage: number, before: number): number {
    let target = floor;
    if (voltage > low) target += ((1000 - floor) * (voltage - low)) / (warn - low);
    return target < before ? target : before;
  }

  function ease(derating: number, rise: number): number {
    const eased = derating + rise * (EASE_PER_S / 1000);
    return eased > 1000 ? 1000 : eased;
  }

  return guard;
}
