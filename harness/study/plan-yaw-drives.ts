import type { Manoeuvre } from '../manoeuvres/manoeuvre.ts';
import { createNoise } from '../plant/noise.ts';
import type { PlantVariation } from '../plant/vary-plant.ts';
import { AFTER_POWER, mirrored, YAW_MANOEUVRES } from './yaw-manoeuvres.ts';

/** One bend, driven on the same car and gyro over a range of friction. */
export interface YawBend {
  setup: string;
  manoeuvre: Manoeuvre;
  /** Driven to the right. */
  isMirrored: boolean;
  /** Whether the drive stays under power. */
  isUnderPower: boolean;
  /** Of sensors, link and jitter, alike in all drives of the bend. */
  seed: number;
  /** All but the friction. */
  variation: PlantVariation;
  /** Where in the manoeuvre the gyro is to stick, as a share of its length, and at what friction. */
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
  const bends: YawBend[] = [];
  for (let repeat = 0; repeat < repeats; repeat++) {
    for (const setup of setups) {
      for (const own of [...YAW_MANOEUVRES, ...AFTER_POWER]) {
        const id = bends.length + 1;
        const drawSeed = (Math.imul(seed, 0x9e3779b1) ^ Math.imul(id, 0x85ebca6b)) | 0;
        const { uniform } = createNoise(drawSeed);
        const variation = drawCar(uniform);
        const isMirrored = uniform() < 0.5;
        bends.push({
          setup,
          manoeuvre: isMirrored ? mirrored(own) : own,
          isMirrored,
          isUnderPower: !AFTER_POWER.includes(own),
          seed: drawSeed,
          variation,
          stuckAt: 0.2 + 0.7 * uniform(),
          stuckFriction: FRICTIONS[Math.floor(uniform() * FRICTIONS.length)]!,
        });
      }
    }
  }
  return bends;
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
