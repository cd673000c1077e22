import { AT_REST, type BackEmf } from './back-emf.ts';
import { createBendWatch } from './bend-watch.ts';
import { Layout } from './codes.ts';
import { S, V } from './constants.ts';
import { Fit } from './fit.ts';
import { createJamWatch } from './jam-watch.ts';
import { createLostDrive, MOST } from './lost-drive.ts';
import { createSums, FULL } from './sums.ts';
import type { VehicleSpeed } from './vehicle-speed.ts';

/** Sums of the evidence for each finding and motor; see lib/traction.ts. */
export interface Evidence {
  spin: number[];
  free: number[];
  jam: number[];
  /** Bits of Found for drives that are lost. */
  lost: number;
  /**
   * @param motors of this tick
   * @param ground of this tick
   * @param last command of each motor in the last tick, permille
   * @param stop time that forbids, ms
   */
  run(motors: BackEmf, ground: VehicleSpeed, last: number[], stop: number): void;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/** Thrust below which no wheel lets go, over the weight: two wheels on a floor of friction 0.2. */
const LEAST_THRUST = 1 / 10;
/** The same over the strongest current lately: a floor lets wheels go near what it bore before. */
const LETS_GO = 6 / 10;
/** mm/s^2. */
const GRAVITY = 9807;
/** Noise of a current over its reading; the rest of it in shares of its greatest error. */
const NOISE = 5 / 100;
const REST = 1 / 2;
/** What a wheel may be faster without slipping beside what R explains: over the top speed ... */
const ALWAYS = 1 / 100;
/** ... over the speed, in model errors, of unloaded ones ... */
const ROLLS = 2 / 10;
/** ... over both, in model errors and in bends, of those that bear much. */
const BEARS = 4 / 3;
/** Share of what the estimate may be off that is left out; all of it on tracks, which scrub. */
const OFF = 1 / 2;
/** A drive that is lost is looked for from this command on, permille. */
const DRIVEN = 300;

/** @param vehicle constants of the vehicle */
export function createEvidence(vehicle: number[]): Evidence {
  const emf = vehicle[V.EMF_UV];
  const count = emf > 0 && vehicle[V.HAS_CURRENT] === 1 ? vehicle[V.MOTORS] : 0;
  const tracked = vehicle[V.LAYOUT] === Layout.TRACKED;
  const fall = vehicle[V.MOTOR_MOHM] / emf;
  const error = vehicle[V.CURRENT_ERROR_MA];
  const doubt = vehicle[V.MODEL_ERROR] / 1000;
  const top = vehicle[V.TOP_SPEED_MM_S];
  const still = (error * vehicle[V.MOTOR_MOHM] * REST) / emf;
  const bears = (vehicle[V.MASS_G] * GRAVITY * LEAST_THRUST) / (vehicle[V.THRUST_MN_A] * count);
  const held = createJamWatch(vehicle);
  const spins = createSums();
  const frees = createSums();
  const jams = createSums();
  const free = frees.now;
  /** How much too fast each wheel is, in standard deviations. */
  const slips = [-1, -1, -1, -1];
  const track = createBendWatch(vehicle);
  const alone = createLostDrive(vehicle);
  const evidence = { spin: spins.now, free: free, jam: jams.now, lost: 0, run: run, load: load };

  function run(motors: BackEmf, ground: VehicleSpeed, last: number[], stop: number): void {
    const lead = ground.lead < 0 ? 0 - ground.lead : ground.lead;
    track.run(last, stop);
    // Without tracks it is known when a script is built.
    const bends = tracked && track.bends;
    held.begin(motors.current, ground.gain, stop);
    if (frees.asked) alone.begin(motors, ground, last, held.greatest, stop);
    const pulls = held.greatest > bears && held.greatest * count > ground.fit.strongest * LETS_GO;
    for (let m = 0; m < count; m++) {
      const d = last[m];
      if (d === 0) {
        held.rest(m);
        // Arming anew, or another setup, begins with nothing.
        free[m] = 0;
      }
      if (motors.told[m] === 0) {
        slips[m] = -1;
        spins.now[m] = 0;
        jams.now[m] = 0;
        free[m] = 0;
        continue;
      }
      const way = d < 0 ? -1 : 1;
      const i = motors.current[m] * way;
      const u = ground.speed * way;
      const w = ground.along[m] * way;
      const sensed = vehicle[V.HAS_WHEEL_SPEED] === 1 && motors.sensed[m] === 1;
      const load = sensed ? 0 : fall * (i < 0 ? 0 - i : i);
      const noise = load * NOISE + still;
      const wrong = load * motors.unsure[m];
      // A wheel that stands while its motor turns has come off: it is not held.
      const turns = sensed && motors.turns[m] * way > w ? motors.turns[m] * way : w;
      const loose = wrong + top * ALWAYS;
      const fast = u < 0 ? 0 - u : u;
      const outside = lead * fast + top * ALWAYS;
      const left = wrong + (doubt * fast + outside) * BEARS + ground.slack * (tracked ? 1 : OFF);
      const driven = d !== 0 && u > 0 - top * AT_REST && !bends;
      const tells = driven && spins.asked && i > error * 2 && pulls;
      slips[m] = tells ? (w - u - left) / noise : -1;
      let z = 0;
      if (frees.asked && d * way >= DRIVEN) {
        z = turns - (count === 1 ? u : ground.near * way) - wrong - doubt * ROLLS * fast - outside;
        z = alone.run(m, i, held.greatest, z / noise, driven, evidence.lost);
        // Else there is no sum, and none comes of it.
        if (Fit.BYTES_COUNT || z > 0 || free[m] > 0) frees.add(m, z);
      }
      const due = bends ? track.beside(motors, ground, last, m) : top;
      if (jams.asked) z = held.run(m, d, i, turns, u, loose, noise, due);
      if (jams.asked && (!!Fit.BYTES_COUNT || z > 0 || jams.now[m] > 0)) jams.add(m, z);
    }
    for (let m = 0; m < count; m++) {
      // Beside a wheel that is held fast another seems to run ahead, and to draw little.
      if (jams.asked && jams.now[m ^ 1] * FULL >= jams.most && jams.most > 0) free[m] = 0;
      const own = slips[m];
      const sums = !!Fit.BYTES_COUNT || own > 0 || spins.now[m] > 0;
      if (spins.asked && sums) spins.add(m, together(own, slips[m ^ 1]));
    }
  }

  function load(setup: number[]): void {
    spins.load(setup[S.SPIN_REACTION], setup[S.SPIN_K], setup[S.SPIN_H]);
    frees.load(setup[S.FREE_REACTION], setup[S.FREE_K], setup[S.FREE_H]);
    // A jam speaks against a lost drive.
    jams.load(setup[S.JAM_REACTION] + setup[S.FREE_REACTION], setup[S.JAM_K], setup[S.JAM_H]);
  }

  return evidence;
}

/** What the slips of a pair tell of one of them: two that let go at once, the sum of both. */
function together(own: number, other: number): number {
  return least(own > 0 && other > 0 ? own + other : own, MOST);
}

function least(a: number, b: number): number {
  return a < b ? a : b;
}
