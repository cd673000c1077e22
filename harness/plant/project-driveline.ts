import type { Driveline } from './driveline.ts';
import type { Fault } from './fault.ts';
import { invert, type Matrix, multiply, transpose } from './linear-algebra.ts';

/** Number of speeds: four wheels, four motors, four shafts that may slip out of their wheels. */
export const SPEEDS = 12;
/** Number of those on which torques act: wheels and motors. */
export const TORQUES = 8;

/** Inertias of what turns, kg m². */
export interface Inertias {
  /** Each of the four wheels. */
  wheels: readonly number[];
  /** Rotor of each motor. */
  motors: readonly number[];
}

/** A driveline in one state of repair. */
export interface Projection {
  /**
   * Accelerations of the speeds [wheels, motors, shafts] under torques on them: SPEEDS x SPEEDS,
   * rad/s² per N m. The part over the wheels is P.
   */
  response: Matrix;
  /** Speeds that the constraints allow, nearest in kinetic energy to the given ones; same shape. */
  admit: Matrix;
  /** Moment of inertia of each speed for its kinetic energy; 0 for shafts that have not slipped. */
  inertia: number[];
  /** Names of constraints that follow from the others. */
  redundant: string[];
  /** Which shafts have slipped out of their wheels. */
  slipped: boolean[];
}

/**
 * The constant matrices of a driveline.
 *
 * With coordinates c (the four wheels, and what has come apart from them), M = J + G'JmG and
 * constraints A c = 0: c' = P tau, P = M^-1 - M^-1 A'(A M^-1 A')^-1 A M^-1; the speeds are B c and
 * torques act on c through B', so the response is B P B'. Every fault is other rows of A and G.
 */
export function projectDriveline(
  driveline: Driveline,
  inertias: Inertias,
  faults: readonly Fault[] = [],
): Readonly<Projection> {
  // Drives by the thousand ask for the same few, and each costs as much as 0.2 s of driving.
  const key = JSON.stringify([driveline, inertias, faults]);
  const known = SEEN.get(key);
  if (known !== undefined) return known;
  if (SEEN.size >= MOST_SEEN) SEEN.clear();
  const projection = computeProjection(driveline, inertias, faults);
  SEEN.set(key, projection);
  return projection;
}

const SEEN = new Map<string, Projection>();
const MOST_SEEN = 64;

function computeProjection(
  driveline: Driveline,
  inertias: Inertias,
  faults: readonly Fault[],
): Projection {
  const parts = takeApart(driveline, faults);
  const floor = Math.min(...inertias.wheels) / 1000;
  const own = inertias.wheels.map((value, i) => {
    if (parts.lost[i]) return driveline.shaftInertia;
    // What is left on the shaft turned with the wheel until it slipped.
    return parts.shafts[i] === i ? value : value - driveline.shaftInertia;
  });
  const diagonal = Array.from({ length: parts.size }, (_, i) => {
    if (i < 4) return own[i]!;
    return parts.shafts.includes(i) ? driveline.shaftInertia : 0;
  });
  const rotors = inertias.motors.map((value, m) =>
    parts.free[m] ? Math.max(value, floor) : value,
  );
  const mass = diagonal.map((value, i) =>
    diagonal.map((_, j) =>
      parts.motors.reduce(
        (sum, row, m) => sum + row[i]! * rotors[m]! * row[j]!,
        i === j ? value : 0,
      ),
    ),
  );
  const inverse = invert(mass);
  const { rows, redundant } = independent(parts.constraints, inverse);
  const projector = project(inverse, rows);
  const speeds = speedRows(parts);
  return {
    response: mirrorable(multiply(multiply(speeds, projector), transpose(speeds))),
    admit: mirrorable(multiply(multiply(speeds, multiply(projector, mass)), coordinates(parts))),
    inertia: [...own, ...four(rotors), ...parts.shafts.map((i) => (i < 4 ? 0 : diagonal[i]!))],
    redundant,
    slipped: parts.shafts.map((i) => i >= 4),
  };
}

/** P = W - W A'(A W A')^-1 A W, W = M^-1. */
function project(inverse: Matrix, rows: Matrix): Matrix {
  if (rows.length === 0) return inverse;
  const wa = multiply(inverse, transpose(rows));
  const correction = multiply(multiply(wa, invert(multiply(rows, wa))), transpose(wa));
  return inverse.map((row, i) => row.map((value, j) => value - correction[i]![j]!));
}

/** The driveline with its faults, over coordinates of which the first four are the wheels. */
interface Parts {
  size: number;
  /** Coordinate of each wheel's shaft: the wheel itself, or one of its own. */
  shafts: number[];
  lost: boolean[];
  free: boolean[];
  motors: Matrix;
  constraints: { name: string; row: number[] }[];
}

function takeApart(driveline: Driveline, faults: readonly Fault[]): Parts {
  const wheels = [0, 1, 2, 3];
  const has = (kind: Fault['kind'], index: number) =>
    faults.some((fault) => {
      if (fault.kind !== kind) return false;
      return (
        ('wheel' in fault && fault.wheel === index) || ('motor' in fault && fault.motor === index)
      );
    });
  let size = 4;
  const shafts = wheels.map((i) => (has('slippedShaft', i) ? size++ : i));
  const free = driveline.motors.map((_, m) => has('slippedPinion', m));
  const own = free.map((isFree) => (isFree ? size++ : -1));
  const spread = (row: readonly number[]) => {
    const wide = new Array<number>(size).fill(0);
    for (const i of wheels) wide[shafts[i]!]! += row[i]!;
    return wide;
  };
  const unit = (column: number) => Array.from({ length: size }, (_, i) => (i === column ? 1 : 0));
  const kept = driveline.constraints.filter(
    ({ name }) => !faults.some((f) => f.kind === 'lostDrive' && f.constraint === name),
  );
  const jams = wheels.filter((i) => has('jammedWheel', i));
  return {
    size,
    shafts,
    free,
    lost: wheels.map((i) => has('lostWheel', i)),
    motors: driveline.motors.map((row, m) => (own[m]! < 0 ? spread(row) : unit(own[m]!))),
    constraints: [
      ...jams.map((i) => ({ name: `jammedWheel ${i}`, row: unit(i) })),
      ...kept.map(({ name, row }) => ({ name, row: spread(row) })),
    ],
  };
}

/** Rows of B: each speed over the coordinates; zero for motors that are not there. */
function speedRows({ size, shafts, motors }: Parts): Matrix {
  const unit = (column: number) => Array.from({ length: size }, (_, i) => (i === column ? 1 : 0));
  const none = new Array<number>(size).fill(0);
  return [
    ...[0, 1, 2, 3].map(unit),
    ...[0, 1, 2, 3].map((m) => motors[m] ?? none),
    ...shafts.map(unit),
  ];
}

/** Each coordinate read back from the speeds. */
function coordinates({ size, shafts, motors, free }: Parts): Matrix {
  const unit = (column: number) => Array.from({ length: SPEEDS }, (_, i) => (i === column ? 1 : 0));
  return Array.from({ length: size }, (_, i) => {
    if (i < 4) return unit(i);
    if (shafts.includes(i)) return unit(8 + shafts.indexOf(i));
    const motor = motors.findIndex((row, m) => free[m] && row[i] === 1);
    return unit(4 + motor);
  });
}

/** Leaves out constraints that follow from those before them (Gram-Schmidt in the metric M^-1). */
function independent(constraints: Parts['constraints'], inverse: Matrix) {
  const rows: Matrix = [];
  const redundant: string[] = [];
  for (const { name, row } of constraints) {
    const rest = multiply([row], project(inverse, rows));
    const left = multiply(rest, transpose([row]))[0]![0]!;
    const whole = multiply(multiply([row], inverse), transpose([row]))[0]![0]!;
    if (left > 1e-9 * whole) rows.push(row);
    else redundant.push(name);
  }
  return { rows, redundant };
}

/**
 * A matrix over speeds that is the same for a vehicle and its mirror image, but for rounding, made
 * exactly so: then mirrored inputs give mirrored paths to the last bit.
 */
function mirrorable(matrix: Matrix): Matrix {
  const mirrors = [
    (i: number) => i ^ 1,
    // Motors that drive both sides are their own mirror image.
    (i: number) => (i >= 4 && i < 8 ? i : i ^ 1),
  ];
  const scale = Math.max(...matrix.flat().map(Math.abs));
  const clean = matrix.map((row) =>
    row.map((value) => (Math.abs(value) <= 1e-13 * scale ? 0 : value)),
  );
  for (const mirror of mirrors) {
    const other = clean.map((row, i) => row.map((_, j) => clean[mirror(i)]?.[mirror(j)] ?? 0));
    const isMirrored = clean.every((row, i) =>
      row.every((value, j) => Math.abs(value - other[i]![j]!) <= 1e-12 * scale),
    );
    if (isMirrored)
      return clean.map((row, i) => row.map((value, j) => (value + other[i]![j]!) / 2));
  }
  return clean;
}

function four(values: readonly number[]): number[] {
  return [0, 1, 2, 3].map((i) => values[i] ?? 0);
}
