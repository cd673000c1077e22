/**
 * Least and greatest value of each vehicle constant up to the tables, by index `V`; the loader
 * refuses anything outside. A table value has the range 0..20000.
 */
export const VEHICLE_LIMITS: number[] = [
  // FORMAT, LAYOUT, MOTORS, TICK_MS, GAP_MS
  2, 2, 0, 3, 1, 4, 1, 100, 5, 1000,
  // THROTTLE: low, centre, high, reversed
  500, 2500, 500, 2500, 500, 2500, 0, 1,
  // STEER: low, centre, high, reversed
  500, 2500, 500, 2500, 500, 2500, 0, 1,
  // PULSE_MARGIN_US, HAS_SUPPLY, HAS_CURRENT, HAS_GYRO
  0, 400, 0, 1, 0, 1, 0, 1,
  // SUPPLY: reference, warn, low, cut, hysteresis, cut ms, floor
  0, 32000, 0, 32000, 0, 32000, 0, 32000, 0, 5000, 10, 10000, 0, 1000,
  // MOTOR_MOHM, CURRENT_LIMIT_MA, STALL: share, least current, ms
  1, 100000, 0, 32000, 100, 1000, 0, 32000, 0, 10000,
  // WINDING and HOUSING: capacity, conductance; COPPER_PPM_K
  0, 10000000, 1, 1000000, 0, 10000000, 1, 1000000, 0, 10000,
  // HEAT: warn, limit, start; BLIND_CAP
  1, 300, 2, 300, 0, 300, 0, 1000,
  // GATE: rise, dwell; SPEED_LAG_MS, SUPPLY_NOMINAL_MV
  1, 1000, 0, 100, 1, 10000, 1000, 32000,
  // HAS_WHEEL_SPEED, EMF_UV, THRUST_MN_A, NO_LOAD_MA, MASS_G, DRAG_MN
  0, 1, 0, 32000, 0, 32000, 0, 10000, 1, 100000, 0, 32000,
  // SIDE_LEAD, CURVATURE, TOP_SPEED_MM_S, CURRENT_ERROR_MA, MODEL_ERROR, WHEEL_UM_DEG,
  // FRONT_AVERAGED, ROTATING_G; an inside wheel that stands, at 1000, would tell no speed.
  0, 999, 0, 32000, 1, 32000, 1, 10000, 0, 500, 0, 32000, 0, 1, 0, 1000000,
];

/** The same for a setup, by index `S`, up to its table. */
export const SETUP_LIMITS: number[] = [
  // THROTTLE: dead band, expo, forward, reverse, smoothing
  10, 300, 0, 1000, 0, 1000, 0, 1000, 0, 1000,
  // STEER: dead band, expo, left, right, smoothing, rate, at speed
  0, 300, 0, 1000, 0, 1000, 0, 1000, 0, 1000, 100, 100000, 0, 1000,
  // HOLD_MS, LOSS_STEER, NEUTRAL_MS, REARM_MS
  0, 1000, -1000, 2000, 100, 10000, 500, 30000,
  // RISE, FALL, STOP, DWELL_MS
  50, 100000, 50, 100000, 500, 100000, 0, 1000,
  // CUT_CEILING, MEAN_SHARE, FRONT_SHARE, PIVOT, PIVOT_FADE, GUEST_CAP, FADE_MS
  0, 1000, 0, 1000, 0, 1000, 0, 1000, 1, 1000, 0, 1000, 0, 10000,
  // SPIN, FREE, JAM: reaction; k and h of each
  0, 5, 0, 5, 0, 5, 1, 10000, 1, 32000, 1, 10000, 1, 32000, 1, 10000, 1, 32000,
  // FOUND_HOLD_MS, TRIM, LIMP_CAP, RAMP_MS
  0, 10000, 0, 1000, 0, 1000, 1, 10000,
  // YAW: authority, gain, integral gain, understeer, grip
  0, 1000, 0, 10000, 0, 10000, 0, 32000, 100, 32000,
];
