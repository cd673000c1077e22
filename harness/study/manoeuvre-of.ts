import { findManoeuvre } from '../manoeuvres/find-manoeuvre.ts';
import type { Manoeuvre } from '../manoeuvres/manoeuvre.ts';
import { createScript, ramp, startAfterStart } from '../manoeuvres/script.ts';
import { createNoise } from '../plant/noise.ts';

/** Sticks moved at random, as in a race, s. */
export const HARD_DRIVING = 'hard-driving';
/** Full throttle from rest, again and again. */
export const LAUNCHES = 'launches';
/** A few calm starts, as on the way from the table to the track. */
export const CALM_STARTS = 'calm-starts';

type Range = readonly [least: number, most: number];

const HARD_S = 30;
/** How long a stick rests where it is, and how long it takes to get there, s. */
const HOLD_S: Range = [0.2, 2];
const MOVE_S: Range = [0.05, 0.4];
/** Starts one after the other: a start each so many seconds; throttle, then rest. */
interface Starts {
  title: string;
  count: number;
  everyS: number;
  powerS: number;
  /** Throttle, and the time it takes to get there, s. */
  throttle: Range;
  rise: Range;
}

const STARTS: Readonly<Record<string, Starts>> = {
  [LAUNCHES]: {
    title: 'Start after start',
    count: 8,
    everyS: 2.5,
    powerS: 1.2,
    throttle: [0.7, 1],
    rise: [0.05, 0.3],
  },
  [CALM_STARTS]: {
    title: 'A few calm starts',
    count: 4,
    everyS: 3,
    powerS: 1.5,
    throttle: [0.4, 0.8],
    rise: [0.3, 0.8],
  },
};

/** The manoeuvre of that name, with sticks from that seed if it is one of the study's own. */
export function manoeuvreOf(name: string, seed: number): Manoeuvre {
  if (name === HARD_DRIVING) return hardDriving(seed);
  const starts = STARTS[name];
  return starts === undefined ? findManoeuvre(name) : manyStarts(name, starts, seed);
}

const OWN = {
  source: 'Of the study itself, no source.',
  meaning: 'Only for the study.',
  headline: ['topSpeed'],
  kind: 'straight',
} as const;

function hardDriving(seed: number): Manoeuvre {
  return {
    ...OWN,
    name: HARD_DRIVING,
    title: 'Sticks at random',
    durationS: () => HARD_S,
    createDriver: () => {
      const noise = createNoise(seed);
      const throttle = createStick(() => drawThrottle(noise.uniform), noise.uniform);
      const steer = createStick(() => drawSteer(noise.uniform), noise.uniform);
      return createScript((t, sticks) => {
        sticks.throttle = throttle(t);
        sticks.steer = steer(t);
      });
    },
  };
}

/** Half of the time hard forward, else anything; now and then nothing, now and then backwards. */
function drawThrottle(uniform: () => number): number {
  const kind = uniform();
  if (kind < 0.2) return 0;
  if (kind < 0.3) return -uniform();
  return kind < 0.65 ? 0.6 + 0.4 * uniform() : uniform();
}

function drawSteer(uniform: () => number): number {
  const kind = uniform();
  return kind < 0.35 ? 0 : Math.max(-1, Math.min(1, 2.4 * (uniform() - 0.5)));
}

/** A stick that goes from one place to the next. */
function createStick(draw: () => number, uniform: () => number): (t: number) => number {
  let from = 0;
  let to = 0;
  let start = 0;
  let moving = 0;
  let end = 0.3;
  return (t) => {
    if (t >= end) {
      from = to;
      to = draw();
      start = t;
      moving = within(MOVE_S, uniform);
      end = t + moving + within(HOLD_S, uniform);
    }
    return from + (to - from) * (moving === 0 ? 1 : ramp(t - start, moving));
  };
}

function manyStarts(name: string, starts: Starts, seed: number): Manoeuvre {
  const { title, count, everyS, powerS, throttle, rise } = starts;
  return {
    ...OWN,
    name,
    title,
    durationS: () => count * everyS,
    createDriver: () => {
      const { uniform } = createNoise(seed);
      const plans = Array.from({ length: count }, () => ({
        throttle: within(throttle, uniform),
        rise: within(rise, uniform),
      }));
      return createScript((t, sticks) => {
        const plan = plans[Math.min(Math.floor(t / everyS), count - 1)]!;
        sticks.throttle = plan.throttle * startAfterStart(t, everyS, powerS, plan.rise);
      });
    },
  };
}

function within([least, most]: Range, uniform: () => number): number {
  return least + (most - least) * uniform();
}
