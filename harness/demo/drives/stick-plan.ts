import type { Manoeuvre, ManoeuvreCar } from '../../manoeuvres/manoeuvre.ts';
import { createScript } from '../../manoeuvres/script.ts';

/** Where the sticks are at a time; between two lines they move evenly. */
interface StickLine {
  /** Time since the drive began, s. */
  atS: number;
  /** Percent of the stick's way, forward and left positive. */
  throttle: number;
  steer: number;
}

/** A drive of the demo: sticks, switches, silences and what breaks. */
export interface DemoDrive {
  /** Folder of the car among the demo's garages. */
  car: string;
  /** Name of the run, without its ending. */
  run: string;
  surface: string;
  /** Setups on board; slot 0 drives first. */
  setups: readonly string[];
  seed: number;
  lines: readonly StickLine[];
  /** Stretches in which the transmitter is silent. */
  silences: readonly { fromS: number; toS: number }[];
  /** Slot and guest switch from a time on. */
  switches: readonly { atS: number; slot: number; guest: boolean }[];
  faults: NonNullable<ReturnType<NonNullable<Manoeuvre['faults']>>>;
  /** What happens, for the run's notes. */
  notes: readonly string[];
}

/** The drive as something that can be simulated. */
export function asManoeuvre(drive: DemoDrive): Manoeuvre {
  const { lines, silences } = drive;
  return {
    name: drive.run,
    title: drive.run,
    source: 'Our own.',
    meaning: 'A drive of the demo club.',
    headline: [],
    kind: 'straight',
    durationS: () => lines.at(-1)!.atS,
    faults: (_car: ManoeuvreCar) => drive.faults,
    createDriver: () =>
      createScript((t, sticks) => {
        const after = lines.findIndex(({ atS }) => atS > t);
        const [a, b] =
          after < 1 ? [lines.at(-1)!, lines.at(-1)!] : [lines[after - 1]!, lines[after]!];
        const share = b.atS > a.atS ? (t - a.atS) / (b.atS - a.atS) : 0;
        sticks.throttle = (a.throttle + (b.throttle - a.throttle) * share) / 100;
        sticks.steer = (a.steer + (b.steer - a.steer) * share) / 100;
        sticks.linkUp = !silences.some(({ fromS, toS }) => t >= fromS && t < toS);
      }),
  };
}

/** Slot and guest switch at a time of the drive. */
export function switchesAt(drive: DemoDrive, t: number): { slot: number; guest: boolean } {
  return drive.switches.findLast(({ atS }) => t >= atS) ?? { slot: 0, guest: false };
}
