import { Cause, type Constants, MISSING, S, State, V } from '../../lib/index.ts';
import { createStick, type Stick } from '../check/stick.ts';
import type { Finding } from '../report/report-data.ts';
import { CAUSE_WORDS } from '../words/core-words.ts';
import { In, Out } from './row-layout.ts';

/** Finds out why a vehicle that never armed did not. */
export interface ArmingWatch {
  /** @param stepMs time since the last tick, ms; rows begin at `inputAt` and `outputAt` */
  observe(
    stepMs: number,
    inputs: Int32Array,
    inputAt: number,
    outputs: Int32Array,
    outputAt: number,
  ): void;
  /** A sentence at the beginning, or none if it armed. */
  finish(): Finding[];
}

/** @param constants what is driven with */
export function createArmingWatch({ vehicle, setups }: Constants): ArmingWatch {
  const throttle = channel(vehicle, V.THROTTLE_LOW_US);
  const steer = channel(vehicle, V.STEER_LOW_US);
  const holdMs = setups[0]![S.HOLD_MS]!;
  const gapMs = vehicle[V.GAP_MS]!;
  const neutralMs = setups[0]![S.NEUTRAL_MS]!;
  const late = { count: 0, most: 0 };
  const old = { count: 0, most: 0 };
  let ticks = 0;
  let fault: number = Cause.NONE;
  let armed = false;

  function observe(
    stepMs: number,
    inputs: Int32Array,
    inputAt: number,
    outputs: Int32Array,
    outputAt: number,
  ): void {
    if (armed) return;
    const state = outputs[outputAt + Out.STATE]!;
    armed = state === State.READY || state === State.DRIVING;
    const cause = outputs[outputAt + Out.CAUSE]!;
    if (cause >= Cause.LOW_SUPPLY) fault = cause;
    if (stepMs > gapMs) note(late, stepMs);
    const age = inputs[inputAt + In.AGE]!;
    if (age > holdMs) note(old, age);
    see(throttle, inputs[inputAt + In.THROTTLE]!);
    see(steer, inputs[inputAt + In.STEER]!);
    ticks++;
  }

  function finish(): Finding[] {
    if (armed || ticks === 0) return [];
    // What comes round within the time that a neutral throttle is to be held keeps it from arming.
    const often = (ticks * vehicle[V.TICK_MS]!) / neutralMs;
    const reasons = [
      ...strayReason('throttle', throttle, often),
      ...strayReason('steering', steer, often),
      ...(late.count > often
        ? [`ticks lay up to ${late.most} ms apart, and gapMs is ${gapMs}: each is a loss of signal`]
        : []),
      ...(old.count > often
        ? [`its inputs were up to ${old.most} ms old, and link.holdMs is ${holdMs}`]
        : []),
      ...(fault === Cause.NONE ? [] : [CAUSE_WORDS[fault]!]),
    ];
    const rest = `the throttle never rested for arming.neutralMs, ${neutralMs} ms`;
    const why = reasons.length > 0 ? reasons.join('; ') : rest;
    return [{ atS: 0, severity: 'warning', text: `Never armed, so nothing was driven: ${why}.` }];
  }

  return { observe, finish };
}

interface Channel {
  stick: Stick;
  /** Least and greatest pulse seen, µs. */
  low: number;
  high: number;
  /** Ticks without a valid one. */
  stray: number;
}

function channel(vehicle: readonly number[], index: V): Channel {
  return { stick: createStick(vehicle, index), low: Infinity, high: -Infinity, stray: 0 };
}

function see(seen: Channel, us: number): void {
  if (!seen.stick.valid(us)) seen.stray++;
  if (us === MISSING) return;
  seen.low = Math.min(seen.low, us);
  seen.high = Math.max(seen.high, us);
}

function strayReason(name: string, seen: Channel, often: number): string[] {
  if (seen.stray <= often) return [];
  if (seen.high < seen.low) return [`no ${name} pulse was there`];
  const { low, high, stick } = seen;
  return [
    `${name} pulses of ${low} to ${high} µs lie outside ${stick.least} to ${stick.greatest} µs ` +
      '(another unit? receiver.* in vehicle.ts, or import the log with scale and offset)',
  ];
}

function note(of: { count: number; most: number }, value: number): void {
  of.count++;
  of.most = Math.max(of.most, value);
}
