import { SPEEDS, TORQUES } from './project-driveline.ts';

/** How many numbers of a motor's heat depend on the length of the step alone. */
export const HEATING = 9;

/** How many numbers stand for what, in their order; four for wheels or motors unless it says so. */
const WIDTHS = {
  /** The state begins here; see state.ts. */
  TIME: 1,
  X: 1,
  Y: 1,
  YAW: 1,
  VX: 1,
  VY: 1,
  YAW_RATE: 1,
  SURGE_X: 1,
  SURGE_Y: 1,
  SURGE_YAW: 1,
  STEERING: 1,
  SPEED: 4,
  MOTOR_SPEED: 4,
  SHAFT_SPEED: 4,
  RATE: 4,
  MOTOR_RATE: 4,
  SHAFT_RATE: 4,
  /** Deflections of the tyres along and across the wheels. */
  ALONG: 4,
  ACROSS: 4,
  BEHIND: 1,
  FRICTION: 4,
  MOTOR_FRICTION: 4,
  CURRENT: 4,
  WINDING: 4,
  HOUSING: 4,
  CHARGE: 1,
  SLOW_VOLTAGE: 1,
  TERMINAL_VOLTAGE: 1,
  DRAWN: 1,
  OPEN_CIRCUIT: 1,
  LAGGED_X: 1,
  LAGGED_Y: 1,
  LATEST_X: 1,
  LATEST_Y: 1,
  TIPPING: 1,
  FOOTING: 4,
  FORCE: 4,
  SIDE_FORCE: 4,
  LOAD: 4,
  SUPPLIED: 1,
  LOST_IN_PACK: 1,
  LOST_IN_WINDING: 1,
  LOST_IN_GEAR: 1,
  LOST_IN_FRICTION: 1,
  LOST_IN_ROLLING: 1,
  LOST_IN_TYRE: 1,
  LOST_IN_DRAG: 1,
  LOST_IN_SHOCK: 1,
  ENERGY_AT_START: 1,
  STATE_END: 0,

  /** Length of the step, and of the part of it that a stage drifts for, s. */
  SPAN: 1,
  DRIFT: 1,
  /** Commands, permille; steering angle that is commanded, rad. */
  COMMAND: 4,
  TARGET: 1,
  /** Cosine and sine of the yaw angle in the middle of the step. */
  HEADING_COS: 1,
  HEADING_SIN: 1,
  /** Cosine and sine of each wheel's steering angle, and the angle that they belong to. */
  COS: 4,
  SIN: 4,
  STEERED: 1,
  /** Speed against which slip is taken; slip velocities along and across the wheels, m/s. */
  ROLLING: 4,
  SLIP_ALONG: 4,
  SLIP_ACROSS: 4,
  /** Torques on wheels and motors before and after friction, N m. */
  TORQUE: 8,
  NET: 8,
  /** Sum of the tyre forces on the body, N; their moment, N m. */
  SUM_X: 1,
  SUM_Y: 1,
  SUM_MOMENT: 1,
  /** Acceleration of the centre of gravity in the body's axes, and that by tyres, m/s². */
  ACCELERATION_X: 1,
  ACCELERATION_Y: 1,
  BY_TYRES_X: 1,
  BY_TYRES_Y: 1,
  /** Speeds before this step's forces acted. */
  VX_BEFORE: 1,
  VY_BEFORE: 1,
  YAW_RATE_BEFORE: 1,
  SPEED_BEFORE: 4,
  MOTOR_SPEED_BEFORE: 4,
  SHAFT_SPEED_BEFORE: 4,
  /** Damping force along each wheel over its slip velocity, N s/m; 1 if any of them is not 0. */
  DAMPER: 4,
  SLOW: 1,
  /** Share of the step by which each wheel's damping is reckoned ahead. */
  AHEAD: 4,
  /** What of the damper is reckoned at the end of the step, times the radius, N s. */
  SHARE: 4,
  /** The system for the wheels' changes of speed, row by row, and its right side, rad/s. */
  MATRIX: 16,
  CHANGE: 4,
  /** Per motor: current = offset + gain x duty x terminal voltage. */
  DUTY: 4,
  OFFSET: 4,
  GAIN: 4,
  /** Current at the start and in the middle of the step, A. */
  BEGIN: 4,
  MEAN: 4,
  WARM_RESISTANCE: 4,
  /** Heat in winding and housing, W. */
  COPPER: 4,
  RUBBING: 4,
  /** Speed expected in the middle of the step, rad/s; torque on the gear over k i. */
  EXPECTED_SPEED: 4,
  TRANSMISSION: 4,
  /** HEATING numbers for each motor. */
  HEAT: 4 * HEATING,

  /** What only a fault or the ground changes. */
  RADIUS: 4,
  /** See Projection: rows of TORQUES; the first eight rows' sums of magnitudes. */
  RESPONSE: SPEEDS * TORQUES,
  COUPLING: 8,
  INERTIA: 12,
  /** 1 for a motor that can draw current; for a shaft that has slipped; how many have. */
  ALIVE: 4,
  SLIPPED: 4,
  LOOSE: 1,
  /** Friction coefficient, rolling resistance, relaxation length in m and its inverse. */
  GRIP: 4,
  ROLLING_RESISTANCE: 4,
  RELAXATION: 4,
  PER_RELAXATION: 4,
  /** Below this speed a deflection is damped, m/s; time constant of that, s. */
  SLOW_SPEED: 4,
  DAMPING: 4,
  /** Slip of greatest force. */
  PEAK: 4,

  /** Constants of the description, or made of them. */
  WEIGHT: 1,
  QUARTER_WEIGHT: 1,
  PX: 4,
  PY: 4,
  HOLD: 8,
  SENSITIVITY: 4,
  MASS: 1,
  YAW_INERTIA: 1,
  CG_HEIGHT: 1,
  WHEELBASE: 1,
  WEIGHT_TO_REAR: 1,
  TRACK_FRONT: 1,
  TRACK_REAR: 1,
  ROLL_SHARE_FRONT: 1,
  LOAD_LAG: 1,
  AIR: 1,
  GRADIENT: 1,
  PULL_X: 1,
  PULL_Y: 1,
  LOCK: 1,
  STEERING_RATE: 1,
  STEERING_SHARE: 1,
  PACK_RESISTANCE: 1,
  PACK_SLOW_RESISTANCE: 1,
  PACK_SLOW_TIME: 1,
  PACK_CAPACITY: 1,
  MOTOR_CONSTANT: 4,
  RESISTANCE: 4,
  INDUCTANCE: 4,
  EFFICIENCY: 4,
  EFFICIENCY_SPAN: 4,
  REFERENCE_C: 4,
  COEFFICIENT: 4,
  END: 0,
};

/**
 * Where everything that a step reads and writes stands in the one array of a frame. An engine
 * needs a fraction of the instructions for one array that it needs for forty, and none to find a
 * place that is a constant of the module: so the stages take their places out of here once.
 */
export const AT = placesOf(WIDTHS);

function placesOf<T extends Record<string, number>>(widths: T): Readonly<Record<keyof T, number>> {
  let at = 0;
  const places = Object.entries(widths).map(([name, width]) => {
    at += width;
    return [name, at - width];
  });
  return Object.fromEntries(places);
}
