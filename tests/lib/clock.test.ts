import { describe, expect, it } from 'vitest';
import { createClock } from '../../lib/clock.ts';
import { Cause, MISSING } from '../../lib/index.ts';

/** Steps a clock of 10 ms ticks and a gap time of 100 ms; gives what it made of each stamp. */
function steps(...stamps: number[]): { rise: number; stop: number; cause: number; odd: number }[] {
  const clock = createClock(10, 100);
  return stamps.map((stamp) => {
    clock.run(stamp);
    const { rise, stop, fault: cause, odd } = clock;
    return { rise, stop, cause, odd };
  });
}

function last(...stamps: number[]) {
  return steps(...stamps).at(-1);
}

describe('the clock', () => {
  it('gives the time between two ticks', () => {
    expect(last(1000, 1010)).toEqual({ rise: 10, stop: 10, cause: Cause.NONE, odd: 0 });
    expect(last(1000, 1001)).toEqual({ rise: 1, stop: 1, cause: Cause.NONE, odd: 0 });
  });

  it('permits nothing in its first tick, and does not call that odd', () => {
    expect(last(77)).toEqual({ rise: 0, stop: 10, cause: Cause.NONE, odd: 0 });
  });

  it('permits two nominal ticks at most, and forbids all of a late one', () => {
    expect(last(0, 20)).toMatchObject({ rise: 20, stop: 20 });
    expect(last(0, 21)).toMatchObject({ rise: 20, stop: 21 });
    expect(last(0, 100)).toMatchObject({ rise: 20, stop: 100, cause: Cause.NONE });
  });

  it('calls a longer gap a loss, and forbids no more than the gap time', () => {
    expect(last(0, 101)).toEqual({ rise: 20, stop: 100, cause: Cause.TICK_GAP, odd: 0 });
    expect(last(0, 0x7fffffff)).toMatchObject({ rise: 20, stop: 100, cause: Cause.TICK_GAP });
  });

  it.each([
    ['standing still', 500],
    ['backwards', 499],
    ['far backwards', -2000000000],
    ['missing', MISSING],
  ])('is odd %s: nothing is permitted, a nominal tick forbidden', (_name, stamp) => {
    expect(last(500, stamp)).toEqual({ rise: 0, stop: 10, cause: Cause.NONE, odd: 1 });
  });

  it('is a loss once it has been odd for longer than the gap time', () => {
    const all = steps(...Array.from({ length: 14 }, () => 500));
    // The first tick counts too: nobody knows how long ago it was.
    expect(all.findIndex(({ cause }) => cause === Cause.CLOCK_STUCK)).toBe(10);
    expect(all.at(-1)).toEqual({ rise: 0, stop: 10, cause: Cause.CLOCK_STUCK, odd: 1 });
    expect(last(...Array.from({ length: 14 }, () => 500), 510)).toMatchObject({
      cause: Cause.NONE,
      odd: 0,
    });
  });

  it('runs on over the wrap of its 32 bits and over the stamp that means missing', () => {
    expect(last(0x7ffffffa, -0x7ffffffc)).toMatchObject({ rise: 10, stop: 10, odd: 0 });
    const across = steps(MISSING - 10, MISSING, MISSING + 10);
    expect(across[1]).toMatchObject({ odd: 1, rise: 0 });
    expect(across[2]).toMatchObject({ odd: 0, rise: 20, stop: 20 });
  });
});
