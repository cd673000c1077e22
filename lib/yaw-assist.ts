import { Flag, Layout } from './codes.ts';
import { S, V } from './constants.ts';
import { createGyroWatch } from './gyro-watch.ts';

/**
 * Takes inside cut away where the vehicle yaws more than it should.
 *
 * Reference, the steady single-track vehicle (ISO 8855: EG = understeer gradient; Riekert and
 * Schunck 1940): r = v delta / (L + EG v^2) = v k / (1 + v^2 / v_ch^2) with the curvature k that
 * the steering asks for without slip and v_ch^2 = L / EG; and since lateral acceleration is v r
 * in a steady bend, r is at most grip / v. The steering that counts falls with LAG_MS, as the
 * vehicle's own yaw does after it; it rises at once, as a reference too high asks for nothing. An
 * eighth is added to what the steering asks for: lock, tyre radius and speed are known no better.
 *
 * Excess e = |r| - |r reference|, counted towards the side that steering and direction of travel
 * ask for. Change of cut = -(gain e + integral gain * integral of e), from -authority to 0; the
 * integral is kept in there and stands still while the sum is beyond. The authority fades with
 * the trust in the gyro and near straight ahead.
 *
 * Nothing is answered until the excess has been a quarter of the reference for SURE_MS; then every
 * excess is, until there has been none for as long. At the limit of grip driven wheels slip and
 * motors differ from the book, so that `speed` is up to 1.2 times the speed and the cap as much too
 * low, in a bend that the vehicle holds well. Cut taken away there the driver makes up for with
 * steering; and when he lifts, the cut is gone with the drive, but the steering stays and turns the
 * tail round. A slide under power passes a quarter soon.
 *
 * Once the throttle is let go there is no drive left to share: a vehicle kept from spinning until
 * then is faster than one that was not, and may slide further when its motors brake it.
 *
 * It never deepens the cut: a deeper one turns a vehicle in harder, and on a floor with less
 * grip than thought that is a spin. The cut may come out below zero, where the outside motor is
 * the slowed one: at full throttle on too slippery a floor an equal drive spins as well. So with a
 * gyro that lies, or is fitted upside down, a vehicle turns in less, and never more, than
 * without.
 *
 * Assumptions: the wheels do not slide so far that `speed` is more than 1.25 times the speed; a
 * higher estimate makes the cap lower, and less cut is left than the vehicle would bear. Without
 * drive, against the direction of travel, slower than SLOW or straight ahead there is no change. A
 * tracked vehicle steers by its split, so that there is nothing to hold it against; one motor has
 * no split.
 */
export interface YawAssist {
  /** Change of the cut, permille, never positive, not rounded. */
  change: number;
  /**
   * @param yawRateMradS yaw rate, left positive, or MISSING
   * @param demand drive demand, permille
   * @param steer steering command, permille of full lock, left positive
   * @param speed estimated speed over ground, mm/s, forward positive
   * @param still 1 while every motor is commanded nothing
   * @param rise time that permits, ms
   * @param stop time that forbids, ms
   * @returns bits of Flag
   */
  run(
    yawRateMradS: number,
    demand: number,
    steer: number,
    speed: number,
    still: number,
    rise: number,
    stop: number,
  ): number;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/** Slower than this no yaw rate tells anything, mm/s. */
const SLOW = 200;
/** Time constant with which a vehicle's yaw follows steering that is taken back, ms. */
const LAG_MS = 80;
/** An excess of a quarter is answered once it has lasted so long, until none has as long, ms. */
const SURE_MS = 40;
/** Steering from which on the whole authority counts, permille. */
const FULL_FROM = 100;

/** @param vehicle constants of the vehicle */
export function createYawAssist(vehicle: number[]): YawAssist {
  const layout = vehicle[V.LAYOUT];
  const able = vehicle[V.HAS_GYRO] === 1 && (layout === Layout.PAIR || layout === Layout.TWO_PAIRS);
  const curvature = vehicle[V.CURVATURE];
  const gyro = createGyroWatch();
  let authority = 0;
  let gain = 0;
  let integralGain = 0;
  let understeer = 0;
  let grip = 0;
  let integral = 0;
  let lagged = 0;
  /** How long the excess has been beyond doubt, ms; answered from SURE_MS to twice that. */
  let wary = 0;
  const assist = { change: 0, run: run, load: load };

  function run(
    yawRateMradS: number,
    demand: number,
    steer: number,
    speed: number,
    still: number,
    rise: number,
    stop: number,
  ): number {
    if (!able || authority === 0) return 0;
    // Seen in a mirror or the other way round, everything below is the same to the last bit.
    const ahead = demand > 0 ? speed : 0 - speed;
    const angle = steer < 0 ? 0 - steer : steer;
    const turning = ahead >= SLOW && demand !== 0 && angle >= 1 ? 1 : 0;
    const watch = gyro;
    const moving = speed >= SLOW || speed <= 0 - SLOW ? 1 : 0;
    watch.run(yawRateMradS, moving, still, rise, stop);
    lagged = angle > lagged ? angle : lagged + ((angle - lagged) * stop) / (LAG_MS + stop);
    let back = 0;
    if (turning === 1) {
      const rate = steer > 0 === demand > 0 ? watch.rate : 0 - watch.rate;
      const asked = reference(ahead);
      const excess = rate - asked;
      if (wary < SURE_MS) {
        integral = 0;
        wary = 4 * excess > asked ? wary + stop : 0;
      }
      if (wary >= SURE_MS) {
        back = answer(excess, angle, stop);
        wary = back > 0 ? 2 * SURE_MS : wary - rise;
      }
    } else wary = 0;
    // Not minus zero, which is another bit pattern.
    assist.change = back > 0 ? 0 - back : 0;
    // At rest there is nothing to be in doubt about; after power-up nothing is known yet.
    const doubted = (still === 0 || back > 0) && watch.trust < 1000;
    return (back >= 1 ? Flag.ASSIST : 0) + (doubted ? Flag.GYRO_DOUBT : 0);
  }

  /** Yaw rate asked for, mrad/s, 0 or more. */
  function reference(ahead: number): number {
    const wider = understeer === 0 ? 0 : (understeer * ahead * ahead) / 10000;
    const bend = (ahead * curvature * lagged) / (1000000 + wider);
    const asked = bend + bend / 8;
    const most = (grip * 1000) / ahead;
    return asked < most ? asked : most;
  }

  /** What of the cut an excess of yaw rate takes away, permille. */
  function answer(excess: number, angle: number, stop: number): number {
    let limit = (authority * gyro.trust) / 1000;
    if (angle < FULL_FROM) limit = (limit * angle) / FULL_FROM;
    const own = (gain * excess) / 1000;
    let kept = integral;
    if (excess < 0 || own + kept < limit) kept += (integralGain * excess * stop) / 1000000;
    if (kept > limit) kept = limit;
    if (kept < 0) kept = 0;
    integral = kept;
    const back = own + kept;
    return back > limit ? limit : back;
  }

  function load(setup: number[]): void {
    authority = setup[S.YAW_AUTHORITY];
    // Without authority nothing runs that would take back what was in force, or watch the gyro.
    if (authority === 0) assist.change = gyro.trust = 0;
    gain = setup[S.YAW_GAIN];
    integralGain = setup[S.YAW_INTEGRAL_GAIN];
    understeer = setup[S.YAW_UNDERSTEER];
    grip = setup[S.YAW_GRIP_MM_S2];
  }

  return assist;
}
