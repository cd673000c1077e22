import { describe, expect, it } from 'vitest';
import { createGates, type Gates } from '../../lib/gate.ts';

/**
 * The gate's whole integer domain, enumerated: every state it can be in times every request there
 * is, for several settings. Its state is the value it let out last, the direction of the last
 * motion and the ticks rested at zero since. While the value is not 0 the direction is its sign and
 * the rest plays no part; so all states are 2000 values, and for the value 0 three directions (none
 * yet, forward, reverse) times every count of rest from 0 to the dwell.
 */
const RISES = [1, 25, 1000];
const CAPS = [0, 1, 400, 1000];
const DWELLS = [0, 1, 6];
/** The longest dwell there is, tried with one rise: 201 states of rest. */
const LONGEST = 100;
const MOST = 1000;
const REQUESTS = 1100;

/** What the limits allow, from their wording and not from the code. */
interface Case {
  value: number;
  /** Sign of the last motion, 0 = none yet. */
  direction: number;
  /** Whether the dwell at zero is over. */
  rested: boolean;
  request: number;
  enable: number;
  cap: number;
  rise: number;
}

/** The command nearest to the request that breaks no limit. */
function allowed({ value, direction, rested, request, enable, cap, rise }: Case): number {
  if (enable !== 1 || request === 0) return 0;
  const sign = request > 0 ? 1 : -1;
  // S3: never through zero in one tick, and at zero first a dwell.
  if (value !== 0 && sign !== Math.sign(value)) return 0;
  if (value === 0 && sign !== direction && !rested) return 0;
  // S17 and S2: under the cap, and no steeper than the ceiling on a rise.
  return sign * Math.min(Math.abs(request), cap, Math.abs(value) + rise) + 0;
}

/** Mismatches are kept few, so that a broken gate does not drown the test. */
function createTally() {
  let cases = 0;
  const wrong: string[] = [];
  return {
    check(one: Case, gate: Gates): void {
      cases++;
      const want = allowed(one);
      if (gate.passed[0] === want && !Object.is(gate.passed[0], -0)) return;
      if (wrong.length < 5) wrong.push(`${JSON.stringify(one)}: ${gate.passed[0]}, not ${want}`);
    },
    get cases() {
      return cases;
    },
    wrong,
  };
}

/** All requests from every value but 0. */
function sweepMoving(tally: ReturnType<typeof createTally>, rise: number, cap: number): void {
  for (const direction of [1, -1]) {
    // A gate that has moved this way; its value can then be put to any other of that direction.
    const gate = createGates(rise, 6);
    gate.run(0, direction, 1, 1000);
    for (let magnitude = 1; magnitude <= MOST; magnitude++) {
      const value = direction * magnitude;
      for (let request = -REQUESTS; request <= REQUESTS; request++) {
        gate.passed[0] = value;
        gate.run(0, request, 1, cap);
        tally.check({ value, direction, rested: false, request, enable: 1, cap, rise }, gate);
      }
      for (const enable of [0, -1, 2]) {
        gate.passed[0] = value;
        gate.run(0, value, enable, cap);
        tally.check({ value, direction, rested: false, request: value, enable, cap, rise }, gate);
      }
    }
  }
}

/** All requests from zero, after every rest there is. */
function sweepResting(tally: ReturnType<typeof createTally>, rise: number, dwell: number): void {
  for (const cap of CAPS) {
    for (const direction of [0, 1, -1]) {
      // The rest is counted from the first tick after the one that brought the value to zero.
      for (let rest = 0; rest <= dwell; rest++) {
        if (direction === 0 && rest < dwell) continue;
        for (let request = -REQUESTS; request <= REQUESTS; request++) {
          for (const enable of [1, 0]) {
            const gate = atRest(rise, dwell, direction, rest);
            gate.run(0, request, enable, cap);
            const rested = rest >= dwell;
            tally.check({ value: 0, direction, rested, request, enable, cap, rise }, gate);
          }
        }
      }
    }
  }
}

/** A gate that moved in a direction, came to zero, and stayed there for some further ticks. */
function atRest(rise: number, dwell: number, direction: number, rest: number): Gates {
  const gate = createGates(rise, dwell);
  if (direction === 0) return gate;
  gate.run(0, direction, 1, 1000);
  for (let i = 0; i <= rest; i++) gate.run(0, 0, 1, 1000);
  return gate;
}

describe('the gate, over its whole integer domain', () => {
  it('lets out what is nearest to the request and breaks no limit, from every moving state', () => {
    const tally = createTally();
    for (const rise of RISES) for (const cap of CAPS) sweepMoving(tally, rise, cap);
    // 3 rises x 4 caps x 2000 values x (2201 requests and 3 that are not enabled).
    expect(tally.cases).toBe(3 * 4 * 2000 * 2204);
    expect(tally.wrong).toEqual([]);
    say('moving', tally.cases);
  });

  it('does so from every state of rest as well', () => {
    const tally = createTally();
    for (const rise of RISES) for (const dwell of DWELLS) sweepResting(tally, rise, dwell);
    sweepResting(tally, 25, LONGEST);
    // For each cap and dwell d: 2 (d + 1) rests after motion and one before any.
    const rests = (dwell: number) => 2 * (dwell + 1) + 1;
    const all = 3 * (rests(0) + rests(1) + rests(6)) + rests(LONGEST);
    expect(tally.cases).toBe(4 * all * 2201 * 2);
    expect(tally.wrong).toEqual([]);
    say('resting', tally.cases);
  });

  it('finds the limits broken by a gate that rises one too fast or dwells one too short', () => {
    const tally = createTally();
    const gate = createGates(26, 6);
    gate.run(0, 1, 1, 1000);
    gate.run(0, 100, 1, 1000);
    const one = { value: 1, direction: 1, rested: false, request: 100, enable: 1, cap: 1000 };
    tally.check({ ...one, rise: 25 }, gate);
    const short = atRest(25, 5, 1, 5);
    short.run(0, -10, 1, 1000);
    tally.check({ ...one, value: 0, request: -10, rise: 25 }, short);
    expect(tally.wrong).toHaveLength(2);
  });
});

describe('requests that are no integers', () => {
  it.each([
    ['not a number', Number.NaN, 0],
    ['infinity', Infinity, 400],
    ['minus infinity', -Infinity, -400],
    ['a huge number', 1e300, 400],
    ['minus a huge number', -1e300, -400],
    ['the first number beyond 31 bits', 2 ** 31, 400],
    ['a number that would wrap to 5', 2 ** 32 + 5, 400],
    ['a number that would wrap to -5', -(2 ** 32) - 5, -400],
    ['nothing', undefined as unknown as number, 0],
    ['null', null as unknown as number, 0],
    ['text', 'full' as unknown as number, 0],
    ['minus zero', -0, 0],
    ['a fraction', 12.9, 12],
    ['a negative fraction', -12.9, -12],
    ['less than one', -0.99, 0],
  ])('%s', (_name, request, want) => {
    const gate = createGates(1000, 3);
    gate.run(0, request, 1, 400);
    expect(Object.is(gate.passed[0], want)).toBe(true);
  });
});

function say(what: string, cases: number): void {
  process.stdout.write(`The gate, ${what}: ${cases} cases\n`);
}
