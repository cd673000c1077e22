import { In, Out } from './row-layout.ts';

/** Where a column of a run stands in a row of inputs, or undefined if it is none of them. */
export function inputAt(name: string, motors: readonly string[]): number | undefined {
  const motor = motors.findIndex((each) => name === `current_${each}_ma`);
  if (motor >= 0) return In.CURRENT + motor;
  const wheel = motors.findIndex((each) => name === `wheel_${each}_deg_s`);
  return wheel < 0 ? INPUTS[name] : In.CURRENT + motors.length + wheel;
}

/**
 * Where a column of a run stands in a row of outputs.
 *
 * @throws RangeError if it is none of them
 */
export function outputAt(name: string, motors: readonly string[]): number {
  const motor = motors.findIndex((each) => name === `drive_${each}_permille`);
  const at = motor < 0 ? OUTPUTS[name] : Out.DRIVE + motor;
  if (at === undefined) throw new RangeError(`no tick holds a column "${name}"`);
  return at;
}

const INPUTS: Readonly<Record<string, In>> = {
  time_ms: In.TIME,
  throttle_us: In.THROTTLE,
  steer_us: In.STEER,
  input_age_ms: In.AGE,
  slot: In.SLOT,
  guest: In.GUEST,
  battery_mv: In.BATTERY,
  yaw_rate_mrad_s: In.YAW_RATE,
};

const OUTPUTS: Readonly<Record<string, Out>> = {
  steer_permille: Out.STEER,
  enable: Out.ENABLE,
  state: Out.STATE,
  cause: Out.CAUSE,
  flags: Out.FLAGS,
  throttle_permille: Out.THROTTLE,
  demand_permille: Out.DEMAND,
  cut_permille: Out.CUT,
  limit_permille: Out.LIMIT,
  speed_mm_s: Out.SPEED,
  found: Out.FOUND,
  spin_permille: Out.SPIN,
  free_permille: Out.FREE,
  jam_permille: Out.JAM,
  assist_permille: Out.ASSIST,
};
