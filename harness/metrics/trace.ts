/**
 * A drive sampled once a tick, column by column. All columns are `count` long. SI units, radians,
 * axes by ISO 8855; wheels and motors in the order rear left, rear right, front left, front right.
 */
export interface Trace {
  /** Number of samples. */
  count: number;
  /** Time since the manoeuvre began, s; negative while the car is being armed. */
  t: Float64Array;
  /** Centre of gravity in the world, m; yaw angle, rad. */
  x: Float64Array;
  y: Float64Array;
  yaw: Float64Array;
  /** Speed ahead and to the left, m/s; yaw rate, rad/s. */
  vx: Float64Array;
  vy: Float64Array;
  yawRate: Float64Array;
  /** Acceleration of the centre of gravity ahead and to the left, m/s². */
  ax: Float64Array;
  ay: Float64Array;
  /** Speed over ground, m/s, negative backwards; sideslip angle, rad. */
  speed: Float64Array;
  sideslip: Float64Array;
  /** Steering angle of the equivalent single-track vehicle, rad. */
  steerAngle: Float64Array;
  /** Mean |front slip angle| - mean |rear slip angle|, rad; positive = understeer. */
  balance: Float64Array;
  /** By wheel. */
  slipRatio: Float64Array[];
  slipAngle: Float64Array[];
  load: Float64Array[];
  /** By motor: command, permille; current, A; winding, °C. */
  drive: Float64Array[];
  current: Float64Array[];
  winding: Float64Array[];
  /** Supply at its terminals, V. */
  supply: Float64Array;
  /** Stick positions, -1 to 1. */
  throttleStick: Float64Array;
  steerStick: Float64Array;
  /** Energy drawn from the cells since the start, J. */
  energy: Float64Array;
  /** State of the core's supervisor. */
  state: Float64Array;
}
