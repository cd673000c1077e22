import { V } from '../../lib/constants.ts';

/** Pulses a transmitter sends for stick positions, by the calibration the core is baked with. */
export interface StickPulses {
  /** @param position -1 full reverse to 1 full forward; @returns pulse, us, not rounded */
  throttle(position: number): number;
  /** @param position -1 full right to 1 full left; @returns pulse, us, not rounded */
  steer(position: number): number;
}

/** @param vehicle constants of the vehicle, by V */
export function createStickPulses(vehicle: readonly number[]): StickPulses {
  return {
    throttle: channel(vehicle, V.THROTTLE_LOW_US),
    steer: channel(vehicle, V.STEER_LOW_US),
  };
}

/** Low, centre, high and reversed stand side by side. */
function channel(vehicle: readonly number[], at: number): (position: number) => number {
  const low = vehicle[at]!;
  const centre = vehicle[at + 1]!;
  const high = vehicle[at + 2]!;
  const sign = vehicle[at + 3]! === 1 ? -1 : 1;
  return (position) => {
    const x = sign * Math.min(Math.max(position, -1), 1);
    return x > 0 ? centre + x * (high - centre) : centre + x * (centre - low);
  };
}
