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
  /** A motor was held fast: finding *jam* with Reaction.STOP. */
  JAMMED = 13,
  /** The drive of a side or of an axle is lost: finding *free* with Reaction.STOP. */
  DRIVE_LOST = 14,
  /** A wheel broke loose: finding *spin* with Reaction.STOP. */
  WHEEL_SPIN = 15,
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
  /** Commands or samples are too small to tell any motor's speed; the estimate is held. */
  SPEED_HELD = 512,
  /** A finding lowers the commands. */
  TRACTION_LIMIT = 1024,
  /** Yaw assist changes the cut. */
  ASSIST = 2048,
  /** The gyro is missing, stuck, noisy or, since its last rest, offset: yaw assist has no say. */
  GYRO_DOUBT = 4096,
}

/** Bits of `Outputs.found`: one for each finding and motor, in the order of motors. */
export const enum Found {
  /** A driven wheel of motor 0 has broken loose; the next three bits: of motors 1 to 3. */
  SPIN = 1,
  /** What motor 0 drives is no longer on its shaft; the next three bits: motors 1 to 3. */
  FREE = 16,
  /** Motor 0 is held fast; the next three bits: motors 1 to 3. */
  JAM = 256,
  /** The rear still drives, the front no longer. */
  FRONT_FREE = 4096,
}

/** What a finding brings about; each only ever lowers a command. */
export const enum Reaction {
  /** Nothing is looked for. */
  OFF = 0,
  /** The finding is reported. */
  REPORT = 1,
  /** That motor is trimmed while the finding lasts, and with it the other one of its pair. */
  TRIM = 2,
  /** All motors are cut, then ramped back. */
  RAMP = 3,
  /** All motors are capped until re-armed. */
  LIMP = 4,
  /** A controlled stop, and a latched fault. */
  STOP = 5,
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
