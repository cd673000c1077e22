/** States of the supervisor, in the order a drive passes through them. */
export const enum State {
  /** Powered up or stopped; the drive is off until a fresh neutral throttle has been held. */
  LOCKED = 0,
  /** Armed and standing still. */
  READY = 1,
  /** Armed with a drive demand. */
  DRIVING = 2,
  /** A controlled stop is under way. */
  STOPPING = 3,
  /** A fault is latched; the drive is off. */
  FAULT = 4,
}

/** Why the core last stopped by itself; 0 = it did not. Codes from 10 up latch. */
export const enum Cause {
  NONE = 0,
  /** No valid input for longer than the setup's hold time. */
  SIGNAL_LOST = 1,
  /** Two ticks lay further apart than the vehicle's gap time. */
  TICK_GAP = 2,
  /** The clock stood still or ran backwards for longer than the gap time. */
  CLOCK_STUCK = 3,
  /** The supply stayed below its cut-off voltage. */
  LOW_SUPPLY = 10,
  /** A motor drew stall current for longer than its stall time. */
  STALLED = 11,
  /** A winding passed its limit temperature. */
  OVERHEATED = 12,
  /** The constants failed the loader's check; the core never drives. */
  BAD_CONSTANTS = 20,
  /** A value inside the core stopped being finite. */
  INTERNAL = 21,
}

/** Bits of `Outputs.flags`: what the core is doing beside following the sticks. */
export const enum Flag {
  /** Inputs are not fresh; the last demand is held. */
  HOLDING = 1,
  /** The guest cap is on. */
  GUEST = 2,
  /** Low supply lowers the drive; compensation of a high one does not count. */
  SUPPLY_LIMIT = 4,
  /** The current ceiling lowers the drive. */
  CURRENT_LIMIT = 8,
  /** Winding heat lowers the drive. */
  HEAT_LIMIT = 16,
  /** A sensor the vehicle has gives no sample; its blind cap is on. */
  SENSOR_LOST = 32,
  /** Two setups are being cross-faded. */
  FADING = 64,
  /** This tick's time stamp was not usable. */
  CLOCK_ODD = 128,
  /** The last setup offered to the loader was refused. */
  SETUP_REFUSED = 256,
}

/** How the motors are laid out; the order of motors in every array follows it. */
export const enum Layout {
  /** One motor. */
  SINGLE = 0,
  /** Left and right motor on one axle. */
  PAIR = 1,
  /** Rear left, rear right, front left, front right. */
  TWO_PAIRS = 2,
  /** Left and right track, or skid-steered sides. */
  TRACKED = 3,
}
