import type { Manoeuvre, ManoeuvreCar } from '../manoeuvres/manoeuvre.ts';
import { FREE_FALL } from '../manoeuvres/sizes.ts';
import { greatest, mean } from './column.ts';
import { createDrive, type Drive, type Samples } from './drive.ts';
import { findBalance } from './find-balance.ts';
import { findRadius } from './find-radius.ts';
import { DEGREES } from './metric-definition.ts';
import type { Trace } from './trace.ts';

/** What a builder would say of a drive, and the figure it rests on. */
export interface Verdict {
  /** `none`: the drive has no bend by which to tell. */
  kind: 'understeer' | 'neutral' | 'oversteer' | 'spin' | 'none';
  /** The figure in `unit`; null = there is none. */
  value: number | null;
  /** As the reader is to see it; empty = none. */
  unit: string;
  /** The figure from which on the verdict holds, in `unit`. */
  threshold: number | null;
  /** The verdict in a sentence, with its figure. */
  text: string;
}

/** Sideslip of a spin, °, and for how long, s; beyond the other angle it is one at once. */
export const SPIN_DEG = 30;
export const SPIN_S = 0.3;
export const ROUND_DEG = 60;
/** Path radius over geometric radius from which on a car ploughs. */
export const PLOUGH = 2;
/** Share of the grip from which on it is spent; an assumption. */
const SPENT = 7 / 10;
/** Balance up to which a car is neutral, °; an assumption. */
export const NEUTRAL_DEG = 2;

/**
 * The first of these that holds.
 *
 * 1. spin: sideslip of 60° or more at any time from the action on, or of 30° or more for 0.3 s on
 *    end in the steady part, or from the action on if the manoeuvre has none;
 * 2. understeer, ploughing: the steady path radius is at least twice the geometric one, and the
 *    rear does not slip 2° more than the front;
 * 3. understeer or oversteer: the balance lies beyond ±2°;
 * 4. neutral.
 *
 * Of a manoeuvre without a bend only the spin is told, and of a pivot turn nothing.
 */
export function computeVerdict(trace: Trace, manoeuvre: Manoeuvre, car: ManoeuvreCar): Verdict {
  const drive = createDrive(trace, manoeuvre, car);
  if (drive.after.from >= drive.after.to) return none('The drive ended before it showed anything.');
  if (manoeuvre.kind === 'pivot') return none('On the spot there is no balance to judge.');
  const spin = judgeSpin(drive);
  if (spin !== undefined) return spin;
  if (manoeuvre.kind === 'straight')
    return none('No bend is asked for, so there is no balance to judge.');
  return judgeBend(drive);
}

function judgeSpin({ trace, sideslip, after, steady }: Drive): Verdict | undefined {
  const part = steady ?? after;
  const round = greatest(sideslip, after) * DEGREES;
  const threshold = round >= ROUND_DEG ? ROUND_DEG : SPIN_DEG;
  if (round < ROUND_DEG && longest(trace, sideslip, part) < SPIN_S) return undefined;
  const value = round >= ROUND_DEG ? round : greatest(sideslip, part) * DEGREES;
  const text = `Spins: its sideslip angle reaches ${value.toFixed(0)}°.`;
  return { kind: 'spin', value, unit: '°', threshold, text };
}

/** The longest time on end with the sideslip of a spin, s. */
function longest({ t }: Trace, sideslip: Float64Array, { from, to }: Samples): number {
  let most = 0;
  let begin = -1;
  for (let i = from; i < to; i++) {
    if (Math.abs(sideslip[i]!) * DEGREES < SPIN_DEG) begin = -1;
    else if (begin < 0) begin = i;
    if (begin >= 0) most = Math.max(most, t[i]! - t[begin]!);
  }
  return most;
}

function judgeBend(drive: Drive): Verdict {
  if (drive.car.layout === 'tracked') return none('Tracks scrub: there is no balance to judge.');
  const angle = findBalance(drive);
  if (angle === undefined) return none('The vehicle never took a bend.');
  const balance = angle * DEGREES;
  const radius = findRadius(drive);
  if (typeof radius !== 'string' && balance > -NEUTRAL_DEG) {
    const ratio = radius.driven / radius.asked;
    if (ratio >= PLOUGH) return plough(ratio, limitOf(drive, radius.driven));
  }
  const figure = { value: balance, unit: '°', threshold: NEUTRAL_DEG };
  const more = Math.abs(balance).toFixed(1);
  if (balance >= NEUTRAL_DEG) {
    const text = `Understeers: the front slides ${more}° more than the rear.`;
    return { kind: 'understeer', ...figure, text };
  }
  if (balance <= -NEUTRAL_DEG) {
    const text = `Oversteers: the rear slides ${more}° more than the front.`;
    return { kind: 'oversteer', ...figure, text };
  }
  const which = balance > 0 ? 'front' : 'rear';
  const text =
    more === '0.0'
      ? 'Neutral: front and rear slide alike.'
      : `Neutral: the ${which} slides only ${more}° more.`;
  return { kind: 'neutral', ...figure, text };
}

/** That no setup turns tighter at this speed, where the floor's grip is nearly used up. */
function limitOf({ trace, car, steady }: Drive, radius: number): string {
  const speed = mean(trace.speed, steady!);
  if ((speed * speed) / radius < SPENT * car.friction * FREE_FALL) return '';
  return ` At ${speed.toFixed(1)} m/s this floor bears hardly a tighter one: drive slower.`;
}

function plough(ratio: number, limit: string): Verdict {
  const figure = { kind: 'understeer', unit: '', threshold: PLOUGH } as const;
  if (!Number.isFinite(ratio))
    return { ...figure, value: null, text: 'Ploughs: it goes straight on with the wheels turned.' };
  const text = `Ploughs: its path is ${ratio.toFixed(1)} times as wide as the steering asks for.`;
  return { ...figure, value: ratio, text: text + limit };
}

function none(text: string): Verdict {
  return { kind: 'none', value: null, unit: '', threshold: null, text };
}
