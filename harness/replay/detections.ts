import { Found, type Layout } from '../../lib/index.ts';
import { motorNames } from '../runs/run-columns.ts';
import { Out } from './row-layout.ts';

/** One finding of the core's traction stage, from its first tick to its last. */
export interface Detection {
  kind: DetectionKind;
  /** Name of the motor, as in the run's columns; left out where it is the front axle's drive. */
  motor?: string;
  fromS: number;
  toS: number;
  /** Greatest confidence the core had in a finding of that kind in that stretch, percent. */
  confidencePercent: number;
}

/** What a finding says: a wheel broke loose, a shaft lost its drive, a motor is held fast. */
type DetectionKind = 'spin' | 'free' | 'jam' | 'frontFree';

/** Gathers findings tick by tick, in bounded memory. */
export interface DetectionGatherer {
  /** @param atS run time, s; `outputs[at...]` is the tick's row */
  observe(atS: number, outputs: Int32Array, at: number): void;
  /** The findings in the order of their first ticks, and how many more there were. */
  finish(): { detections: Detection[]; dropped: number };
}

/** A finding that comes back within this time is the same one, s. */
const JOIN_S = 0.3;
/** More findings of one kind and motor than this tell nothing new. */
const MOST_OF_A_KIND = 100;

/** @param layout decides the motors and their names */
export function createDetections(layout: Layout): DetectionGatherer {
  const watched = foundBits(layout).map((bit) => ({ ...bit, open: none(), count: 0 }));
  const detections: Detection[] = [];
  let dropped = 0;

  function observe(atS: number, outputs: Int32Array, at: number): void {
    const found = outputs[at + Out.FOUND]!;
    for (const each of watched) {
      const { open } = each;
      if (open.fromS >= 0 && atS - open.toS > JOIN_S) close(each);
      if ((found & each.bit) === 0) continue;
      if (open.fromS < 0) open.fromS = atS;
      open.toS = atS;
      open.confidence = Math.max(open.confidence, outputs[at + each.sure]!);
    }
  }

  function close(each: Watched): void {
    const { kind, motor, open } = each;
    each.count++;
    if (each.count > MOST_OF_A_KIND) dropped++;
    else {
      detections.push({
        kind,
        ...(motor !== undefined && { motor }),
        fromS: open.fromS,
        toS: open.toS,
        confidencePercent: open.confidence / 10,
      });
    }
    each.open = none();
  }

  function finish(): { detections: Detection[]; dropped: number } {
    for (const each of watched) if (each.open.fromS >= 0) close(each);
    detections.sort((a, b) => a.fromS - b.fromS);
    return { detections, dropped };
  }

  return { observe, finish };
}

interface FoundBit {
  bit: number;
  /** Where the confidence in it stands in a row of outputs. */
  sure: Out;
  kind: DetectionKind;
  motor?: string;
}

interface Watched extends FoundBit {
  open: { fromS: number; toS: number; confidence: number };
  count: number;
}

function none() {
  return { fromS: -1, toS: -1, confidence: 0 };
}

/** What each bit of `Outputs.found` says. */
export function foundBits(layout: Layout): FoundBit[] {
  const kinds = [
    { first: Found.SPIN, sure: Out.SPIN, kind: 'spin' },
    { first: Found.FREE, sure: Out.FREE, kind: 'free' },
    { first: Found.JAM, sure: Out.JAM, kind: 'jam' },
  ] as const;
  const motors = motorNames(layout);
  return [
    ...kinds.flatMap(({ first, sure, kind }) =>
      motors.map((motor, i) => ({ bit: first << i, sure, kind, motor })),
    ),
    { bit: Found.FRONT_FREE, sure: Out.FREE, kind: 'frontFree' },
  ];
}
