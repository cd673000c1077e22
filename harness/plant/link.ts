import { MISSING } from '../../lib/signals.ts';
import { createNoise } from './noise.ts';

/** How sticks reach the hub. */
export interface LinkDescription {
  /** Time between two frames of the transmitter, ms. */
  frameMs: number;
  /** Frames arrive up to this much later than they should, ms. */
  jitterMs: number;
  /** Share of frames that do not arrive, 0..1. */
  dropout: number;
  /** Standard deviation of the receiver's noise on a pulse, us. */
  noiseUs: number;
  /** Nominal time between ticks of the hub, ms; a tick comes up to `tickJitterMs` late. */
  tickMs: number;
  tickJitterMs: number;
}

/** Where the link writes; the core's `Inputs` will do. */
interface LinkOutputs {
  timeMs: number;
  throttleUs: number;
  steerUs: number;
  /** Age of the newest frame, ms; MISSING, like the pulses, before the first. */
  ageMs: number;
}

/** A simulated radio link and the hub's tick. */
export interface Link {
  /** True while no frame arrives. */
  isLost: boolean;
  /** Time of the next tick, whole ms; call once a tick. */
  nextTick(): number;
  /**
   * What the hub reads at a tick.
   *
   * @param timeMs time of the tick
   * @param throttleUs pulse the transmitter would send now, us
   * @param steerUs the same for the steering
   */
  receive(timeMs: number, throttleUs: number, steerUs: number, out: LinkOutputs): void;
}

/** @param seed of the jitter, the noise and the lost frames */
export function createLink(description: LinkDescription, seed: number): Link {
  const { frameMs, jitterMs, dropout, noiseUs, tickMs, tickJitterMs } = description;
  const noise = createNoise(seed);
  let ticks = 0;
  let due = 0;
  let arrived: number = MISSING;
  let throttle: number = MISSING;
  let steer: number = MISSING;
  const link: Link = {
    isLost: false,
    nextTick: () => Math.round(ticks++ * tickMs + noise.uniform() * tickJitterMs),
    receive: (timeMs, throttleUs, steerUs, out) => {
      while (due <= timeMs) {
        const late = noise.uniform() * jitterMs;
        const isDropped = noise.uniform() < dropout;
        const a = noise.normal() * noiseUs;
        const b = noise.normal() * noiseUs;
        if (!link.isLost && !isDropped) {
          arrived = Math.min(due + late, timeMs);
          throttle = Math.round(throttleUs + a);
          steer = Math.round(steerUs + b);
        }
        due += frameMs;
      }
      out.timeMs = timeMs;
      out.throttleUs = throttle;
      out.steerUs = steer;
      out.ageMs = arrived === MISSING ? MISSING : Math.round(timeMs - arrived);
    },
  };
  return link;
}
