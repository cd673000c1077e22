import type { Fault } from '../plant/fault.ts';
import type { Plant } from '../plant/plant.ts';
import type { PlantDescription } from '../plant/plant-description.ts';
import { VX } from '../plant/state.ts';
import type { FaultSpan } from '../simulate/fault-span.ts';
import { drivenWheels } from './driven-wheels.ts';

export type Kind = 'spin' | 'free' | 'front' | 'jam';
type Severity = 'grip' | 'mild' | 'hard' | 'full' | '';

/** Something that truly happened, as the plant's state tells. Times of the manoeuvre, s. */
export interface TrueEvent {
  kind: Kind;
  motor: number;
  /** Of a spin; of a lost front drive: of the gravest spin in its starts. */
  severity: Severity;
  /** The vehicle slides sideways meanwhile: its wheels point away from where it goes. */
  isSliding: boolean;
  fromS: number;
  toS: number;
  /** Found later than this is not found. */
  dueS: number;
}

/** What truly happened in a drive. */
export interface Truth {
  events: TrueEvent[];
  /** From here on something is broken; Infinity = never. */
  brokenS: number;
  /** Spans in which a wheel of the motor slips at all, or did shortly before: no false alarm. */
  slipping: { motor: number; fromS: number; toS: number }[];
}

/** Least slip of each severity, and how long it must last, s. */
const LEAST: readonly (readonly [Exclude<Severity, '' | 'grip'>, number])[] = [
  ['mild', 0.3],
  ['hard', 0.6],
  ['full', 1.5],
];
const HELD_S = 0.06;
/** Slip is over the wheel's speed ahead, but over no less than this share of the top speed. */
const FLOOR_SHARE = 0.05;
/** Below this slip a wheel counts as gripping. */
const GRIPS = 0.2;
/** Slip angle of a wheel from which its vehicle slides, rad. */
const SLIDES = Math.PI / 9;
/** Command from which a drive must show, and of a launch, permille. */
const DRIVEN = 300;
const LAUNCHED = 500;
/** How soon each must be found, s; launches. */
const DUE_S = { free: 0.5, jam: 0.25 };
const DUE_LAUNCHES = 3;
/** A spin may still be found so long after its end, s: currents are a tick old. */
const GRACE_S = 0.05;

/** Watches a plant and says in the end what truly happened. */
export function createTruth(plant: PlantDescription, topSpeed: number, faults: FaultSpan[]) {
  const floor = FLOOR_SHARE * topSpeed;
  const wheels = drivenWheels(plant);
  const times: number[] = [];
  const slips = wheels.of.map((): number[] => []);
  const commands = wheels.of.map((): number[] => []);
  const speeds: number[] = [];
  const either = wheels.of.map((): number[] => []);
  const slides = wheels.of.map((): boolean[] => []);
  return {
    watch(t: number, now: Plant, drive: ArrayLike<number>): void {
      const { slipAngle } = now.observe();
      times.push(t);
      speeds.push(now.state.body[VX]!);
      for (const [m, own] of wheels.of.entries()) {
        const command = drive[m]!;
        let most = 0;
        let any = 0;
        let angle = 0;
        for (const w of own) {
          const roll = wheels.roll(w, now.state);
          const along = wheels.along(w, now.state);
          most = Math.max(most, slipOf(Math.sign(command), roll, along, floor));
          any = Math.max(any, Math.abs(roll - along) / Math.max(Math.abs(along), floor));
          angle = Math.max(angle, Math.abs(slipAngle[w]!));
        }
        slips[m]!.push(most);
        either[m]!.push(any);
        slides[m]!.push(angle > SLIDES);
        commands[m]!.push(command);
      }
    },
    finish(): Truth {
      const trace = { times, slips, commands, speeds, floor };
      const brokenS = Math.min(Infinity, ...faults.map(({ fromS }) => fromS));
      const spins = slips.flatMap((slip, m) => findSpins(times, slip, slides[m]!, m));
      const lost = faults.flatMap(({ fault, fromS }) =>
        lossOf(trace, fault as Fault, fromS, spins),
      );
      return {
        events: [...spins.filter(({ toS }) => toS < brokenS), ...lost],
        brokenS,
        slipping: either.flatMap((slip, motor) =>
          spansAbove(times, slip, GRIPS).map((span) => ({ motor, ...span })),
        ),
      };
    },
  };
}

/**
 * Slip of a driven wheel in the direction it is driven; 0 while it is braked or not driven. Under a
 * vehicle that rolls the other way slip is that of braking, whatever the wheel does (ISO 8855).
 */
function slipOf(way: number, roll: number, along: number, floor: number): number {
  if (way === 0 || roll * way <= 0 || along * way < -floor) return 0;
  return Math.max(0, (roll - along) * way) / Math.max(Math.abs(along), floor);
}

function spansAbove(times: readonly number[], values: readonly number[], least: number) {
  const spans: { fromS: number; toS: number }[] = [];
  let from: number | undefined;
  for (let i = 0; i <= values.length; i++) {
    const isIn = i < values.length && values[i]! >= least;
    if (isIn && from === undefined) from = i;
    else if (!isIn && from !== undefined) {
      spans.push({ fromS: times[from]!, toS: times[i - 1]! });
      from = undefined;
    }
  }
  return spans;
}

/** Each time a wheel lets go is one event, of the gravest severity that it holds. */
function findSpins(
  times: readonly number[],
  slip: readonly number[],
  slides: readonly boolean[],
  motor: number,
): TrueEvent[] {
  const held = LEAST.map(([severity, least]) => ({
    severity,
    spans: spansAbove(times, slip, least).filter(({ fromS, toS }) => toS - fromS >= HELD_S - 1e-6),
  }));
  return held[0]!.spans.map((span) => {
    const gravest = held.findLast(({ spans }) => spans.some((each) => within(each, span)))!;
    const { fromS } = gravest.spans.find((each) => within(each, span))!;
    const { severity } = gravest;
    const [first, last] = [times.indexOf(fromS), times.indexOf(span.toS)];
    const isSliding = slides.slice(first, last + 1).includes(true);
    const dueS = span.toS + GRACE_S;
    return { kind: 'spin', motor, severity, isSliding, fromS, toS: span.toS, dueS };
  });
}

function within(
  inner: { fromS: number; toS: number },
  outer: { fromS: number; toS: number },
): boolean {
  return inner.fromS >= outer.fromS && inner.toS <= outer.toS;
}

interface DriveTrace {
  times: number[];
  commands: number[][];
  speeds: number[];
  floor: number;
}

function lossOf(
  trace: DriveTrace,
  fault: Fault,
  fromS: number,
  spins: readonly TrueEvent[],
): TrueEvent[] {
  if (fault.kind === 'slippedPinion') return held(trace, 'free', fault.motor, fromS);
  if (fault.kind === 'jammedWheel') return held(trace, 'jam', fault.wheel % 2, fromS);
  if (fault.kind === 'lostDrive' && fault.constraint === 'frontDrive')
    return frontLost(trace, fromS, spins);
  return [];
}

/** Counts from the first command that must show it, if that is held until it is due. */
function held(trace: DriveTrace, kind: 'free' | 'jam', motor: number, from: number): TrueEvent[] {
  const { times, commands } = trace;
  const first = times.findIndex((t, i) => t >= from && Math.abs(commands[motor]![i]!) >= DRIVEN);
  if (first < 0) return [];
  const fromS = times[first]!;
  const dueS = fromS + DUE_S[kind];
  const way = commands[motor]![first]!;
  for (let i = first; times[i]! < dueS; i++) {
    if (i + 1 >= times.length || (commands[motor]![i]! * way) / Math.abs(way) < DRIVEN) return [];
  }
  return [{ kind, motor, severity: '', isSliding: false, fromS, toS: times.at(-1)!, dueS }];
}

/** Counts from the first launch after it; due before the one after the third. */
function frontLost(
  { times, commands, speeds, floor }: DriveTrace,
  from: number,
  spins: readonly TrueEvent[],
): TrueEvent[] {
  const starts: number[] = [];
  let isReady = false;
  for (let i = 0; i < times.length; i++) {
    const command = Math.max(...commands.map((each) => Math.abs(each[i]!)));
    if (Math.abs(speeds[i]!) < floor && command < DRIVEN) isReady = true;
    if (!isReady || command < LAUNCHED) continue;
    isReady = false;
    if (times[i]! >= from) starts.push(times[i]!);
  }
  if (starts.length < DUE_LAUNCHES) return [];
  const toS = times.at(-1)!;
  const dueS = starts[DUE_LAUNCHES] ?? toS;
  const fromS = starts[0]!;
  const meanwhile = spins.filter((spin) => spin.fromS >= fromS && spin.fromS < dueS);
  const gravest = LEAST.findLast(([each]) => meanwhile.some(({ severity }) => severity === each));
  const severity = gravest?.[0] ?? 'grip';
  return [{ kind: 'front', motor: 0, severity, isSliding: false, fromS, toS, dueS }];
}
