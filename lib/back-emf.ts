import { V } from './constants.ts';
import { MISSING } from './signals.ts';
import type { Winding } from './winding.ts';

/**
 * Speed of each motor's tyre from V d = R i + K v, with the supply as it is under load and R at the
 * winding's temperature; or from a wheel-speed sensor where one is fitted.
 *
 * R is learnt in each start: while the vehicle hardly moves, V d - K v is all R i, whatever K. Only
 * samples count in which the current rose as the voltage did: once it stays behind, the wheel may
 * have broken loose.
 */
export interface BackEmf {
  /** Speed of each motor's tyre, mm/s, forward positive. */
  wheel: number[];
  /** 0 = nothing told; 1 = told; 2 = no current flows: a bridge that coasts would hide more speed. */
  told: number[];
  /** Current of each motor, mA; 0 where no sample was taken. */
  current: number[];
  /** Motors whose current was sampled. */
  known: number;
  /**
   * The others as in Traction.
   *
   * @param speed of the vehicle in the last tick, mm/s
   */
  run(last: number[], mv: number, currentMa: number[], wheelDegS: number[], speed: number): void;
}

/** A command below this tells nothing of a motor without current, permille. */
const LEAST_COMMAND = 20;
/** Learning: least current and weight of what was known before, in errors of a sample. */
const LEAST_CURRENT = 4;
const MEMORY = 6;
/** Greatest share of the voltage that speed may take meanwhile; least share of its rise in R i. */
const MOVING = 12 / 100;
const FOLLOWS = 7 / 10;
/** Share of the top speed below which the vehicle counts as at rest. */
export const AT_REST = 3 / 100;
/** How much hotter than reckoned a winding may be, in shares of its resistance. */
const HOTTER = 2 / 10;

/**
 * @param vehicle constants of the vehicle
 * @param windings heat of each motor's winding; none without current sensors
 */
export function createBackEmf(vehicle: number[], windings: Winding[]): BackEmf {
  const emf = vehicle[V.EMF_UV];
  const count = emf > 0 ? windings.length : 0;
  const wheels = vehicle[V.HAS_WHEEL_SPEED] === 1 ? vehicle[V.MOTORS] : 0;
  const ohm = vehicle[V.MOTOR_MOHM];
  const copper = vehicle[V.COPPER_PPM_K] / 1000000;
  const error = vehicle[V.CURRENT_ERROR_MA];
  const doubt = vehicle[V.MODEL_ERROR] / 1000;
  const slow = vehicle[V.TOP_SPEED_MM_S] * AT_REST;
  const degree = vehicle[V.WHEEL_UM_DEG] / 1000;
  const wheel = [0, 0, 0, 0];
  const told = [0, 0, 0, 0];
  const current = [0, 0, 0, 0];
  /** Resistance over that of the description; greatest current and R i of this start. */
  const ratio = [1, 1, 1, 1];
  const most = [0, 0, 0, 0];
  const drop = [0, 0, 0, 0];
  /** Sums of R i times i and of i times i. */
  const above = [0, 0, 0, 0];
  const below = [0, 0, 0, 0];
  const motors = { wheel: wheel, told: told, current: current, known: 0, run: run };

  function run(
    last: number[],
    mv: number,
    currentMa: number[],
    wheelDegS: number[],
    speed: number,
  ): void {
    let known = 0;
    for (let m = 0; m < count; m++) {
      const ma = currentMa[m];
      const d = last[m];
      told[m] = 0;
      current[m] = 0;
      if (ma === MISSING || mv <= 0) continue;
      known++;
      current[m] = ma;
      const reckoned = ohm * (1 + copper * windings[m].rise);
      if (d === 0) {
        if (speed < slow && speed > 0 - slow) forget(m, reckoned);
      } else if (d > 0) learn(m, reckoned, mv * d, ma, speed);
      else learn(m, reckoned, 0 - mv * d, 0 - ma, 0 - speed);
      wheel[m] = (mv * d - reckoned * ratio[m] * ma) / emf;
      if (ma > error || ma < 0 - error) told[m] = 1;
      else if (d > LEAST_COMMAND || d < 0 - LEAST_COMMAND) told[m] = 2;
    }
    motors.known = known;
    for (let m = 0; m < wheels; m++) {
      if (m >= count) told[m] = 0;
      if (wheelDegS[m] === MISSING) continue;
      wheel[m] = wheelDegS[m] * degree;
      told[m] = 1;
    }
  }

  function forget(m: number, reckoned: number): void {
    most[m] = 0;
    drop[m] = 0;
    below[m] = error * error * MEMORY * MEMORY;
    above[m] = below[m] * reckoned * ratio[m];
  }

  /** @param uv voltage, µV; it, current and speed in the direction of the command */
  function learn(m: number, reckoned: number, uv: number, ma: number, speed: number): void {
    const taken = emf * speed;
    if (ma <= error * LEAST_CURRENT || ma <= most[m] || taken > uv * MOVING) return;
    const left = uv - taken;
    if ((ma - most[m]) * reckoned * ratio[m] < (left - drop[m]) * FOLLOWS) return;
    most[m] = ma;
    drop[m] = left;
    above[m] += left * ma;
    below[m] += ma * ma;
    const next = above[m] / below[m] / reckoned;
    const high = 1 + doubt + HOTTER;
    ratio[m] = next > high ? high : next < 1 - doubt ? 1 - doubt : next;
  }

  return motors;
}
