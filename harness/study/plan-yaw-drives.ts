import type { Manoeuvre } from '../manoeuvres/manoeuvre.ts';
import { createNoise } from '../plant/noise.ts';
import type { PlantVariation } from '../plant/vary-plant.ts';
import { AFTER_POWER, FROM_THE_LIMIT, mirrored, YAW_MANOEUVRES } from './yaw-manoeuvres.ts';

/** Whether a drive stays under power, lets go of it in a bend, or does so at the limit of grip. */
export type YawPart = 'power' | 'lift' | 'limit';

const PARTS: readonly [YawPart, readonly Manoeuvre[]][] = [
  ['power', YAW_MANOEUVRES],
  ['lift', AFTER_POWER],
];
/** These are drawn after the others, whose draws they so leave as they are. */
const MORE_PARTS: readonly [YawPart, readonly Manoeuvre[]][] = [['limit', FROM_THE_LIMIT]];

/** One bend, driven on the same car and gyro over a range of friction. */
export interface YawBend {
  setup: string;
  manoeuvre: Manoeuvre;
  /** Driven to the right. */
  isMirrored: boolean;
  part: YawPart;
  /** Of sensors, link and jitter, alike in all drives of the bend. */
  seed: number;
  /** All but the friction. */
  variation: PlantVariation;
  /**
   * Where in the manoeuvre the gyro is to stick, as a share of its length, and at what friction.
   */
  stuckAt: number;
  stuckFriction: number;
}

/** Friction over that of the surface. */
export const FRICTIONS = [0.75, 0.875, 1, 1.125, 1.25] as const;

/**
 * Every setup with every manoeuvre, `repeats` times. Each repeat draws a car and a gyro: mass,
 * motors, charge; step, noise, offset and delay. The same seed gives the same bends.
 */
export function planYawDrives(setups: readonly string[], repeats: number, seed: number): YawBend[] {
  return [PARTS, MORE_PARTS]
    .flatMap((parts) =>
      Array.from({ length: repeats }, () => setups.flatMap((setup) => bendsOf(setup, parts))),
    )
    .flat()
    .map(([setup, part, own], i) => drawBend(setup, part, own, seedOf(seed, i + 1)));
}

function bendsOf(setup: string, parts: typeof PARTS): [string, YawPart, Manoeuvre][] {
  return parts.flatMap(([part, manoeuvres]) =>
    manoeuvres.map((own): [string, YawPart, Manoeuvre] => [setup, part, own]),
  );
}

function seedOf(seed: number, id: number): number {
  return (Math.imul(seed, 0x9e3779b1) ^ Math.imul(id, 0x85ebca6b)) | 0;
}

function drawBend(setup: string, part: YawPart, own: Manoeuvre, seed: number): YawBend {
  const { uniform } = createNoise(seed);
  const variation = drawCar(uniform);
  const isMirrored = uniform() < 0.5;
  return {
    setup,
    manoeuvre: isMirrored ? mirrored(own) : own,
    isMirrored,
    part,
    seed,
    variation,
    stuckAt: 0.2 + 0.7 * uniform(),
    stuckFriction: FRICTIONS[Math.floor(uniform() * FRICTIONS.length)]!,
  };
}

function drawCar(uniform: () => number): PlantVariation {
  const around = (share: number) => 1 + share * (2 * uniform() - 1);
  return {
    mass: around(0.1),
    motors: { constant: around(0.05), resistance: around(0.1) },
    battery: { charge: 0.4 + 0.6 * uniform() },
    sensors: {
      gyro: {
        // Steps of 1 mrad/s or of 1 °/s.
        step: uniform() < 0.5 ? 1 : 17,
        noise: 5 + 55 * uniform(),
        offset: 120 * (2 * uniform() - 1),
        delay: 0.01 * Math.floor(3 * uniform()),
      },
    },
  };
}
