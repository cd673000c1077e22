import { S, STEER_HOLD } from './constants.ts';
import { Fit } from './fit.ts';

/** Holds the setups on board and cross-fades between them, so that a switch is bumpless. */
export interface Slots {
  /** The constants in force; during a fade, between those of two setups. */
  active: number[];
  /** The slot in force, or being faded to. */
  chosen: number;
  /** 1 while a fade is under way. */
  fading: number;
  /**
   * @param wanted slot wished for; one that is not on board is ignored
   * @param rise as in Clock, ms
   * @returns 1 if `active` has changed and is to be loaded
   */
  run(wanted: number, rise: number): number;
  /** Puts checked constants into a slot; if it is in force, fades to them. */
  put(slot: number, setup: number[]): void;
}

/** Constants moved on in one tick of a fade. */
const FADED_AT_ONCE = 16;

/** @param setups at least one, each S.COUNT long; copied where they can change */
export function createSlots(setups: number[][]): Slots {
  if (!Fit.SETUPS_CHANGE) {
    return { active: setups[0], chosen: 0, fading: 0, run: stay, put: keep };
  }
  const store: number[][] = [];
  for (let i = 0; i < setups.length; i++) store.push(copyOf(setups[i]));
  const from = copyOf(setups[0]);
  const active = copyOf(setups[0]);
  let faded = 0;
  let next = 0;
  const slots = { active: active, chosen: 0, fading: 0, run: run, put: put };

  function run(wanted: number, rise: number): number {
    if (wanted !== slots.chosen && wanted >= 0 && wanted < store.length) {
      // Minus zero is a slot, too, but not one to hand out.
      slots.chosen = wanted + 0;
      begin();
    }
    if (slots.fading === 0) return 0;
    const to = store[slots.chosen];
    const time = to[S.FADE_MS];
    faded += rise;
    if (faded >= time) {
      slots.fading = 0;
      copy(to, active);
      return 1;
    }
    fade(to, faded / time);
    return next === 0 ? 1 : 0;
  }

  /** Moves on a part of the constants, so that no tick of a fade is much longer than others. */
  function fade(to: number[], share: number): void {
    let end = next + FADED_AT_ONCE;
    if (end > S.COUNT) end = S.COUNT;
    for (let i = next; i < end; i++) active[i] = from[i] + (to[i] - from[i]) * share;
    next = end < S.COUNT ? end : 0;
    // What is between two reactions is a third one.
    active[S.SPIN_REACTION] = to[S.SPIN_REACTION];
    active[S.FREE_REACTION] = to[S.FREE_REACTION];
    active[S.JAM_REACTION] = to[S.JAM_REACTION];
    // Between a position and the value that stands for holding still there is nothing to fade.
    if (from[S.LOSS_STEER] === STEER_HOLD || to[S.LOSS_STEER] === STEER_HOLD) {
      active[S.LOSS_STEER] = to[S.LOSS_STEER];
    }
  }

  function begin(): void {
    copy(active, from);
    faded = 0;
    slots.fading = 1;
  }

  function put(slot: number, setup: number[]): void {
    copy(setup, store[slot]);
    if (slot === slots.chosen) begin();
  }

  return slots;
}

/** A single setup that stays is always the one in force ... */
function stay(): number {
  return 0;
}

/** ... and none is put in its place. */
function keep(): void {}

function copy(source: number[], target: number[]): void {
  for (let i = 0; i < S.COUNT; i++) target[i] = source[i];
}

function copyOf(source: number[]): number[] {
  const target: number[] = [];
  for (let i = 0; i < S.COUNT; i++) target.push(source[i]);
  return target;
}
