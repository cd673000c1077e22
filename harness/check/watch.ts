import {
  type Constants,
  createInputs,
  createOutputs,
  type Inputs,
  Layout,
  type Outputs,
  S,
  State,
  V,
} from '../../lib/index.ts';
import { createEnvelope } from './envelope.ts';
import { createStick } from './stick.ts';
import { createSupplyView } from './supply-view.ts';
import type { Tick } from './tick.ts';
import { createTimeView } from './time-view.ts';

/** Derives from inputs, outputs and constants what the monitors hold a core to. */
export interface Watch {
  /** Takes a tick; returns the one record, with `before` still the tick before. */
  observe(inputs: Inputs, outputs: Outputs): Tick;
  /** Takes a setup that the core accepted between two ticks. */
  put(slot: number, setup: readonly number[]): void;
}

/** From this code up a cause latches. */
export const LATCHING = 10;

/** @param constants those the core drives with; must pass its loader */
export function createWatch(constants: Constants): Watch {
  const vehicle = constants.vehicle;
  const motors = vehicle[V.MOTORS]!;
  const time = createTimeView(vehicle[V.TICK_MS]!, vehicle[V.GAP_MS]!);
  const envelope = createEnvelope(constants.setups);
  const supply = createSupplyView(constants);
  const throttle = createStick(vehicle, V.THROTTLE_LOW_US);
  const wheel = createStick(vehicle, V.STEER_LOW_US);
  const pivots = vehicle[V.LAYOUT] === Layout.TRACKED;
  const tick = createTick(motors, envelope.lo, envelope.hi);
  let seen = createOutputs();
  // Before the first tick nothing was held back.
  seen.limit = 1000;
  let neutralFor = 0;

  function observe(inputs: Inputs, outputs: Outputs): Tick {
    // Two records take turns, so that the tick before stays readable without a copy of a copy.
    const spare = tick.before;
    tick.before = seen;
    seen = spare;
    copyOutputs(outputs, seen, motors);
    time.step(inputs.timeMs);
    supply.step(inputs.batteryMv, time.forbidMs);
    envelope.step(outputs.slot, time.permitMs);
    tick.atMs += time.forwardMs;
    tick.inputs = inputs;
    tick.outputs = outputs;
    tick.permitMs = time.permitMs;
    tick.forbidMs = time.forbidMs;
    tick.odd = time.odd;
    tick.timeLost = time.timeLost;
    tick.fading = envelope.fading;
    tick.supplyMv = supply.voltage;
    tick.supplyLost = supply.lost;
    tick.mostBefore = tick.most;
    tick.most = greatest(outputs.drive, motors);
    readSticks(inputs);
    arm(outputs.state);
    return tick;
  }

  function readSticks(inputs: Inputs): void {
    tick.valid =
      throttle.valid(inputs.throttleUs) && wheel.valid(inputs.steerUs) && inputs.ageMs >= 0;
    if (tick.valid) {
      const t = throttle.travel(inputs.throttleUs);
      const s = pivots ? wheel.travel(inputs.steerUs) : 0;
      const { lo, hi } = tick;
      tick.neutral = within(t, hi[S.THROTTLE_DEAD_BAND]!) && within(s, hi[S.STEER_DEAD_BAND]!);
      tick.surelyNeutral =
        within(t, lo[S.THROTTLE_DEAD_BAND]!) && within(s, lo[S.STEER_DEAD_BAND]!);
      tick.staleMs = inputs.ageMs;
    } else tick.staleMs += tick.forbidMs;
    tick.lost = tick.timeLost || tick.staleMs > tick.hi[S.HOLD_MS]!;
  }

  function arm(state: number): void {
    const { before } = tick;
    const fresh = tick.valid && !tick.lost && tick.neutral;
    neutralFor = fresh && before.state !== State.STOPPING ? neutralFor + tick.permitMs : 0;
    // What was held before a fault does not count to clearing it.
    if (tick.outputs.cause >= LATCHING && before.cause < LATCHING) neutralFor = 0;
    const moving = state === State.READY || state === State.DRIVING;
    const latched = before.state === State.FAULT || before.cause >= LATCHING;
    const due = latched ? tick.lo[S.REARM_MS]! : tick.lo[S.NEUTRAL_MS]!;
    const was = tick.armed;
    tick.armed = moving && !tick.lost && (was || neutralFor >= due);
    tick.justArmed = tick.armed && !was;
  }

  return { observe, put: envelope.put };
}

function createTick(motors: number, lo: number[], hi: number[]): Tick {
  return {
    atMs: 0,
    inputs: createInputs(),
    outputs: createOutputs(),
    before: createOutputs(),
    motors,
    permitMs: 0,
    forbidMs: 0,
    odd: false,
    timeLost: false,
    lo,
    hi,
    fading: false,
    valid: false,
    // Nothing has been received yet: older than any hold time.
    staleMs: 1e6,
    lost: true,
    neutral: false,
    surelyNeutral: false,
    armed: false,
    justArmed: false,
    most: 0,
    mostBefore: 0,
    supplyMv: 0,
    supplyLost: false,
  };
}

function copyOutputs(from: Outputs, to: Outputs, motors: number): void {
  for (let i = 0; i < motors; i++) to.drive[i] = from.drive[i]!;
  to.enable = from.enable;
  to.steer = from.steer;
  to.state = from.state;
  to.cause = from.cause;
  to.flags = from.flags;
  to.slot = from.slot;
  to.throttle = from.throttle;
  to.demand = from.demand;
  to.cut = from.cut;
  to.limit = from.limit;
}

function greatest(drive: readonly number[], motors: number): number {
  let most = 0;
  for (let i = 0; i < motors; i++) most = Math.max(most, Math.abs(drive[i]!));
  return most;
}

function within(travel: number, deadBand: number): boolean {
  return travel <= deadBand + 1e-9;
}
