import { findManoeuvre } from '../manoeuvres/find-manoeuvre.ts';
import type { Manoeuvre } from '../manoeuvres/manoeuvre.ts';
import { createScript, ramp } from '../manoeuvres/script.ts';
import { createNoise } from '../plant/noise.ts';

/** Sticks moved at random, as in a race, s. */
export const HARD_DRIVING = 'hard-driving';
/** Full throttle from rest, again and again. */
export const LAUNCHES = 'launches';

const HARD_S = 30;
/** How long a stick rests where it is, and how long it takes to get there, s. */
const HOLD_S = [0.2, 2] as const;
const MOVE_S = [0.05, 0.4] as const;
/** A start each so many seconds; throttle, then rest. */
const LAUNCH_S = 2.5;
const POWER_S = 1.2;
const COUNT = 8;

/** The manoeuvre of that name, with sticks from that seed if it is one of the study's own. */
export function manoeuvreOf(name: string, seed: number): Manoeuvre {
  if (name === HARD_DRIVING) return hardDriving(seed);
  if (name === LAUNCHES) return launches(seed);
  return findManoeuvre(name);
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
  const between = ([least, most]: readonly [number, number]) => least + (most - least) * uniform();
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
      moving = between(MOVE_S);
      end = t + moving + between(HOLD_S);
    }
    return from + (to - from) * (moving === 0 ? 1 : ramp(t - start, moving));
  };
}

function launches(seed: number): Manoeuvre {
  return {
    ...OWN,
    name: LAUNCHES,
    title: 'Start after start',
    durationS: () => COUNT * LAUNCH_S,
    createDriver: () => {
      const { uniform } = createNoise(seed);
      const plans = Array.from({ length: COUNT }, () => ({
        throttle: 0.7 + 0.3 * uniform(),
        rise: 0.05 + 0.25 * uniform(),
      }));
      return createScript((t, sticks) => {
        const plan = plans[Math.min(Math.floor(t / LAUNCH_S), COUNT - 1)]!;
        const since = t % LAUNCH_S;
        sticks.throttle = since < POWER_S ? plan.throttle * ramp(since, plan.rise) : 0;
      });
    },
  };
}
