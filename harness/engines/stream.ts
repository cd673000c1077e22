import type { Inputs, Outputs } from '../../lib/signals.ts';

/** A stream of inputs: sticks that arm and drive, worn sensors, dropouts, odd clocks, garbage. */
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
  let lostFor = 0;
  let battery = 7800;
  let load = 0;
  let slot = 0;
  let guest = 0;
  let burst = 0;
  let yawRate = 0;
  let gyro = 0;

  /** An integer from 0 to n - 1. */
  function below(n: number): number {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 8) % n;
  }

  function fill(inputs: Inputs, outputs: Outputs): void {
    moveClock();
    moveSignal();
    if (below(1500) === 0) battery = 5200 + below(3300);
    if (below(150) === 0) load = below(5);
    if (below(600) === 0) slot = below(slots + 2) - 1;
    if (below(500) === 0) guest = 1 - guest;
    inputs.timeMs = time;
    inputs.throttleUs = throttle.pulse(below);
    inputs.steerUs = steer.pulse(below);
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
      inputs.currentMa[i] = (outputs.drive[i]! | 0) * load + below(101) - 50;
      inputs.wheelDegS[i] = (outputs.drive[i]! | 0) * (5 - load) + below(61) - 30;
    }
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

  function moveSignal(): void {
    if (lostFor > 0) {
      lostFor--;
      age += 10;
    } else {
      age = below(8);
      if (below(700) === 0) lostFor = 5 + below(120);
    }
  }

  return {
    fill,
    offer: () => (below(400) === 0 ? below(slots) : -1),
    flaw: () => (below(4) === 0 ? 1 : 0),
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
