import { V } from '../../lib/index.ts';

/** What a channel's calibration says of a pulse. */
export interface Stick {
  /** Least and greatest valid pulse, margin included, µs. */
  least: number;
  greatest: number;
  /** Whether the pulse lies inside the calibration, margin included. */
  valid(us: number): boolean;
  /** Share of the stick's travel, either way, permille, 0 to 1000. */
  travel(us: number): number;
}

/** @param low index of the channel's calibration: V.THROTTLE_LOW_US or V.STEER_LOW_US */
export function createStick(vehicle: readonly number[], low: number): Stick {
  const [lower, centre, most] = vehicle.slice(low, low + 3) as [number, number, number];
  const margin = vehicle[V.PULSE_MARGIN_US]!;
  const [least, greatest] = [lower - margin, most + margin];
  return {
    least,
    greatest,
    valid: (us) => us >= least && us <= greatest,
    travel: (us) => {
      const span = us > centre ? most - centre : centre - lower;
      return Math.min(1000, (Math.abs(us - centre) * 1000) / span);
    },
  };
}
