/**
 * What a hub hands to `boot`: one record of functions, read once and called without `this`. A
 * port that reads may return anything; what is no integer in its range counts as missing, and so
 * does an absent port or one that throws. No port may call `tick`.
 */
export interface Ports {
  /**
   * Time since power-up, ms, integer, 32-bit signed, may wrap. Missing: the clock stands still,
   * and after the vehicle's gap time the drive stops. Required.
   */
  nowMs(): number;
  /** Throttle servo pulse, µs, 500 to 2500. Missing: the signal is lost. Required. */
  readThrottleUs(): number;
  /** Steering servo pulse, µs, 500 to 2500. Missing: the signal is lost. Required. */
  readSteerUs(): number;
  /** Age of the newest received frame, ms, 0 to 32767. Missing: the signal is lost. Required. */
  readInputAgeMs(): number;
  /** Supply voltage, mV, 0 to 32767. Missing on a vehicle that measures it: its blind cap. */
  readBatteryMv(): number;
  /**
   * Current of a motor, mA, -32767 to 32767, positive when it flows in the direction of drive +.
   * Missing on a vehicle that measures it: its blind cap.
   *
   * @param motor index of the motor, from 0, in the order of the layout
   */
  readCurrentMa(motor: number): number;
  /**
   * Speed of a motor's wheel, deg/s, -32767 to 32767, forward positive. Missing: the speed is told
   * by the motor's current.
   *
   * @param motor index of the motor, from 0
   */
  readWheelDegS(motor: number): number;
  /** Yaw rate to the left, mrad/s, -32767 to 32767. Missing: yaw assist is off. */
  readYawRate(): number;
  /** Wanted setup slot, from 0. Missing, or a slot not on board: the slot stays. Optional. */
  readSlot(): number;
  /** Guest cap: 0 = off, anything else = on. Absent: off. Throws: on. Optional. */
  readGuest(): number;
  /**
   * Commands one motor. Throws: the drive is switched off, and needs to be armed anew.
   *
   * @param motor index of the motor, from 0
   * @param permille share of full command, -1000 to 1000, forward positive, integer
   */
  writeDrive(motor: number, permille: number): void;
  /**
   * Switches all bridges. Absent: `writeDrive(motor, 0)` alone stops the motors. Throws: as above.
   *
   * @param on 1 = driven, 0 = off, motors coast
   */
  writeEnable(on: number): void;
  /**
   * Commands the steering. Absent: the vehicle steers by its motors. Throws: as above.
   *
   * @param permille share of full lock, -1000 to 1000, left positive, integer
   */
  writeSteer(permille: number): void;
  /**
   * Stores a whole block of the recorder; it stays valid until the ring comes round. Absent, or
   * throws: the block is only in the ring. Optional.
   *
   * @param words the ring, 32-bit signed integers
   * @param start index of the block's first word
   * @param count number of words
   */
  writeBlock(words: number[], start: number, count: number): void;
}
