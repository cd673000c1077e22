import type { BackEmf } from './back-emf.ts';
import { Flag, Layout } from './codes.ts';
import { V } from './constants.ts';
import { createMomentumDoubt } from './momentum-doubt.ts';
import { createMomentumFit, type MomentumFit } from './momentum-fit.ts';
import { createSlope } from './slope.ts';

/**
 * Speed over ground by acceleration-limited tracking. The momentum m v + sum(mr w) grows by
 * sum(T i) - drag, with mr the inertia of what a motor turns: what a spinning wheel takes for
 * itself does not reach the vehicle. How the vehicle answers its currents is learnt; see
 * MomentumFit. The slowest of the driving wheels draws the estimate to itself, and in braking the
 * fastest, but the less the more current flows: only wheels that bear little surely grip. A slope
 * is told by rolling in neutral; see Slope.
 *
 * `slack` says how far the estimate may be off: it grows by what the answer may be wrong by, and
 * dies as the wheels draw the estimate to themselves.
 */
export interface VehicleSpeed {
  /** mm/s, forward positive. */
  speed: number;
  /** How far it may be off, mm/s. */
  slack: number;
  /** What all currents together set it in motion by in this tick, mm/s, 0 or more. */
  gain: number;
  /** What is learnt of how it answers currents. */
  fit: MomentumFit;
  /** Speed of the vehicle as each wheel tells it, and as the slowest driving one, mm/s. */
  along: number[];
  near: number;
  /** Excess speed of the outside wheels without slip, over the mean; positive in left bends. */
  lead: number;
  /** Steering command of this tick, permille of full lock, left positive. */
  steer: number;
  /**
   * @param motors of this tick
   * @param steer steering command, permille of full lock, left positive
   * @param stop time that forbids, ms
   * @returns Flag.SPEED_HELD while nothing tells the speed and it is not 0, else 0
   */
  run(motors: BackEmf, steer: number, stop: number): number;
}

/** How fast the estimate follows a wheel, per s: up and in braking without current; down. */
const UP = 4;
const DOWN = 8;
const BRAKING = 20;
/** The same, up and in braking, at the strongest current; without any as much is added. */
const UP_LEAST = 1 / 2;
const BRAKING_LEAST = 1;
/** In braking, wheels that lock draw it down no faster than this beside momentum, mm/s^2. */
const FALLS = 2000;
/** As much as an output can say, mm/s. */
const MOST = 32000;
/** Lateral acceleration that halves the excess speed of the outside wheel, mm/s^2. */
const SIDEWAYS = 5000;
/** Share of what may be wrong that is counted. */
const DOUBT = 7 / 10;
/** At rest, unless wheels turn, nothing is off for longer than this, s; the same share of it. */
const RESTS = DOUBT / 2;
/** So much more than the current tells friction of the gears and sliding tyres take in braking. */
const BRAKED = 2 / 10;
/** The same with the steering further out than this, permille: a slide across the wheels. */
const STRAIGHT = 150;
const SLIDES = 2;

/** @param vehicle constants of the vehicle */
export function createVehicleSpeed(vehicle: number[]): VehicleSpeed {
  const count = vehicle[V.EMF_UV] > 0 ? vehicle[V.MOTORS] : 0;
  const push = vehicle[V.THRUST_MN_A] / vehicle[V.MASS_G];
  const turning = vehicle[V.ROTATING_G] / vehicle[V.MASS_G];
  const tracked = vehicle[V.LAYOUT] === Layout.TRACKED;
  // A single motor turns at the mean of its wheels, tracks as they are driven.
  const side = tracked || count < 2 ? 0 : vehicle[V.SIDE_LEAD] / 1000000;
  const bends = vehicle[V.CURVATURE] / 1000000000 / SIDEWAYS;
  const along = [0, 0, 0, 0];
  const turns = [0, 0, 0, 0];
  let wheels = 0;
  const fit = createMomentumFit(vehicle);
  const doubt = createMomentumDoubt(vehicle, fit);
  const slope = createSlope();
  const ground = {
    speed: 0,
    slack: 0,
    gain: 0,
    fit: fit,
    along: along,
    near: 0,
    lead: 0,
    steer: 0,
    run: run,
  };

  function run(motors: BackEmf, steer: number, stop: number): number {
    const self = ground;
    self.steer = steer;
    const sum = sumOf(motors.current, count);
    // In the direction of travel, so that reverse is the mirror image of forward.
    const back = self.speed < 0 || (self.speed === 0 && sum < 0);
    const way = back ? -1 : 1;
    let speed = self.speed * way;
    // Where no current tells it, as in coasting, a wheel is taken to grip, in this tick as well.
    const before = self.speed;
    let loose = 0;
    for (let m = 0; m < count; m++) {
      turns[m] = motors.told[m] === 1 ? motors.wheel[m] : before;
      if (motors.told[m] !== 1) loose++;
    }
    const total = sumOf(turns, count);
    const pull = sum * way;
    let free = 1;
    if (motors.known > 0) {
      const known = (pull * count) / motors.known;
      fit.run((total * way) / count, known, steer, stop);
      const force = known * push * fit.ratio;
      const pushed = ((force - fit.drag + slope.beside(force, way)) * stop) / 1000;
      self.gain = pushed > 0 ? pushed : 0;
      const gain = (pushed - (total - wheels) * way * turning) / (1 + turning * loose);
      const more = steer > STRAIGHT || steer < 0 - STRAIGHT ? SLIDES : BRAKED;
      self.slack +=
        ((doubt.run(known * push) * DOUBT - (force < 0 ? force * more : 0)) * stop) / 1000;
      speed = speed + gain < 0 && force > 0 - fit.drag ? 0 : speed + gain;
      if (speed === 0) self.slack = resting(self.slack, self.near, fit.dragError * RESTS);
      free -= (known < 0 ? 0 - known : known) / fit.strongest;
    }
    self.lead = (side * steer) / (1 + (steer < 0 ? 0 - steer : steer) * bends * speed * speed);
    const held = nearest(self, motors, count, way, pull >= 0, speed);
    if (held !== 0 && motors.known === 0)
      speed -= (speed * stop) / (vehicle[V.SPEED_LAG_MS] + stop);
    if (held === 0) {
      const faster = self.near - speed;
      const share = followed(faster, pull < 0, free, stop);
      const most = stop * (FALLS / 1000);
      const drawn = faster * share;
      if (pull < 0 && motors.driven === 0) slope.roll(drawn, way);
      speed += pull < 0 && drawn < 0 - most ? 0 - most : drawn;
      self.slack -= self.slack * share;
    }
    if (pull >= 0 || held !== 0) slope.fade(stop);
    speed = speed > MOST ? MOST : speed < 0 - MOST ? 0 - MOST : speed;
    self.speed = back ? 0 - speed : speed;
    wheels = total + (self.speed - before) * loose;
    self.near *= way;
    return speed === 0 ? 0 : held;
  }

  return ground;
}

/** Of two or four motors; a single one's neighbour is 0. */
function sumOf(values: number[], count: number): number {
  const pair = values[0] + values[1];
  return count > 2 ? pair + (values[2] + values[3]) : pair;
}

/** Finds `near` in the direction of travel; Flag.SPEED_HELD if no wheel tells it. */
function nearest(
  ground: VehicleSpeed,
  motors: BackEmf,
  count: number,
  way: number,
  drives: boolean,
  speed: number,
): number {
  const lead = ground.lead;
  let held: number = Flag.SPEED_HELD;
  let near = 0;
  for (let m = 0; m < count; m++) {
    const told = motors.told[m];
    if (told === 0) continue;
    const w = motors.wheel[m] / ((m & 1) === 0 ? 1 - lead : 1 + lead);
    ground.along[m] = w;
    const ahead = w * way;
    if (told === 2 && ahead < speed) continue;
    if (held !== 0 || (drives ? ahead < near : ahead > near)) near = ahead;
    held = 0;
  }
  ground.near = held === 0 ? near : speed;
  return held;
}

/** Share of `faster`, what the wheels are so, by which the estimate follows them in a tick. */
function followed(faster: number, brakes: boolean, free: number, stop: number): number {
  const slow = faster < 0 ? DOWN : UP * free + UP_LEAST;
  const rate = (brakes ? BRAKING * free + BRAKING_LEAST : slow) * stop;
  return rate / (1000 + rate);
}

/** Slack at rest: no more than `most`, or than the slowest wheel shows. */
function resting(slack: number, near: number, most: number): number {
  const shown = near < 0 ? 0 - near : near;
  const bound = shown > most ? shown : most;
  return slack > bound ? bound : slack;
}
