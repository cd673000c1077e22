import type { Inputs, Outputs } from '../../lib/signals.ts';

/**
 * A stream of inputs: sticks that arm and drive, worn sensors, dropouts, odd clocks, garbage; now
 * and then a row of full starts.
 */
export interface Stream {
  /** Fills in the next tick's inputs; currents follow the commands of the last tick. */
  fill(inputs: Inputs, outputs: Outputs): void;
  /** Slot to offer a setup to before this tick, or -1. */
  offer(): number;
  /** 0, or now and then 1, to spoil what is offered. */
  flaw(): number;
}

/**
 * The same stream on every engine, by integer operators only: Marsaglia's xorshift with shifts 13,
 * 17 and 5 (Journal of Statistical Software 8(14), 2003).
 *
 * @param seed a 32-bit integer other than 0
 * @param slots number of setups on board
 */
export function createStream(seed: number, slots: number): Stream {
  let state = seed;
  const throttle = createStick();
  const steer = createStick();
  let time = 0;
  let stuckFor = 0;
  let age = 0;
  const link = createLink();
  let battery = 7800;
  let load = 0;
  let slot = 0;
  let guest = 0;
  let burst = 0;
  let yawRate = 0;
  let gyro = 0;
  const starts = createStarts();

  /** An integer from 0 to n - 1. */
  function below(n: number): number {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 8) % n;
  }

  function fill(inputs: Inputs, outputs: Outputs): void {
    if (starts.next(below, outputs.drive[0]! | 0, battery)) {
      battery = 7800;
      // Of the samples' setups the last does not stop for a jam, the first does not cut for a spin.
      slot = starts.slips() ? slots - 1 : 0;
      guest = 0;
      time = (time + 10) | 0;
      age = below(8);
    } else {
      moveClock();
      age = link.age(below);
    }
    if (below(1500) === 0) battery = 5200 + below(3300);
    if (below(150) === 0) load = below(5);
    if (below(600) === 0 && !starts.isOn()) slot = below(slots + 2) - 1;
    if (below(500) === 0 && !starts.isOn()) guest = 1 - guest;
    inputs.timeMs = time;
    inputs.throttleUs = starts.throttle(throttle.pulse(below));
    inputs.steerUs = starts.isOn() ? 1500 : steer.pulse(below);
    inputs.ageMs = age;
    inputs.slot = slot;
    inputs.guest = guest;
    inputs.batteryMv = battery + below(61) - 30;
    // A gyro that is stuck, one that turns with the vehicle, one that is only noise.
    if (below(300) === 0) gyro = below(3);
    if (gyro === 1) yawRate += below(201) - 100 - ((yawRate / 50) | 0);
    else if (gyro === 2) yawRate = below(6001) - 3000;
    inputs.yawRateMradS = yawRate;
    for (let i = 0; i < 4; i++) {
      const drive = outputs.drive[i]! | 0;
      const isOn = starts.isOn();
      inputs.currentMa[i] = (isOn ? starts.current(i) : drive * load) + below(101) - 50;
      inputs.wheelDegS[i] = (isOn ? starts.turns(i, drive) : drive * (5 - load)) + below(61) - 30;
    }
    if (starts.isOn()) return;
    if (burst > 0) burst--;
    else if (below(3000) === 0) burst = 30 + below(70);
    if (burst > 0 || below(300) === 0) spoil(inputs, below(10), GARBAGE[below(GARBAGE.length)]);
  }

  function moveClock(): void {
    if (below(3000) === 0) stuckFor = 5 + below(30);
    if (stuckFor > 0) {
      stuckFor--;
      return;
    }
    time = (time + 9 + below(3)) | 0;
    const event = below(3000);
    if (event < 10) time = (time - 10) | 0;
    else if (event < 13) time = (time - below(500)) | 0;
    else if (event < 16) time = (time + below(2000)) | 0;
    else if (event === 16) time = (below(65536) << 16) | below(65536);
  }

  return {
    fill,
    offer: () => (below(400) === 0 && !starts.isOn() ? below(slots) : -1),
    flaw: () => (below(4) === 0 ? 1 : 0),
  };
}

/** A radio link that is lost now and then. */
function createLink() {
  let lostFor = 0;
  let age = 0;
  return {
    /** Age of the newest input, ms. */
    age(below: (n: number) => number): number {
      if (lostFor > 0) {
        lostFor--;
        age += 10;
      } else {
        age = below(8);
        if (below(700) === 0) lostFor = 5 + below(120);
      }
      return age;
    },
  };
}

interface Stick {
  pulse(below: (n: number) => number): number;
}

/** A stick that rests in its centre, or anywhere, for a while. */
function createStick(): Stick {
  let rest = 200;
  let place = 0;
  function pulse(below: (n: number) => number): number {
    rest--;
    if (rest < 0) {
      place = below(3) === 0 ? 0 : below(1201) - 600;
      rest = place === 0 ? 60 + below(200) : 20 + below(150);
    }
    return 1500 + place + below(7) - 3;
  }
  return { pulse };
}

/** Ticks before the first start, from one to the next, and how many are driven; starts in a row. */
const ARMS = 200;
const START = 300;
const DRIVEN = 60;
const COUNT = 4;

/**
 * Full throttle from rest, again and again, with the currents of a car: V d = R i + K w. In one row
 * the wheels turn half as fast again in the second half of the starts, which the currents do not
 * explain; in each of the next four a motor runs free.
 */
function createStarts() {
  let left = 0;
  let rows = 0;
  let speed = 0;
  let current = 0;
  const isFree = (motor: number): boolean => rows % 5 === (motor + 2) % 5;
  const slips = (): boolean => rows % 5 === 1;
  return {
    /** Whether a row of starts is on. */
    next(below: (n: number) => number, drive: number, mv: number): boolean {
      if (left > 0) left--;
      else if (below(3000) === 0) {
        left = ARMS + COUNT * START;
        rows++;
      }
      if (drive === 0) speed = 0;
      const isSlipping = slips() && left < (COUNT / 2) * START;
      const wheel = isSlipping ? speed + (speed >> 1) : speed;
      current = drive === 0 ? 0 : ((mv * drive - 1500 * wheel) / 2000) | 0;
      // 1.2 N/A from each of two motors, 1 N of drag, 1.4 kg, 10 ms.
      speed = (speed + (12 * current) / 700 - 7) | 0;
      if (speed < 0) speed = 0;
      return left > 0;
    },
    isOn: () => left > 0,
    slips,
    throttle: (pulse: number) =>
      left === 0 ? pulse : left <= COUNT * START && left % START < DRIVEN ? 2000 : 1500,
    current: (motor: number) => (isFree(motor) && current > 200 ? 200 : current),
    /** Speed of a motor's wheel, deg/s. */
    turns: (motor: number, drive: number) => (isFree(motor) ? 10 * drive : 3 * drive),
  };
}

/** What a port may return and the core must take for missing. */
const GARBAGE: unknown[] = [
  0 / 0,
  1 / 0,
  -1 / 0,
  0 / -1,
  undefined,
  null,
  true,
  false,
  '',
  'x',
  '1500',
  {},
  [1500],
  3001 / 2,
  1 / 3,
  32767,
  32768,
  -32768,
  -32769,
  2147483647,
  2147483648,
  -2147483648,
  4294967296,
  1000000000000000,
];

function spoil(inputs: Inputs, field: number, garbage: unknown): void {
  const value = garbage as number;
  if (field === 0) inputs.timeMs = value;
  else if (field === 1) inputs.throttleUs = value;
  else if (field === 2) inputs.steerUs = value;
  else if (field === 3) inputs.ageMs = value;
  else if (field === 4) inputs.slot = value;
  else if (field === 5) inputs.guest = value;
  else if (field === 6) inputs.batteryMv = value;
  else if (field === 7) inputs.currentMa[1] = value;
  else if (field === 8) inputs.wheelDegS[1] = value;
  else inputs.yawRateMradS = value;
}
