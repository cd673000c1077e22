import { Cause, State } from './codes.ts';
import { S } from './constants.ts';

/** Decides whether the vehicle may move: arming, loss of signal, controlled stop, latched fault. */
export interface Supervisor {
  /** See State. */
  phase: number;
  /** See Cause: why it last stopped by itself. */
  reason: number;
  /** 1 while no fresh valid input is there and the last one is still held. */
  holding: number;
  /** 1 while the signal counts as lost. */
  lost: number;
  /**
   * @param valid 1 if both pulses are valid
   * @param ageMs age of the pulses, ms, 0 or more; read only if valid
   * @param neutral 1 if the stick that drives is in its dead band
   * @param clockCause from Clock
   * @param faultCause from protection: the fault present now, or Cause.NONE
   * @param still 1 if every motor was commanded zero in the last tick
   * @param rise time that permits, ms
   * @param stop time that forbids, ms
   */
  run(
    valid: number,
    ageMs: number,
    neutral: number,
    clockCause: number,
    faultCause: number,
    still: number,
    rise: number,
    stop: number,
  ): void;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/** A supervisor as after power-up: locked. */
export function createSupervisor(): Supervisor {
  let hold = 0;
  let neutralTime = 0;
  let rearmTime = 0;
  // Nothing has been received yet: older than any hold time.
  let stale = 32767;
  let neutralFor = 0;
  const supervisor = {
    phase: State.LOCKED as number,
    reason: Cause.NONE as number,
    holding: 0,
    lost: 1,
    run: run,
    load: load,
  };

  function run(
    valid: number,
    ageMs: number,
    neutral: number,
    clockCause: number,
    faultCause: number,
    still: number,
    rise: number,
    stop: number,
  ): void {
    const self = supervisor;
    // Without a bound: as with other counters, whole numbers of ms last for longer than a vehicle.
    if (valid === 1) stale = ageMs;
    else stale += stop;
    const lost = stale > hold || clockCause !== Cause.NONE ? 1 : 0;
    const state = self.phase;
    const moving = state > State.LOCKED && state < State.STOPPING;
    self.lost = lost;
    self.holding = valid === 0 && lost === 0 ? 1 : 0;
    if (moving && lost === 0 && faultCause === Cause.NONE) {
      neutralFor = 0;
      self.phase = neutral === 1 && still === 1 ? State.READY : State.DRIVING;
      return;
    }
    if (valid === 1 && lost === 0 && neutral === 1) neutralFor += rise;
    else neutralFor = 0;
    if (faultCause !== Cause.NONE && self.reason < Cause.LOW_SUPPLY) {
      self.reason = faultCause;
      // With the drive off there is nothing to stop: it must not be switched on for a tick.
      self.phase = moving || state === State.STOPPING ? State.STOPPING : State.FAULT;
      neutralFor = 0;
    } else if (moving) {
      self.reason = clockCause !== Cause.NONE ? clockCause : Cause.SIGNAL_LOST;
      self.phase = State.STOPPING;
    } else if (state === State.STOPPING) {
      if (still === 1) self.phase = self.reason < Cause.LOW_SUPPLY ? State.LOCKED : State.FAULT;
      neutralFor = 0;
    } else if (faultCause !== Cause.NONE) {
      neutralFor = 0;
    } else if (neutralFor >= (state === State.FAULT ? rearmTime : neutralTime)) {
      self.phase = State.READY;
      self.reason = Cause.NONE;
    }
  }

  function load(setup: number[]): void {
    hold = setup[S.HOLD_MS];
    neutralTime = setup[S.NEUTRAL_MS];
    rearmTime = setup[S.REARM_MS];
  }

  return supervisor;
}
