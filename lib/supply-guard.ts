import { Cause } from './codes.ts';
import { V } from './constants.ts';
import { MISSING } from './signals.ts';

/** Watches the supply: compensation, derating with hysteresis, cut-off. */
export interface SupplyGuard {
  /** What is left of the drive, permille, 0 to 1000; compensation included. */
  limit: number;
  /** What derating alone leaves of it, permille, 0 to 1000. */
  derating: number;
  /** Filtered supply voltage, mV; the nominal one while none was ever measured. */
  voltage: number;
  /** Cause.LOW_SUPPLY while the supply is too low to drive, else Cause.NONE. */
  cause: number;
  /** 1 if the vehicle has the sensor and this tick brought no sample. */
  lost: number;
  /** @param mv sample, mV, or MISSING; durations as in Clock */
  step(mv: number, rise: number, stop: number): void;
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
  const cut = vehicle[V.SUPPLY_CUT_MV];
  const hysteresis = vehicle[V.SUPPLY_HYSTERESIS_MV];
  let measured = 0;
  let cutFor = 0;
  const guard = {
    limit: 1000,
    derating: 1000,
    voltage: vehicle[V.SUPPLY_NOMINAL_MV],
    cause: Cause.NONE as number,
    lost: 0,
    step: step,
  };

  function step(mv: number, rise: number, stop: number): void {
    if (fitted === 0) return;
    if (mv === MISSING || mv < 0) {
      guard.lost = 1;
      return;
    }
    guard.lost = 0;
    if (measured === 0) guard.voltage = mv;
    else guard.voltage += ((mv - guard.voltage) * stop) / (SMOOTHING_MS + stop);
    measured = 1;
    derate(guard.voltage, rise);
    watch(guard.voltage, stop);
    guard.limit = guard.derating;
    if (reference > 0 && guard.voltage > reference) {
      guard.limit = (guard.derating * reference) / guard.voltage;
    }
  }

  function derate(voltage: number, rise: number): void {
    let target = 1000;
    if (voltage <= low) target = floor;
    else if (voltage < warn) target = floor + ((1000 - floor) * (voltage - low)) / (warn - low);
    if (target < guard.derating) guard.derating = target;
    else if (voltage >= warn + hysteresis) {
      guard.derating += (EASE_PER_S * rise) / 1000;
      if (guard.derating > 1000) guard.derating = 1000;
    }
  }

  function watch(voltage: number, stop: number): void {
    if (voltage >= cut) {
      cutFor = 0;
      if (voltage >= cut + hysteresis) guard.cause = Cause.NONE;
      return;
    }
    cutFor += stop;
    if (cutFor >= vehicle[V.SUPPLY_CUT_MS]) {
      guard.cause = Cause.LOW_SUPPLY;
      cutFor = vehicle[V.SUPPLY_CUT_MS];
    }
  }

  return guard;
}
