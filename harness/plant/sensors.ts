import { MISSING } from '../../lib/signals.ts';
import type { Fault, SensorName } from './fault.ts';
import { createNoise } from './noise.ts';
import { type State, TERMINAL_VOLTAGE, YAW_RATE } from './state.ts';

/** What is fitted and how well it measures; undefined = not fitted. */
export interface SensorDescription {
  /** Supply voltage, in mV. */
  supply?: SensorChannel;
  /** Yaw rate, in mrad/s. */
  gyro?: SensorChannel;
  /** Mean current of each motor, in mA. */
  current?: SensorChannel;
  /** Speed of each wheel, in deg/s. */
  wheelSpeed?: SensorChannel;
  /** Which wheel's speed is handed out for each motor; the first four if left out. */
  wheelOfMotor?: readonly number[];
}

/** Errors of one kind of sensor, in the unit of its samples. */
export interface SensorChannel {
  /** Least difference between two samples; 1 or more. */
  step: number;
  /** Standard deviation of the noise. */
  noise: number;
  /** Noise that grows with what is measured: standard deviation over reading; 0 if left out. */
  noiseShare?: number;
  /** Reading at zero. */
  offset: number;
  /** Age of what is read, s; at most 30 samples. */
  delay: number;
  /** Share of samples that are missing, 0..1. */
  dropout: number;
  /** Greatest magnitude it can give; as much as a sample can hold if left out. */
  most?: number;
}

/** Where samples go; the core's `Inputs` will do. Integers, or MISSING. */
export interface Senses {
  batteryMv: number;
  yawRateMradS: number;
  currentMa: number[];
  /** Wheels in the order of the motors that drive them. */
  wheelDegS?: number[];
}

/** The sensors of one vehicle. */
export interface Sensors {
  /** Takes a sample of everything that is fitted. */
  sense(state: State, out: Senses): void;
  freeze(faults: readonly Fault[]): void;
  snapshot(): SensorSnapshot;
  restore(snapshot: SensorSnapshot): void;
}

/** Everything sensors remember. */
export interface SensorSnapshot {
  noise: readonly number[];
  memory: Float64Array;
  samples: number[];
}

/** Channels in the order in which noise is drawn: supply, gyro, four currents, four wheels. */
const CHANNELS: { name: SensorName; index: number }[] = [
  { name: 'supply', index: 0 },
  { name: 'gyro', index: 0 },
  ...[0, 1, 2, 3].map((index) => ({ name: 'current' as const, index })),
  ...[0, 1, 2, 3].map((index) => ({ name: 'wheelSpeed' as const, index })),
];
/** Samples remembered where a channel has a delay, each with its time before the channels. */
const DEPTH = 32;
const WIDTH = 1 + CHANNELS.length;

/** @param motorCount how many currents there are to measure */
export function createSensors(
  description: SensorDescription,
  motorCount: number,
  seed: number,
): Sensors {
  const noise = createNoise(seed);
  const samples = CHANNELS.map(() => MISSING);
  const fitted = CHANNELS.flatMap(({ name, index }, at) => {
    const channel = name === 'current' && index >= motorCount ? undefined : description[name];
    return channel === undefined ? [] : [fit(channel, at)];
  });
  const isDelayed = fitted.some(({ delay }) => delay !== 0);
  const memory = new Float64Array((isDelayed ? DEPTH : 1) * WIDTH).fill(Number.NaN);
  const wheelOfMotor = description.wheelOfMotor ?? [0, 1, 2, 3];
  const pairs = new Float64Array(2 * fitted.length);
  let frozen = CHANNELS.map(() => false);
  return {
    sense: (state, out) => {
      remember(memory, state);
      // Always the same number of draws, so that a fault does not shift the noise of the rest.
      noise.fillPairs(pairs);
      for (let k = 0; k < fitted.length; k++) {
        const channel = fitted[k]!;
        if (frozen[channel.at]) continue;
        const isMissing = pairs[2 * k + 1]! < channel.dropout;
        samples[channel.at] = isMissing ? MISSING : sample(memory, channel, pairs[2 * k]!);
      }
      hand(samples, wheelOfMotor, out);
    },
    freeze: (faults) => {
      frozen = CHANNELS.map(({ name, index }) =>
        faults.some(
          (f) => f.kind === 'frozenSensor' && f.sensor === name && (f.index ?? index) === index,
        ),
      );
    },
    snapshot: () => ({
      noise: noise.snapshot(),
      memory: memory.slice(),
      samples: [...samples],
    }),
    restore: (snapshot) => {
      noise.restore(snapshot.noise);
      memory.set(snapshot.memory);
      samples.splice(0, samples.length, ...snapshot.samples);
    },
  };
}

/** Puts the true values in front of those of earlier samples. */
function remember(memory: Float64Array, state: State): void {
  if (memory.length > WIDTH) memory.copyWithin(WIDTH, 0, memory.length - WIDTH);
  memory[0] = state.time[0]!;
  memory[1] = 1000 * state.battery[TERMINAL_VOLTAGE]!;
  memory[2] = 1000 * state.body[YAW_RATE]!;
  for (let i = 0; i < 4; i++) {
    memory[3 + i] = 1000 * state.current[i]!;
    memory[7 + i] = (state.speeds[i]! * 180) / Math.PI;
  }
}

/** A channel with all that it may leave out, and its place among the channels. */
interface FittedChannel extends Required<SensorChannel> {
  at: number;
}

function fit(channel: SensorChannel, at: number): FittedChannel {
  const { step, noise, noiseShare = 0, offset, delay, dropout, most = -MISSING - 1 } = channel;
  return { at, step, noise, noiseShare, offset, delay, dropout, most };
}

/**
 * The nearest value the sensor can give, never the one that stands for a missing sample.
 *
 * @param draw of the noise, in standard deviations
 */
function sample(memory: Float64Array, channel: FittedChannel, draw: number): number {
  const { at, step, offset, delay, most } = channel;
  const value = delay === 0 ? memory[1 + at]! : recall(memory, at, delay);
  const noisy = value + draw * deviation(value, channel);
  const rounded = Math.round((noisy + offset) / step) * step;
  return Math.min(Math.max(Math.round(rounded), -most), most) + 0;
}

/** A true value as it was a delay ago, linear between two samples; the oldest known before that. */
function recall(memory: Float64Array, channel: number, delay: number): number {
  const wanted = memory[0]! - delay;
  let newer = 0;
  for (let older = 0; older * WIDTH < memory.length; older++) {
    const time = memory[older * WIDTH]!;
    if (!(time > wanted)) {
      if (Number.isNaN(time) || older === newer) break;
      const span = memory[newer * WIDTH]! - time;
      const share = (wanted - time) / span;
      const from = memory[older * WIDTH + 1 + channel]!;
      return from + share * (memory[newer * WIDTH + 1 + channel]! - from);
    }
    newer = older;
  }
  return memory[newer * WIDTH + 1 + channel]!;
}

/** Standard deviation of the noise at a value. */
function deviation(value: number, { noise, noiseShare }: FittedChannel): number {
  const growing = noiseShare * value;
  // The root of one square is exact, and to take it costs as much as to draw the noise.
  return growing === 0 ? Math.abs(noise) : Math.hypot(noise, growing);
}

function hand(samples: readonly number[], wheelOf: readonly number[], out: Senses): void {
  out.batteryMv = samples[0]!;
  out.yawRateMradS = samples[1]!;
  for (let i = 0; i < out.currentMa.length; i++) out.currentMa[i] = samples[2 + i] ?? MISSING;
  const wheels = out.wheelDegS;
  if (wheels === undefined) return;
  for (let i = 0; i < wheels.length; i++) wheels[i] = samples[6 + (wheelOf[i] ?? i)] ?? MISSING;
}
