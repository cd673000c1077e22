import { createBackEmf } from './back-emf.ts';
import { Cause, Found } from './codes.ts';
import { S, V } from './constants.ts';
import { createEvidence } from './evidence.ts';
import { createFinding, LATCHED } from './finding.ts';
import { createFrontWatch } from './front-watch.ts';
import { createReactions } from './reactions.ts';
import { createVehicleSpeed, type VehicleSpeed } from './vehicle-speed.ts';
import type { Windings } from './winding.ts';

/**
 * Tells speed and loss of traction from what the motors draw. No wheel-speed sensor is needed; one
 * that is fitted takes the place of back-EMF.
 *
 * What current can tell. Of a motor, referred to its tyre: V d = R i + K w and the drive force
 * F = T (i - i0) - mr dw/dt reaches the ground. While all wheels grip, w is the vehicle's speed and
 * sum(F) - drag = m dv/dt: torque and acceleration agree through the mass. So
 * - spin: w rises faster than sum(F) lets the vehicle gain speed, under a thrust that can break
 *   wheels loose, a tenth of the weight and three fifths of the strongest lately; two wheels of an
 *   axle that let go at once say so together;
 * - free: i stays at i0 under a command that should be loaded. Either the load goes over to the
 *   other motor of the pair, whose usual difference is learnt straight ahead; or w runs ahead of
 *   the slowest wheel (with a single motor: of the vehicle). Tracks that are driven apart and turn
 *   apart as if nothing held them no longer scrub: one has come off. A wheel whose sensor sees it
 *   standing while its motor turns by back-EMF has come off;
 * - jam: i stays on the stall line V d / R, w = 0, for longer than the force T i takes to set
 *   the vehicle in motion;
 * - front lost: wheels slip more in a start than they did before under the same force.
 * What it cannot tell. A steady slip at constant speed: force and speed are those of a vehicle that
 * drags more and drives slower; the estimate settles on the wheel. A slide across the wheels. A
 * slope, which works like a force: a start uphill hides spin, unless the vehicle rolled back before
 * it. A front drive lost as told from a floor that is slipperier or on which the vehicle rolls more
 * easily.
 *
 * Each residual is what a wheel is too fast (or too slow) by, less what the errors of R, K, T and
 * m may explain (MODEL_ERROR), over the noise of the current; a one-sided CUSUM sums it, and
 * alarms above h. Assumed: level floor, all motors alike, noise of 5 % of the current.
 *
 * Reactions only ever lower commands, motors of a pair in one ratio: the split keeps its order.
 */
export interface Traction {
  /** Estimated speed over ground. */
  ground: VehicleSpeed;
  /** Findings present; see Found. */
  found: number;
  /** How sure the surest finding of a kind is, permille; 0 = none of it. */
  spin: number;
  free: number;
  jam: number;
  /** The fault present now, or Cause.NONE. */
  fault: number;
  /**
   * @param goal command of each motor, permille; lowered in place
   * @param last command of each motor in the last tick, permille
   * @param mv supply voltage under load, mV
   * @param currentMa current of each motor, mA, or MISSING
   * @param wheelDegS speed of each motor's wheel, deg/s, or MISSING
   * @param steer steering command, permille of full lock, left positive
   * @param armed whether the supervisor lets the vehicle drive
   * @param enable 1 while it lets it drive or come to a stop
   * @param rise time that permits, ms
   * @param stop time that forbids, ms
   * @returns bits of Flag
   */
  run(
    goal: number[],
    last: number[],
    mv: number,
    currentMa: number[],
    wheelDegS: number[],
    steer: number,
    armed: boolean,
    enable: number,
    rise: number,
    stop: number,
  ): number;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/**
 * @param vehicle constants of the vehicle
 * @param windings heat of each motor's winding
 */
export function createTraction(vehicle: number[], windings: Windings): Traction {
  const motors = createBackEmf(vehicle, windings);
  const ground = createVehicleSpeed(vehicle);
  const evidence = createEvidence(vehicle);
  const count = vehicle[V.EMF_UV] > 0 && vehicle[V.HAS_CURRENT] === 1 ? vehicle[V.MOTORS] : 0;
  const spin = createFinding(count, Found.SPIN);
  const free = createFinding(count, Found.FREE);
  const jam = createFinding(count, Found.JAM);
  const front = createFrontWatch(vehicle, windings);
  const reactions = createReactions(vehicle);
  // Then nothing ever tells a speed.
  const blind = vehicle[V.EMF_UV] === 0 || (count === 0 && vehicle[V.HAS_WHEEL_SPEED] === 0);
  let off = 1;
  const traction = {
    ground: ground,
    found: 0,
    spin: 0,
    free: 0,
    jam: 0,
    fault: Cause.NONE as number,
    run: run,
    load: load,
  };

  function run(
    goal: number[],
    last: number[],
    mv: number,
    currentMa: number[],
    wheelDegS: number[],
    steer: number,
    armed: boolean,
    enable: number,
    rise: number,
    stop: number,
  ): number {
    if (blind) return 0;
    const self = traction;
    motors.run(last, mv, currentMa, wheelDegS, ground.speed);
    const flags = ground.run(motors, steer, stop);
    if (count === 0) return flags;
    evidence.lost = free.found;
    evidence.run(motors, ground, last, stop);
    if (armed && off === 1) {
      free.clear();
      front.clear();
      reactions.clear();
    }
    off = enable === 1 ? 0 : 1;
    spin.run(evidence.spin, rise);
    free.run(evidence.free, rise);
    jam.run(evidence.jam, rise);
    // A side that is lost or held fast turns otherwise as well: as a bend it ends a start.
    front.run(motors, mv, ground.speed, last, free.found + jam.found > 0 ? 1000 : steer, stop);
    // Sums, for each finding has bits of its own.
    const lost = free.found + front.found;
    // A motor that runs free turns too fast as well.
    const alone = free.found === 0 ? spin.found : spin.found & ~(free.found >> 4);
    self.found = alone + lost + jam.found;
    self.spin = alone === 0 ? 0 : spin.sure;
    self.free = front.found !== 0 && front.sure > free.sure ? front.sure : free.sure;
    self.jam = jam.sure;
    self.fault = Cause.NONE;
    if (armed) self.fault = reactions.fault(alone, lost, jam.found);
    return flags + reactions.run(goal, alone, lost, jam.found, rise);
  }

  function load(setup: number[]): void {
    evidence.load(setup);
    spin.load(setup[S.SPIN_REACTION], setup[S.SPIN_H], setup[S.FOUND_HOLD_MS]);
    free.load(setup[S.FREE_REACTION], setup[S.FREE_H], LATCHED);
    jam.load(setup[S.JAM_REACTION], setup[S.JAM_H], setup[S.FOUND_HOLD_MS]);
    front.load(setup);
    reactions.load(setup);
  }

  return traction;
}
