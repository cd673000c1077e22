import { MANOEUVRES } from '../manoeuvres/manoeuvres.ts';
import { createNoise } from '../plant/noise.ts';
import type { FaultSpan } from '../simulate/fault-span.ts';
import { HARD_DRIVING, LAUNCHES } from './manoeuvre-of.ts';
import type { Conditions, StudyDrive, StudyVariation } from './study-drive.ts';

/** What a demo garage gives the study to choose from. */
export interface StudyGarage {
  name: string;
  setups: readonly string[];
  /** With the friction's range over its usual value. */
  surfaces: readonly { name: string; least: number; most: number }[];
  layout: string;
  isAveraged: boolean;
  /** Greatest current that the sensors can measure, mA. */
  rangeMa: number;
  startC: number;
}

/** What is driven: everything, with faults; or hard driving, with nothing broken. */
export type DriveSet = 'everything' | 'hard';

type Draw = () => number;

/**
 * Drives of a study, each from its own seed, so that the first n of a longer study are those of a
 * shorter one.
 */
export function planDrives(
  garages: readonly StudyGarage[],
  set: DriveSet,
  count: number,
  seed: number,
): StudyDrive[] {
  return Array.from({ length: count }, (_, id) => {
    const own = (Math.imul(seed, 0x9e3779b1) ^ Math.imul(id + 1, 0x85ebca6b)) | 0;
    const draw = createNoise(own).uniform;
    const garage = pick(draw, garages);
    const surface = pick(draw, garage.surfaces);
    const conditions = drawConditions(draw, garage);
    const { manoeuvre, faults } = set === 'hard' ? drawWhole(draw) : drawTask(draw, garage);
    return {
      id,
      seed: own,
      garage: garage.name,
      setup: pick(draw, garage.setups),
      surface: surface.name,
      manoeuvre,
      faults,
      variation: drawVariation(draw, garage, surface, conditions),
      conditions,
    };
  });
}

/** By how much the core's constants are wrong. */
const WRONG = 0.15;
/** Motors of one vehicle differ by so much at most. */
const UNEQUAL = 0.02;
/** Noise of the currents: share of the reading, and at nothing, mA. */
const NOISE_SHARE = 0.05;
const NOISE_MA = 15;
/** Greatest reading at no current, over the range. */
const OFFSET_SHARE = 0.002;

/** Share of hard driving that is start after start. */
const STARTS = 0.2;

/** Hard driving with nothing broken. */
function drawWhole(draw: Draw): Task {
  return { manoeuvre: draw() < STARTS ? LAUNCHES : HARD_DRIVING, faults: [] };
}

interface Task {
  manoeuvre: string;
  faults: FaultSpan[];
}

function drawConditions(draw: Draw, { startC }: StudyGarage): Conditions {
  return {
    bits: draw() < 0.5 ? 10 : 12,
    resistance: pick(draw, [-1, 0, 1] as const),
    constant: pick(draw, [-1, 0, 1] as const),
    startC: pick(draw, [startC, 70, 100]),
  };
}

/** A fault with a drive that shows it, or one of the catalogue without. */
function drawTask(draw: Draw, garage: StudyGarage): Task {
  const kind = draw();
  const motor = draw() < 0.5 ? 0 : 1;
  const spans = (fault: FaultSpan['fault'], fromS: number): FaultSpan[] => [
    { fault, fromS: Math.round(fromS * 100) / 100, toS: Infinity },
  ];
  const driven = () => pick(draw, [HARD_DRIVING, LAUNCHES, 'launch-circle', 'top-speed', 'slalom']);
  if (kind < 0.2)
    return { manoeuvre: driven(), faults: spans({ kind: 'slippedPinion', motor }, 3 * draw()) };
  if (kind < 0.4)
    return {
      manoeuvre: driven(),
      faults: spans({ kind: 'jammedWheel', wheel: motor }, 3 * draw()),
    };
  if (kind < 0.55 && garage.isAveraged)
    return {
      manoeuvre: LAUNCHES,
      faults: spans({ kind: 'lostDrive', constraint: 'frontDrive' }, 5 + 7 * draw()),
    };
  const whole = MANOEUVRES.filter(({ faults }) => faults === undefined).map(({ name }) => name);
  const known = whole.filter((name) =>
    garage.layout === 'tracked' ? STRAIGHT.includes(name) : name !== 'pivot-turn',
  );
  return { manoeuvre: pick(draw, [...known, HARD_DRIVING, LAUNCHES]), faults: [] };
}

/** What a tracked vehicle can drive. */
const STRAIGHT = ['top-speed', 'brake', 'brake-hard', 'hill', 'pivot-turn', 'split-start'];

function drawVariation(
  draw: Draw,
  { rangeMa }: StudyGarage,
  surface: StudyGarage['surfaces'][number],
  { bits, resistance, constant, startC }: Conditions,
): StudyVariation {
  const about = (share: number) => 1 + share * (2 * draw() - 1);
  const friction = about(WRONG);
  const motor = () => ({
    resistance: (1 + WRONG * resistance) * about(UNEQUAL),
    constant: (1 + WRONG * constant) * about(UNEQUAL),
    friction,
    startC,
  });
  return {
    mass: about(0.03),
    friction: surface.least + (surface.most - surface.least) * draw(),
    rolling: about(0.3),
    motors: [motor(), motor()],
    battery: { voltage: 0.88 + 0.12 * draw(), resistance: 1 + 2 * draw() },
    sensors: {
      current: {
        step: Math.max(1, (2 * rangeMa) / 2 ** bits),
        noise: NOISE_MA,
        noiseShare: NOISE_SHARE,
        offset: OFFSET_SHARE * rangeMa * (2 * draw() - 1),
        most: rangeMa,
      },
    },
  };
}

function pick<T>(draw: Draw, list: readonly T[]): T {
  return list[Math.floor(draw() * list.length)]!;
}
