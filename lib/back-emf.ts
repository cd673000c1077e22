import { V } from './constants.ts';
import { createResistance } from './resistance.ts';
import { MISSING } from './signals.ts';
import type { Windings } from './winding.ts';

/**
 * Speed of each motor's tyre from V d = R i + K v, with the supply as it is under load and R at the
 * winding's temperature; or from a wheel-speed sensor where one is fitted.
 */
export interface BackEmf {
  /** Speed of each motor's tyre, mm/s, forward positive. */
  wheel: number[];
  /** 1 = a wheel-speed sensor told it. */
  sensed: number[];
  /** Where one told it: what the motor surely turns at by V d = R i + K v, or 0. */
  turns: number[];
  /** 0 = nothing told; 1 = told; 2 = no current: a bridge that coasts would hide more speed. */
  told: number[];
  /** Current of each motor, mA; 0 where no sample was taken. */
  current: number[];
  /** What the resistance of each motor may still be wrong by, in shares of it. */
  unsure: number[];
  /** Motors whose current was sampled, and of these that are driven. */
  known: number;
  driven: number;
  /**
   * The others as in Traction.
   *
   * @param speed of the vehicle in the last tick, mm/s
   */
  run(last: number[], mv: number, currentMa: number[], wheelDegS: number[], speed: number): void;
}

/** A command below this tells nothing of a motor without current, permille. */
const LEAST_COMMAND = 20;
/** What noise may add to the error of a resistance: three standard deviations of 5 %. */
const WRONG = 15 / 100;
/** Share of the top speed below which the vehicle counts as at rest. */
export const AT_REST = 3 / 100;

/**
 * @param vehicle constants of the vehicle
 * @param windings heat of each motor's winding
 */
export function createBackEmf(vehicle: number[], windings: Windings): BackEmf {
  const emf = vehicle[V.EMF_UV];
  const count = emf > 0 && vehicle[V.HAS_CURRENT] === 1 ? vehicle[V.MOTORS] : 0;
  const measured = vehicle[V.HAS_WHEEL_SPEED] === 1 ? vehicle[V.MOTORS] : 0;
  const error = vehicle[V.CURRENT_ERROR_MA];
  const fall = vehicle[V.MOTOR_MOHM] / emf;
  const slow = vehicle[V.TOP_SPEED_MM_S] * AT_REST;
  const degree = vehicle[V.WHEEL_UM_DEG] / 1000;
  const wheel = [0, 0, 0, 0];
  const sensed = [0, 0, 0, 0];
  const turns = [0, 0, 0, 0];
  const told = [0, 0, 0, 0];
  const current = [0, 0, 0, 0];
  const starts = createResistance(vehicle);
  const ratio = starts.ratio;
  const motors = {
    wheel: wheel,
    sensed: sensed,
    turns: turns,
    told: told,
    current: current,
    unsure: starts.unsure,
    known: 0,
    driven: 0,
    run: run,
  };

  function run(
    last: number[],
    mv: number,
    currentMa: number[],
    wheelDegS: number[],
    speed: number,
  ): void {
    let known = 0;
    let driven = 0;
    for (let m = 0; m < count; m++) {
      const ma = currentMa[m];
      const d = last[m];
      told[m] = 0;
      current[m] = 0;
      if (ma === MISSING || mv <= 0) continue;
      known++;
      current[m] = ma;
      const reckoned = windings.ohm(m);
      if (d === 0) {
        if (speed < slow && speed > 0 - slow) starts.begin(m, reckoned);
      } else {
        driven++;
        const way = d < 0 ? -1 : 1;
        starts.learn(m, reckoned, mv * d * way, ma * way, speed * way);
      }
      wheel[m] = (mv * d - reckoned * ratio[m] * ma) / emf;
      if (ma > error || ma < 0 - error) told[m] = 1;
      else if (d > LEAST_COMMAND || d < 0 - LEAST_COMMAND) told[m] = 2;
    }
    motors.known = known;
    motors.driven = driven;
    for (let m = 0; m < measured; m++) {
      sensed[m] = 0;
      if (m >= count) told[m] = 0;
      if (wheelDegS[m] === MISSING) continue;
      turns[m] =
        told[m] === 0 ? 0 : surely(wheel[m], fall * (starts.unsure[m] + WRONG), current[m]);
      wheel[m] = wheelDegS[m] * degree;
      sensed[m] = 1;
      told[m] = 1;
    }
  }

  return motors;
}

/** What is left of a speed once its error is taken off: `loose` for each mA of the current. */
function surely(speed: number, loose: number, ma: number): number {
  const error = loose * (ma < 0 ? 0 - ma : ma);
  if (speed > error) return speed - error;
  return speed < 0 - error ? speed + error : 0;
}
