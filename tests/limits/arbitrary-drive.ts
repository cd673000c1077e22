import fc from 'fast-check';
import { type Constants, S } from '../../lib/index.ts';
import { arbitraryConstants, setupsFor } from './arbitrary-constants.ts';

/** A drive that may be anything between a quiet lap and the worst day of a hub's life. */
export interface Drive {
  constants: Constants;
  /** First time stamp, ms. */
  startMs: number;
  segments: Segment[];
}

/** A stretch of a drive. */
export interface Segment {
  /** true = both sticks neutral for as long as arming takes; the sticks below are not used. */
  arm: boolean;
  /** Length, ms; at most MOST_TICKS ticks. */
  ms: number;
  /** Seed of the stretch's noise. */
  seed: number;
  throttle: StickPlan;
  steer: StickPlan;
  link: Link;
  clock: ClockPlan;
  sensors: Sensors;
  slot: number;
  guest: boolean;
  /** Share of the fields that hold junk in any tick, percent. */
  junk: number;
  offer: Offer | undefined;
}

type StickPlan = { kind: 'hold' | 'ramp' | 'walk'; from: number; to: number };
type Link = 'fresh' | 'lagging' | 'ageing' | 'out of range' | 'missing' | 'flickering';
export type ClockPlan =
  | 'steady'
  | 'jittering'
  | 'late once'
  | 'still'
  | 'backwards'
  | 'jumping'
  | 'missing'
  | 'crawling'
  | 'any';
export type Sensors =
  | 'usual'
  | 'stalled'
  | 'beyond limit'
  | 'braking'
  | 'low supply'
  | 'sagging supply'
  | 'supply lost'
  | 'current lost'
  | 'gyro lost'
  | 'gyro stuck'
  | 'any';

/** A setup handed to `offerSetup` at the beginning of a stretch. */
export interface Offer {
  slot: unknown;
  setup: number[];
  fault: 'none' | 'crc' | 'bit' | 'range' | 'fraction' | 'short' | 'long' | 'hole' | 'nothing';
}

/** Longest stretch, so that slow vehicles do not make a test slow. */
export const MOST_TICKS = 250;

/** Drives of arbitrary vehicles, most of which really drive. */
export const arbitraryDrive: fc.Arbitrary<Drive> = arbitraryConstants.chain((constants) =>
  fc
    .record({
      startMs: often(fc.integer({ min: 0, max: 100000 }), anyStart()),
      first: fc.record({ arm: fc.constantFrom(true, true, true, true, true, false) }),
      segments: fc.array(segment(constants), { minLength: 2, maxLength: 9 }),
    })
    .map(({ startMs, first, segments }) => ({
      constants,
      startMs,
      segments: segments.map((one, i) => (i > 0 ? one : first.arm ? arming(one) : one)),
    })),
);

/** A stretch in which nothing is amiss and both sticks rest, as it arms. */
function arming(one: Segment): Segment {
  const { seed } = one;
  const quiet = { link: 'fresh', clock: 'steady', sensors: 'usual', junk: 0 } as const;
  return { ...one, ...quiet, seed, arm: true, slot: 0, guest: false, offer: undefined };
}

function segment(constants: Constants): fc.Arbitrary<Segment> {
  const level = often(fc.integer({ min: -1000, max: 1000 }), fc.constantFrom(0, 1000, -1000));
  const stick = fc.record({
    kind: fc.constantFrom('hold' as const, 'hold' as const, 'ramp' as const, 'walk' as const),
    from: level,
    to: level,
  });
  const odd = { min: 0, max: 5 };
  return fc
    .record({
      arm: sometimes(true, false),
      ms: often(fc.integer({ min: 50, max: 1500 }), fc.integer({ min: 1, max: 20 })),
      seed: fc.integer({ min: 1, max: 0x7fffffff }),
      throttle: stick,
      steer: often(stick, fc.constant({ kind: 'hold' as const, from: 0, to: 0 })),
      link: often(fc.constant<Link>('fresh'), links()),
      clock: often(fc.constantFrom<ClockPlan>('steady', 'jittering'), clocks()),
      sensors: fc.oneof(fc.constant<Sensors>('usual'), sensors()),
      slot: fc.constantFrom(0, 0, 0, 1, 2),
      guest: sometimes(true, false),
      junk: fc.constantFrom(0, 0, 0, 0, 0, 0, 2, 30),
      offer: often(fc.constant(undefined), offers(constants)),
      alone: fc.integer(odd),
    })
    .map(({ alone, ...one }) => (one.arm && alone > 0 ? { ...arming(one), slot: one.slot } : one));
}

function anyStart(): fc.Arbitrary<number> {
  // A count that wraps within a drive, passes the value that stands for missing, or is anything.
  return fc.oneof(fc.constantFrom(0x7fffff00, -34000), fc.integer());
}

function links(): fc.Arbitrary<Link> {
  return fc.constantFrom<Link>('lagging', 'ageing', 'out of range', 'missing', 'flickering');
}

function clocks(): fc.Arbitrary<ClockPlan> {
  const kinds = ['late once', 'still', 'backwards', 'jumping', 'missing', 'crawling', 'any'];
  return fc.constantFrom(...(kinds as ClockPlan[]));
}

function sensors(): fc.Arbitrary<Sensors> {
  const kinds = [
    'stalled',
    'beyond limit',
    'braking',
    'low supply',
    'sagging supply',
    'supply lost',
    'current lost',
    'any',
    'gyro lost',
    'gyro stuck',
  ];
  return fc.constantFrom(...(kinds as Sensors[]));
}

function offers(constants: Constants): fc.Arbitrary<Offer> {
  const faults = ['crc', 'bit', 'range', 'fraction', 'short', 'long', 'hole', 'nothing'] as const;
  return fc.record({
    slot: often(
      fc.integer({ min: 0, max: constants.setups.length - 1 }),
      fc.constantFrom<unknown>(-1, 16, 0.5, Number.NaN, '0', undefined),
    ),
    setup: setupsFor(constants.vehicle),
    fault: fc.oneof(fc.constant('none' as const), fc.constantFrom(...faults)),
  });
}

function often<A, B>(usual: fc.Arbitrary<A>, rare: fc.Arbitrary<B>): fc.Arbitrary<A | B> {
  return fc.oneof({ arbitrary: usual, weight: 5 }, { arbitrary: rare, weight: 2 });
}

function sometimes<A>(rare: A, usual: A): fc.Arbitrary<A> {
  return fc.constantFrom(rare, usual, usual, usual, usual);
}

/** How long arming can take with these constants, ms. */
export function armingMs({ setups }: Constants): number {
  return Math.max(...setups.map((k) => Math.max(k[S.NEUTRAL_MS]!, k[S.REARM_MS]!)));
}
