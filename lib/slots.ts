import { S, STEER_HOLD } from './constants.ts';

/** Holds the setups on board and cross-fades between them, so that a switch is bumpless. */
export interface Slots {
  /** The constants in force; during a fade, between those of two setups. */
  active: number[];
  /** The slot in force, or being faded to. */
  slot: number;
  /** 1 while a fade is under way. */
  fading: number;
  /**
   * @param wanted slot wished for; one that is not on board is ignored
   * @param rise as in Clock, ms
   * @returns 1 if `active` changed
   */
  step(wanted: number, rise: number): number;
  /** Puts checked constants into a slot; if it is in force, fades to them. */
  put(slot: number, setup: number[]): void;
}

/** @param setups at least one, each S.COUNT long; copied */
export function createSlots(setups: number[][]): Slots {
  const store: number[][] = [];
  for (let i = 0; i < setups.length; i++) store.push(copyOf(setups[i]));
  const from = copyOf(setups[0]);
  let faded = 0;
  const slots = { active: copyOf(setups[0]), slot: 0, fading: 0, step: step, put: put };

  function step(wanted: number, rise: number): number {
    if (wanted !== slots.slot && wanted >= 0 && wanted < store.length) {
      slots.slot = wanted;
      begin();
    }
    if (slots.fading === 0) return 0;
    const to = store[slots.slot];
    const time = to[S.FADE_MS];
    faded += rise;
    if (faded >= time) {
      slots.fading = 0;
      copy(to, slots.active);
      return 1;
    }
    for (let i = 0; i < S.COUNT; i++) {
      slots.active[i] = from[i] + ((to[i] - from[i]) * faded) / time;
    }
    // Between a position and the value that stands for holding still there is nothing to fade.
    if (from[S.LOSS_STEER] === STEER_HOLD || to[S.LOSS_STEER] === STEER_HOLD) {
      slots.active[S.LOSS_STEER] = to[S.LOSS_STEER];
    }
    // Between a position and STEER_HOLD there is no value that means either.
    slots.active[S.LOSS_STEER] = to[S.LOSS_STEER];
    return 1;
  }

  function begin(): void {
    copy(slots.active, from);
    faded = 0;
    slots.fading = 1;
  }

  function put(slot: number, setup: number[]): void {
    copy(setup, store[slot]);
    if (slot === slots.slot) begin();
  }

  return slots;
}

function copy(source: number[], target: number[]): void {
  for (let i = 0; i < S.COUNT; i++) target[i] = source[i];
}

function copyOf(source: number[]): number[] {
  const target: number[] = [];
  for (let i = 0; i < S.COUNT; i++) target.push(source[i]);
  return target;
}
