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
  /** Least and greatest valid pulse: the channel's calibration, margin included, µs. */
  least: number;
  greatest: number;
  /**
   * Takes a valid pulse, µs. The low-pass lets a command grow in the time `rise` and fall in the
   * time `stop`, both as in Clock, ms; with `loose` = 1 it is bypassed.
   */
  run(us: number, rise: number, stop: number, loose: number): void;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/**
 * @param vehicle constants of the vehicle
 * @param pulse index of the channel's calibration: V.THROTTLE_LOW_US or V.STEER_LOW_US
 * @param shape index of its shape in a setup: S.THROTTLE_DEAD_BAND or S.STEER_DEAD_BAND
 */
export function createAxis(vehicle: number[], pulse: number, shape: number): Axis {
  const centre = vehicle[pulse + 1];
  const sign = vehicle[pulse + 3] === 1 ? 0 - 1000 : 1000;
  const below = centre - vehicle[pulse];
  const above = vehicle[pulse + 2] - centre;
  let deadBand = 0;
  let expo = 0;
  let positive = 0;
  let negative = 0;
  let smoothing = 0;
  const axis = {
    least: vehicle[pulse] - vehicle[V.PULSE_MARGIN_US],
    greatest: vehicle[pulse + 2] + vehicle[V.PULSE_MARGIN_US],
    value: 0,
    neutral: 0,
    run: run,
    load: load,
  };

  function run(us: number, rise: number, stop: number, loose: number): void {
    const self = axis;
    const off = (us - centre) * sign;
    let x = us > centre ? off / above : off / below;
    const end = x < 0 ? negative : positive;
    if (x < 0) x = 0 - x;
    if (x > 1000) x = 1000;
    const dead = deadBand;
    let target = 0;
    if (x > dead) {
      const cubic = expo;
      const a = ((x - dead) * 1000) / (1000 - dead);
      target = (a * (1000 - cubic + (cubic * a * a) / 1000000) * end) / 1000000;
      self.neutral = 0;
    } else self.neutral = 1;
    if (smoothing > 0 && loose === 0) {
      const now = self.value;
      const falls = now > 0 ? target < now : now < 0 && target > now;
      const time = falls ? stop : rise;
      target = now + ((target - now) * time) / (smoothing + time);
    }
    self.value = target;
  }

  function load(setup: number[]): void {
    deadBand = setup[shape + S.THROTTLE_DEAD_BAND];
    expo = setup[shape + S.THROTTLE_EXPO];
    positive = setup[shape + S.FORWARD_LIMIT];
    negative = 0 - setup[shape + S.REVERSE_LIMIT];
    smoothing = setup[shape + S.THROTTLE_SMOOTHING_MS];
  }

  return axis;
}
