import { S } from '../../lib/index.ts';

/**
 * Bounds on the setup constants in force. During a cross-fade they lie somewhere between those of
 * the setups involved, so a monitor takes the laxer bound.
 */
export interface Envelope {
  /** Least value of each constant that may be in force. */
  lo: number[];
  /** Greatest value. */
  hi: number[];
  fading: boolean;
  /** @param slot slot in force in this tick; @param permitMs time that lets a fade go on */
  step(slot: number, permitMs: number): void;
  /** Takes a setup that the core accepted between two ticks. */
  put(slot: number, setup: readonly number[]): void;
}

/** @param setups those on board at power-up */
export function createEnvelope(setups: readonly (readonly number[])[]): Envelope {
  const store = setups.map((setup) => [...setup]);
  let inForce = 0;
  let faded = 0;
  let begun = false;
  const self = { lo: [...store[0]!], hi: [...store[0]!], fading: false, step, put };

  function step(slot: number, permitMs: number): void {
    const to = store[inForce]!;
    // One tick late, so that the tick in which the fade ends still counts to it.
    if (self.fading && begun && faded >= to[S.FADE_MS]!) settle(to);
    if (slot !== inForce && store[slot] !== undefined) begin(slot);
    if (self.fading) faded += permitMs;
    begun = true;
  }

  function put(slot: number, setup: readonly number[]): void {
    store[slot] = [...setup];
    if (slot === inForce) begin(slot);
  }

  function begin(slot: number): void {
    inForce = slot;
    faded = 0;
    begun = false;
    self.fading = true;
    const to = store[slot]!;
    for (let i = 0; i < S.COUNT; i++) {
      if (to[i]! < self.lo[i]!) self.lo[i] = to[i]!;
      if (to[i]! > self.hi[i]!) self.hi[i] = to[i]!;
    }
  }

  function settle(to: readonly number[]): void {
    self.fading = false;
    for (let i = 0; i < S.COUNT; i++) {
      self.lo[i] = to[i]!;
      self.hi[i] = to[i]!;
    }
  }

  return self;
}
