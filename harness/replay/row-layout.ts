/**
 * A tick's inputs as a row of integers: these columns, then the current of each motor, then its
 * wheel's speed.
 */
export const enum In {
  TIME = 0,
  THROTTLE = 1,
  STEER = 2,
  AGE = 3,
  SLOT = 4,
  GUEST = 5,
  BATTERY = 6,
  YAW_RATE = 7,
  CURRENT = 8,
}

/** A tick's outputs as a row of integers: these columns, then the drive of each motor. */
export const enum Out {
  ENABLE = 0,
  STEER = 1,
  STATE = 2,
  CAUSE = 3,
  FLAGS = 4,
  SLOT = 5,
  THROTTLE = 6,
  DEMAND = 7,
  CUT = 8,
  LIMIT = 9,
  SPEED = 10,
  FOUND = 11,
  SPIN = 12,
  FREE = 13,
  JAM = 14,
  ASSIST = 15,
  DRIVE = 16,
}

/** Integers in a row of inputs. */
export function inputWidth(motors: number): number {
  return In.CURRENT + 2 * motors;
}

/** Integers in a row of outputs. */
export function outputWidth(motors: number): number {
  return Out.DRIVE + motors;
}
