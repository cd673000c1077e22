import { type Constants, MISSING, V } from '../../lib/index.ts';
import type { Finding } from '../report/report-data.ts';
import { motorNames } from '../runs/run-columns.ts';
import { In } from './row-layout.ts';
import { createStartCurrents } from './start-currents.ts';

/** Finds samples that the vehicle as described cannot give, such as a log in another unit holds. */
export interface UnitWatch {
  /**
   * @param stepMs time since the last tick, ms; rows begin at `inputAt` and `driveAt`
   * @param drives what the motors were commanded, permille, see driveRows
   */
  observe(
    stepMs: number,
    inputs: Int32Array,
    inputAt: number,
    drives: Int32Array,
    driveAt: number,
  ): void;
  /** A sentence at the beginning for each kind of sample that is in doubt. */
  finish(): Finding[];
}

/** Shares of the open-circuit voltage that no pack which drives falls to, or rises to. */
const FLAT = 0.25;
const OVERCHARGED = 2.5;
/** What starts show lies between these: half and twice of it does, a tenth and tenfold do not. */
const FAINT = 0.15;
const FIERCE = 2.5;
/** What they show, about. */
const USUAL = 0.65;
/** One start may be down a hill, or of a vehicle that rolls. */
const LEAST_STARTS = 2;

/** @param constants what is driven with */
export function createUnitWatch({ vehicle }: Constants): UnitWatch {
  const nominal = vehicle[V.SUPPLY_NOMINAL_MV]!;
  const hasSupply = vehicle[V.HAS_SUPPLY] === 1;
  const names = vehicle[V.HAS_CURRENT] === 1 ? motorNames(vehicle[V.LAYOUT]!) : [];
  const motors = names.map(() => createStartCurrents(vehicle[V.MOTOR_MOHM]! / 1000));
  const supply = { least: Infinity, most: -Infinity };

  function observe(
    stepMs: number,
    inputs: Int32Array,
    inputAt: number,
    drives: Int32Array,
    driveAt: number,
  ): void {
    const mv = inputs[inputAt + In.BATTERY]!;
    if (hasSupply && mv !== MISSING) {
      supply.least = Math.min(supply.least, mv);
      supply.most = Math.max(supply.most, mv);
    }
    const isLikely = mv > FLAT * nominal && mv < OVERCHARGED * nominal;
    const volts = (isLikely ? mv : nominal) / 1000;
    motors.forEach((motor, i) => {
      motor.observe(stepMs, drives[driveAt + i]!, inputs[inputAt + In.CURRENT + i]!, volts);
    });
  }

  function finish(): Finding[] {
    const starts = motors.map((motor) => motor.finish());
    const told = DOUBTS.flatMap(({ isSo, text }) => {
      const doubted = names.filter((_, i) => starts[i]!.length >= LEAST_STARTS && isSo(starts[i]!));
      if (doubted.length === 0) return [];
      const shares = doubted.flatMap((name) => starts[names.indexOf(name)]!);
      const columns = doubted.map((name) => `current_${name}_ma`).join(', ');
      return [text(columns, shares.reduce((sum, share) => sum + share, 0) / shares.length)];
    });
    const texts = [...supplyTexts(supply, nominal), ...told];
    return texts.map((text): Finding => ({ atS: 0, severity: 'warning', text }));
  }

  return { observe, finish };
}

/** What may be wrong with the currents of a motor, by what its starts show. */
const DOUBTS: readonly {
  isSo: (starts: readonly number[]) => boolean;
  text: (columns: string, share: number) => string;
}[] = [
  {
    isSo: (starts) => starts.every((share) => Math.abs(share) < FAINT),
    text: (columns, share) =>
      `${ofStarts(columns, share)} ${FAINT_UNITS[tensOf(share)] ?? DEAD} ${CURE} ` +
      'Until then stalls, heat and findings go unseen.',
  },
  {
    isSo: (starts) => 2 * starts.filter((share) => Math.abs(share) > FIERCE).length > starts.length,
    text: (columns, share) =>
      `${ofStarts(columns, share)} ${FIERCE_UNITS[tensOf(share)] ?? FIERCE_UNITS[3]} ${CURE} ` +
      'Until then stalls, heat and findings are told falsely.',
  },
  {
    isSo: (starts) => starts.every((share) => share < -FAINT),
    text: (columns) =>
      `${columns}: in every start from rest they flow against the drive. Is the sensor turned ` +
      'round? Turn the sign in the hub’s port, or import the log with "negate".',
  },
];

const CURE = 'Import the log with its unit, or mend the hub’s port or vehicle.ts.';
/** By how many powers of ten the log is too small, and too large. */
const FAINT_UNITS = ['', 'Is it in 10 mA?', 'Is it in 0.1 A?', 'Is it in A?'];
const FIERCE_UNITS = ['', 'Is it in 0.1 mA?', 'Is it in 0.01 mA?', 'Is it in µA?'];
const DEAD = 'Is it in A, or is no sensor connected?';

function tensOf(share: number): number {
  return Math.round(Math.abs(Math.log10(Math.abs(share) / USUAL)));
}

function ofStarts(columns: string, share: number): string {
  const percent = Number((100 * share).toPrecision(2));
  return (
    `${columns}: in starts from rest ${percent} % of battery voltage over motor.resistanceOhm, ` +
    'expected 30 to 100 %.'
  );
}

const VOLTS: Readonly<Record<number, string>> = { [-1]: '0.1 mV', 1: '10 mV', 2: '0.1 V', 3: 'V' };

function supplyTexts(seen: { least: number; most: number }, nominal: number): string[] {
  const { least, most } = seen;
  if (least > most) return [];
  const isLow = most < FLAT * nominal;
  if (!isLow && least < OVERCHARGED * nominal) return [];
  const found = isLow ? `never more than ${most} mV` : `never less than ${least} mV`;
  const tens = Math.round(Math.log10(nominal / (isLow ? most : least)));
  const unit = VOLTS[tens];
  const question = unit === undefined ? '' : ` Is it in ${unit}?`;
  return [
    `battery_mv is ${found}, and battery.openCircuitV ${nominal / 1000} V.${question} ${CURE}`,
  ];
}
