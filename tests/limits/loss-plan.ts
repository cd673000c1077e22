import { type Constants, type Inputs, type Outputs, V } from '../../lib/index.ts';

/** Fills the currents of a tick with those of wheels that grip, break loose, run free and jam. */
export interface LossPlan {
  fill(inputs: Inputs, outputs: Outputs): void;
}

/** How long wheels grip, and how long one of them does not, ticks. */
const GRIP = 10;
const LOST = 15;
/** Gain of a wheel that broke loose, over the vehicle's top speed, in a tick. */
const SPINS = 1 / 15;

/**
 * A vehicle of the core's own constants on a level floor: V d = R i + K w, and the currents push
 * its mass. One motor after another loses its grip, its load, its freedom to turn.
 */
export function createLossPlan({ vehicle }: Constants): LossPlan {
  const [motors, tick] = [vehicle[V.MOTORS]!, vehicle[V.TICK_MS]!];
  const [emf, ohm] = [vehicle[V.EMF_UV]!, vehicle[V.MOTOR_MOHM]!];
  const top = vehicle[V.TOP_SPEED_MM_S]!;
  const mass = vehicle[V.MASS_G]! + motors * vehicle[V.ROTATING_G]!;
  let speed = 0;
  let ticks = 0;
  let spun = 0;

  function current(m: number, mv: number, command: number): number {
    const phase = ticks % (GRIP + LOST);
    const turn = Math.floor(ticks / (GRIP + LOST));
    const sign = command < 0 ? -1 : 1;
    let wheel = speed;
    if (phase >= GRIP && Math.floor(turn / 3) % motors === m) {
      const kind = turn % 3;
      if (kind === 1) return sign * vehicle[V.NO_LOAD_MA]!;
      spun = phase === GRIP ? 0 : spun + top * SPINS;
      wheel = kind === 0 ? speed + sign * spun : 0;
    }
    return (mv * command - emf * wheel) / ohm;
  }

  return {
    fill(inputs, outputs) {
      const mv = inputs.batteryMv > 0 ? inputs.batteryMv : vehicle[V.SUPPLY_NOMINAL_MV]!;
      let sum = 0;
      for (let m = 0; m < motors; m++) {
        const ma = Math.round(current(m, mv, outputs.drive[m]!));
        inputs.currentMa[m] = Math.max(-32767, Math.min(32767, ma));
        sum += inputs.currentMa[m]!;
      }
      const force = (sum * vehicle[V.THRUST_MN_A]!) / 1000;
      const drag = Math.min(Math.abs(speed), vehicle[V.DRAG_MN]!) * Math.sign(speed);
      speed += ((force - drag) * tick) / mass;
      speed = Math.max(-top, Math.min(top, speed));
      ticks++;
    },
  };
}
