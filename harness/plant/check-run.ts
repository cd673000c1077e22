import { motorWords } from '../words/part-names.ts';
import type { Frame } from './frame.ts';
import { longestStep } from './longest-step.ts';
import { VX, VY, X, Y, YAW_RATE } from './state.ts';

/** A run that cannot go on. */
export interface Divergence {
  /** Time, s. */
  time: number;
  /** What is beyond belief, with its value. */
  found: string;
  /** The likely cause and what to do about it. */
  cause: string;
}

/** Speeds and rates no scale model reaches, m/s, rad/s; no winding survives, °C. */
const FASTEST = 100;
const FASTEST_SPIN = 300;
const FASTEST_WHEEL = 300;
const HOTTEST = 1000;
/** A body whose loads cannot hold it upright for this long has tipped over, s. */
const TIPPING = 0.2;

/** Whether a run is still to be believed; call now and then. */
export function checkRun(frame: Frame): Divergence | undefined {
  const { state } = frame;
  const { body, winding, transfer } = state;
  const time = state.time[0]!;
  if (isWild(frame)) {
    const speed = show(Math.hypot(body[VX]!, body[VY]!));
    const found = `speed ${speed} m/s, yaw rate ${show(body[YAW_RATE]!)} rad/s at ${place(frame)}`;
    return { time, found, cause: likelyCause(frame) };
  }
  const hot = winding.findIndex((value) => value > HOTTEST);
  if (hot >= 0) {
    return {
      time,
      found: `winding of the ${motorWords(hot, frame.motorCount)} at ${show(winding[hot]!)} °C`,
      cause: 'The motor has burnt: it was stalled, or its heat capacity is too small.',
    };
  }
  if (transfer[4]! < TIPPING) return undefined;
  return {
    time,
    found:
      `the inner wheels have been off the ground for ${show(transfer[4]!)} s ` +
      `at ${place(frame)}`,
    cause: 'The vehicle tips over: lower its centre of gravity or widen its track.',
  };
}

function place({ state: { body } }: Frame): string {
  return `x ${show(body[X]!)} m, y ${show(body[Y]!)} m`;
}

function isWild({ state, radius }: Frame): boolean {
  const { body, speeds } = state;
  return (
    !areFinite(state.all) ||
    Math.hypot(body[VX]!, body[VY]!) > FASTEST ||
    Math.abs(body[YAW_RATE]!) > FASTEST_SPIN ||
    radius.some((value, i) => Math.abs(value * speeds[i]!) > FASTEST_WHEEL)
  );
}

function areFinite(values: Float64Array): boolean {
  for (let i = 0; i < values.length; i++) if (!Number.isFinite(values[i])) return false;
  return true;
}

function likelyCause(frame: Frame): string {
  const limit = longestStep(frame);
  const step = frame.span[0]!;
  if (step > limit.step)
    return (
      `The step of ${show(step * 1000)} ms is longer than the ${show(limit.step * 1000)} ms that ` +
      `${limit.field} allows: shorten it or correct that field.`
    );
  return (
    'No mode is too fast for the step, so a constant is out of proportion: check masses, ' +
    'inertias, voltages and the gear ratio.'
  );
}

function show(value: number): string {
  return String(Number(value.toPrecision(4)));
}
