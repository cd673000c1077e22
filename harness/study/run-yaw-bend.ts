import { type Constants, S } from '../../lib/index.ts';
import type { ManoeuvreCar } from '../manoeuvres/manoeuvre.ts';
import { createDrive } from '../metrics/drive.ts';
import { findBalance } from '../metrics/find-balance.ts';
import { DEGREES } from '../metrics/metric-definition.ts';
import { Out, outputWidth } from '../replay/row-layout.ts';
import type { Garage } from '../setup/load-garage.ts';
import { planInGarage } from '../simulate/plan-simulation.ts';
import { type SimulationResult, simulate } from '../simulate/simulate.ts';
import { changeSetups } from './change-setups.ts';
import { FRICTIONS, type YawBend } from './plan-yaw-drives.ts';

/** What a drive showed; angles in degrees. */
export interface YawDrive {
  friction: number;
  /** Undefined if the vehicle never took a bend. */
  balance: number | undefined;
  /** Greatest, from the action on. */
  sideslip: number;
  /** At the action, m/s. */
  speed: number;
  /** Deepest change of the cut, permille, and share of the time under a doubted gyro. */
  deepest: number;
  /** Whether the drive came to its end. */
  isWhole: boolean;
}

/** What became of a gyro that stuck. */
interface StuckDrive {
  atS: number;
  friction: number;
  /** Change of the cut in the tick before, permille. */
  before: number;
  /** Greatest change of the cut from 300 ms after it on, permille. */
  after: number;
  /** Greatest difference of the cut to the drive without yaw assist, from then on, permille. */
  difference: number;
}

/** A bend with and without yaw assist, by friction, and with a gyro that sticks. */
export interface YawResult {
  bend: YawBend;
  without: YawDrive[];
  with: YawDrive[];
  stuck: StuckDrive | undefined;
}

/** Time in which all is to be as without yaw assist, s; a tick may be late. */
const FADED_S = 0.3;

/** Drives a bend with the setup as it is and with its yaw assist switched off. */
export function runYawBend(garage: Garage, bend: YawBend): YawResult {
  const drives = FRICTIONS.map((friction) => {
    const plan = planFor(garage, bend, friction);
    const { constants } = plan.setups[0]!;
    const drive = (own: Constants) =>
      judge(
        bend,
        friction,
        plan.car,
        simulate({ ...plan, constants: own, manoeuvre: bend.manoeuvre }),
      );
    return { without: drive(withoutAssist(constants)), own: drive(constants) };
  });
  return {
    bend,
    without: drives.map(({ without }) => without),
    with: drives.map(({ own }) => own),
    stuck: bend.part === 'power' ? driveStuck(garage, bend) : undefined,
  };
}

function planFor(garage: Garage, { setup, variation, seed }: YawBend, friction: number) {
  // Any manoeuvre will do: the bend's own takes its place.
  return planInGarage(garage, { setup: [setup], seed, variation: { ...variation, friction } });
}

function judge(
  bend: YawBend,
  friction: number,
  car: ManoeuvreCar,
  { trace, rows, divergence }: SimulationResult,
): YawDrive {
  const drive = createDrive(trace, bend.manoeuvre, car);
  const balance = findBalance(drive);
  let sideslip = 0;
  for (let i = drive.after.from; i < drive.after.to; i++) {
    sideslip = Math.max(sideslip, Math.abs(drive.sideslip[i]!));
  }
  let deepest = 0;
  for (let i = 0; i < rows.count; i++) deepest = Math.min(deepest, valueAt(rows, i, Out.ASSIST));
  return {
    friction,
    balance: balance === undefined ? undefined : balance * DEGREES,
    sideslip: sideslip * DEGREES,
    speed: Math.abs(trace.speed[Math.min(drive.after.from, trace.count - 1)]!),
    deepest,
    isWhole: divergence === undefined,
  };
}

function driveStuck(garage: Garage, bend: YawBend): StuckDrive {
  const friction = bend.stuckFriction;
  const plan = planFor(garage, bend, friction);
  const constants = plan.setups[0]!.constants;
  const { manoeuvre } = bend;
  const atS = bend.stuckAt * manoeuvre.durationS(plan.car);
  const faults = [
    { fault: { kind: 'frozenSensor', sensor: 'gyro' } as const, fromS: atS, toS: Infinity },
  ];
  const stuck = simulate({ ...plan, constants, manoeuvre, faults });
  const without = simulate({ ...plan, constants: withoutAssist(constants), manoeuvre });
  let before = 0;
  let after = 0;
  let difference = 0;
  const count = Math.min(stuck.rows.count, without.rows.count);
  for (let i = 0; i < count; i++) {
    const t = stuck.trace.t[i]!;
    const assist = valueAt(stuck.rows, i, Out.ASSIST);
    if (t < atS) before = assist;
    if (t <= atS + FADED_S) continue;
    const cut = valueAt(stuck.rows, i, Out.CUT) - valueAt(without.rows, i, Out.CUT);
    after = Math.max(after, Math.abs(assist));
    difference = Math.max(difference, Math.abs(cut));
  }
  return { atS, friction, before, after, difference };
}

function valueAt({ outputs, motors }: SimulationResult['rows'], tick: number, column: Out): number {
  return outputs[tick * outputWidth(motors) + column]!;
}

function withoutAssist(constants: Constants): Constants {
  return changeSetups(constants, (setup) => {
    setup[S.YAW_AUTHORITY] = 0;
  });
}
