/** Stands for a sample that was not taken or makes no sense; the least 16-bit integer. */
export const MISSING = -32768;

/**
 * What the hub hands over each tick. All integers; anything else counts as missing. `step`
 * writes back what it made of each value, so that a recorder sees exactly what was consumed.
 */
export interface Inputs {
  /** Milliseconds since boot, 32-bit signed, may wrap. */
  timeMs: number;
  /** Throttle servo pulse, µs. */
  throttleUs: number;
  /** Steering servo pulse, µs. */
  steerUs: number;
  /** Age of the newest frame that held these pulses, ms, 0 or more. */
  ageMs: number;
  /** Wanted setup slot, from 0; a slot that is not on board is ignored. */
  slot: number;
  /** Guest cap: 0 = off; any other value = on. */
  guest: number;
  /** Supply voltage, mV, or MISSING. */
  batteryMv: number;
  /** Yaw rate to the left, mrad/s, or MISSING. */
  yawRateMradS: number;
  /** Current of each motor, mA, positive when it flows in the direction of drive +; or MISSING. */
  currentMa: number[];
  /** Speed of each motor's wheel, deg/s, forward positive, or MISSING. */
  wheelDegS: number[];
}

/** What the core commands, and the signals between its stages. */
export interface Outputs {
  /** Command of each motor, permille of full, forward positive; integers. */
  drive: number[];
  /** 1 = bridges driven, 0 = drive off (motors coast); integer. */
  enable: number;
  /** Steering command, permille of full lock, left positive; integer. */
  steer: number;
  /** See State. */
  state: number;
  /** See Cause. */
  cause: number;
  /** See Flag. */
  flags: number;
  /** The slot in force, or being faded to. */
  slot: number;
  /** After shaping: throttle, permille, not rounded. */
  throttle: number;
  /** After the supervisor: drive demand, permille, not rounded. */
  demand: number;
  /** After the split: share by which the inside motor is slowed, permille, not rounded. */
  cut: number;
  /** After protection: what is left of the split's commands, permille, not rounded. */
  limit: number;
  /** Estimated speed over ground, mm/s, forward positive, not rounded. */
  speed: number;
  /** Findings present; see Found. */
  found: number;
  /** How sure the surest finding *spin* is, permille, 500 at the threshold; 0 = none. */
  spin: number;
  /** The same of *free*, be it of a side or of the front. */
  free: number;
  /** The same of *jam*. */
  jam: number;
  /** Change of the inside cut by yaw assist, permille, positive = more cut, not rounded. */
  assist: number;
}

/** An input record with every value missing. */
export function createInputs(): Inputs {
  return inputsOf(MISSING);
}

function inputsOf(none: number): Inputs {
  return {
    timeMs: none,
    throttleUs: none,
    steerUs: none,
    ageMs: none,
    slot: 0,
    guest: 0,
    batteryMv: none,
    yawRateMradS: none,
    currentMa: [none, none, none, none],
    wheelDegS: [none, none, none, none],
  };
}

/** An output record at rest. */
export function createOutputs(): Outputs {
  const outputs = { drive: [0, 0, 0, 0] } as Outputs;
  rest(outputs);
  return outputs;
}

/** Sets every output to rest. */
export function rest(outputs: Outputs): void {
  for (let i = 0; i < 4; i++) outputs.drive[i] = 0;
  outputs.enable = 0;
  outputs.steer = 0;
  outputs.state = 0;
  outputs.cause = 0;
  outputs.flags = 0;
  outputs.slot = 0;
  outputs.throttle = 0;
  outputs.demand = 0;
  outputs.cut = 0;
  outputs.limit = 0;
  outputs.speed = 0;
  outputs.found = 0;
  outputs.spin = 0;
  outputs.free = 0;
  outputs.jam = 0;
  outputs.assist = 0;
}
