/**
 * What may go wrong in a run. Wheels and motors are counted from 0 in the order rear left, rear
 * right, front left, front right.
 */
export type Fault =
  /** The shaft of a wheel slips: the wheel rolls free, its shaft turns without it. */
  | { kind: 'slippedShaft'; wheel: number }
  /** A pinion slips on the shaft of a motor: the motor turns on its own. */
  | { kind: 'slippedPinion'; motor: number }
  /** A constraint of the driveline comes apart, such as 'frontDrive'. */
  | { kind: 'lostDrive'; constraint: string }
  /** A wheel is gone: its corner drags on the ground. */
  | { kind: 'lostWheel'; wheel: number }
  /** A wheel cannot turn. */
  | { kind: 'jammedWheel'; wheel: number }
  /** A motor draws no current. */
  | { kind: 'deadMotor'; motor: number }
  /** A sensor repeats its last sample; `index` tells motors, or wheels, apart; left out = all. */
  | { kind: 'frozenSensor'; sensor: SensorName; index?: number };

/** What a vehicle may measure. */
export type SensorName = 'supply' | 'gyro' | 'current' | 'wheelSpeed';
