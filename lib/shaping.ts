import { S, V } from './constants.ts';

/**
 * One stick channel: pulse to command.
 *
 * x = (pulse - centre) / (end - centre), dead band with rescaling d: (|x| - d) / (1 - d), then
 * expo e: (1 - e) x + e x^3, then the end limit of that direction, then a first-order low-pass.
 */
export interface Axis {
  /** The command, permille, -1000 to 1000, not rounded. */
  value: number;
  /** 1 if the stick was inside its dead band at the last valid pulse. */
  neutral: number;
  /** 1 if `us` is a pulse of this channel's calibration, margin included. */
  valid(us: number): number;
  /**
   * Takes a valid pulse, µs. The low-pass lets a command grow in the time `rise` and fall in the
   * time `stop`, both as in Clock, ms; with `loose` = 1 it is bypassed.
   */
  step(us: number, rise: number, stop: number, loose: number): void;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/**
 * @param vehicle constants of the vehicle
 * @param pulse index of the channel's calibration: V.THROTTLE_LOW_US or V.STEER_LOW_US
 * @param shape index of its shape in a setup: S.THROTTLE_DEAD_BAND or S.STEER_DEAD_BAND
 */
export function createAxis(vehicle: number[], pulse: number, shape: number): Axis {
  const low = vehicle[pulse];
  const centre = vehicle[pulse + 1];
  const high = vehicle[pulse + 2];
  const reversed = vehicle[pulse + 3];
  const least = low - vehicle[V.PULSE_MARGIN_US];
  const greatest = high + vehicle[V.PULSE_MARGIN_US];
  let deadBand = 0;
  let expo = 0;
  let positiveLimit = 0;
  let negativeLimit = 0;
  let smoothing = 0;
  const axis = { value: 0, neutral: 0, valid: valid, step: step, load: load };

  function valid(us: number): number {
    return us >= least && us <= greatest ? 1 : 0;
  }

  function step(us: number, rise: number, stop: number, loose: number): void {
    let x = us > centre ? ((us - centre) * 1000) / (high - centre) : 0;
    if (us < centre) x = ((us - centre) * 1000) / (centre - low);
    if (reversed === 1) x = 0 - x;
    let a = x < 0 ? 0 - x : x;
    if (a > 1000) a = 1000;
    a = a > deadBand ? ((a - deadBand) * 1000) / (1000 - deadBand) : 0;
    axis.neutral = a === 0 ? 1 : 0;
    a = (a * (1000 - expo + (expo * a * a) / 1000000)) / 1000;
    const target = x < 0 ? 0 - (a * negativeLimit) / 1000 : (a * positiveLimit) / 1000;
    const now = axis.value;
    const falls = now > 0 ? target < now : now < 0 && target > now;
    const time = falls ? stop : rise;
    if (smoothing === 0 || loose === 1) axis.value = target;
    else axis.value = now + ((target - now) * time) / (smoothing + time);
  }

  function load(setup: number[]): void {
    deadBand = setup[shape + S.THROTTLE_DEAD_BAND];
    expo = setup[shape + S.THROTTLE_EXPO];
    positiveLimit = setup[shape + S.FORWARD_LIMIT];
    negativeLimit = setup[shape + S.REVERSE_LIMIT];
    smoothing = setup[shape + S.THROTTLE_SMOOTHING_MS];
  }

  return axis;
}
