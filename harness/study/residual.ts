import { V } from '../../lib/index.ts';
import type { Plant } from '../plant/plant.ts';
import type { PlantDescription } from '../plant/plant-description.ts';
import { drivenWheels } from './driven-wheels.ts';
import type { TrueEvent } from './truth.ts';

/**
 * What currents can show of an event at all: how far apart they are, or the speeds that they tell,
 * with the event and without it, over the noise of one sample. A core that knew every constant
 * would have this and no more to tell it from; errors of constants come on top.
 */
export interface Residual {
  /** Mean over the event, in standard deviations of one sample. */
  sigmas: number;
  /** Samples that show it until it is over, or due. */
  ticks: number;
}

/** Noise of a current over its reading, and at nothing, A. */
const NOISE_SHARE = 0.05;
const NOISE_A = 0.015;
/** Command from which a motor must show something, permille. */
const DRIVEN = 300;

/**
 * Watches a plant and says in the end what its currents could show of an event. Of a spin, and of
 * the starts without front drive: by how much the fastest wheel of the motor is faster than the
 * vehicle there. Of a motor that runs free: by how much less it draws than another one.
 *
 * @param vehicle constants of the core, for what a current means in speed
 */
export function createResiduals(plant: PlantDescription, vehicle: readonly number[]) {
  const wheels = drivenWheels(plant);
  /** Speed that a current stands for, m/s over A. */
  const drop = vehicle[V.MOTOR_MOHM]! / vehicle[V.EMF_UV]!;
  const times: number[] = [];
  const spins = wheels.of.map((): number[] => []);
  const frees = wheels.of.map((): number[] => []);
  const commands = wheels.of.map((): number[] => []);

  function watch(t: number, { state }: Plant, drive: ArrayLike<number>): void {
    times.push(t);
    const { current } = state;
    const most = Math.max(...wheels.of.map((_, m) => Math.abs(current[m]!)));
    for (const [m, own] of wheels.of.entries()) {
      const way = Math.sign(drive[m]!);
      const excess = own.map((w) => way * (wheels.roll(w, state) - wheels.along(w, state)));
      const size = Math.abs(current[m]!);
      spins[m]!.push(Math.max(...excess) / (drop * (NOISE_SHARE * size + NOISE_A)));
      frees[m]!.push((most - size) / (NOISE_SHARE * most + NOISE_A));
      commands[m]!.push(Math.abs(drive[m]!));
    }
  }

  /** @returns undefined for a jam: what it lacks is no noise but a speed that is due */
  function of({ kind, motor, fromS, toS, dueS }: TrueEvent): Residual | undefined {
    if (kind === 'jam') return undefined;
    const values = (kind === 'free' ? frees : spins)[motor]!;
    const until = Math.min(toS, dueS);
    const shown = values.filter(
      (_, i) => times[i]! >= fromS && times[i]! <= until && commands[motor]![i]! >= DRIVEN,
    );
    const ticks = shown.length;
    return { ticks, sigmas: ticks === 0 ? 0 : shown.reduce((sum, each) => sum + each) / ticks };
  }

  return { watch, of };
}
