import * as fc from 'fast-check';
import { Matrix, solve } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import {
  axlePair,
  type Driveline,
  fourMotors,
  rearPair,
  singleMotor,
  tracked,
} from '../../harness/plant/driveline.ts';
import type { Fault } from '../../harness/plant/fault.ts';
import { projectDriveline } from '../../harness/plant/project-driveline.ts';

const shaftInertia = 1e-6;
const ratio = fc.double({ min: 0.5, max: 20, noNaN: true });
const torque = fc.double({ min: -1, max: 1, noNaN: true });
const inertia = fc.double({ min: 1e-6, max: 1e-3, noNaN: true });

const layout: fc.Arbitrary<Driveline> = ratio
  .chain((turns) =>
    fc.constantFrom(
      singleMotor('rear', 'open', turns),
      singleMotor('front', 'locked', turns),
      singleMotor('all', 'open', turns),
      singleMotor('all', 'locked', turns),
      rearPair('none', turns),
      rearPair('averaged', turns),
      axlePair(turns),
      fourMotors(turns),
      tracked(turns),
    ),
  )
  .map((driveline) => ({ ...driveline, shaftInertia }));

/** Any rows at all, as long as they leave the wheels some freedom. */
const anyDriveline: fc.Arbitrary<Driveline> = fc
  .record({
    motors: fc.array(fc.array(torque, { minLength: 4, maxLength: 4 }), {
      minLength: 1,
      maxLength: 4,
    }),
    rows: fc.array(fc.array(torque, { minLength: 4, maxLength: 4 }), { maxLength: 3 }),
  })
  .map(({ motors, rows }) => ({
    motors,
    constraints: rows.map((row, i) => ({ name: `c${i}`, row })),
    shaftInertia,
  }));

const wheels = fc.array(inertia, { minLength: 4, maxLength: 4 });
const torques = fc.array(torque, { minLength: 4, maxLength: 4 });

/**
 * The equations of motion as one system in accelerations, inner torques of the gears and forces of
 * constraint, over wheels and motors as separate bodies; solved by LU with pivoting.
 */
function generalSolve(
  { motors, constraints }: Driveline,
  wheelInertia: number[],
  motorInertia: number[],
  wheelTorque: number[],
  motorTorque: number[],
): number[] {
  const bodies = 4 + motors.length;
  const rows = [
    ...motors.map((turns, m) => [...turns, ...motors.map((_, k) => (k === m ? -1 : 0))]),
    ...constraints.map(({ row }) => [...row, ...motors.map(() => 0)]),
  ];
  const size = bodies + rows.length;
  const system = Matrix.zeros(size, size);
  for (const [i, value] of [...wheelInertia, ...motorInertia].entries()) system.set(i, i, value);
  for (const [k, row] of rows.entries()) {
    for (const [i, value] of row.entries()) {
      system.set(bodies + k, i, value);
      system.set(i, bodies + k, value);
    }
  }
  const right = [...wheelTorque, ...motorTorque, ...rows.map(() => 0)];
  return solve(system, Matrix.columnVector(right)).getColumn(0).slice(0, bodies);
}

function response(
  driveline: Driveline,
  wheelInertia: number[],
  motorInertia: number[],
  faults: Fault[] = [],
) {
  const projection = projectDriveline(
    driveline,
    { wheels: wheelInertia, motors: motorInertia },
    faults,
  );
  const accelerate = (wheelTorque: number[], motorTorque: number[]) =>
    projection.response.map((row) =>
      row.reduce(
        (sum, value, j) => sum + value * (j < 4 ? wheelTorque[j]! : (motorTorque[j - 4] ?? 0)),
        0,
      ),
    );
  return { ...projection, accelerate };
}

describe('the projector P', () => {
  test.each([
    ['every layout', layout],
    ['any rows at all', anyDriveline],
  ])(
    'gives the accelerations of a general constrained solve (ml-matrix, LU): %s',
    (_, drivelines) => {
      fc.assert(
        fc.property(drivelines, wheels, wheels, torques, torques, (driveline, jw, jm, tw, tm) => {
          const rotors = jm.slice(0, driveline.motors.length);
          const { accelerate, redundant } = response(driveline, jw, rotors);
          fc.pre(redundant.length === 0 && isWellPosed(driveline));
          const motorTorque = tm.slice(0, driveline.motors.length);
          const expected = generalSolve(driveline, jw, rotors, tw, motorTorque);
          const found = accelerate(tw, motorTorque);
          const scale = Math.max(...expected.map(Math.abs), 1);
          for (const [i, value] of expected.entries())
            expect(Math.abs(found[i]! - value)).toBeLessThan(1e-6 * scale);
        }),
      );
    },
  );

  test('is M^-1 - M^-1 A^T (A M^-1 A^T)^-1 A M^-1 with M = J + G^T Jm G, as designed', () => {
    const driveline = { ...rearPair('averaged', 4), shaftInertia };
    const jw = [2e-5, 3e-5, 2e-5, 1e-5];
    const g = new Matrix(driveline.motors);
    const a = new Matrix(driveline.constraints.map(({ row }) => row));
    const m = Matrix.diag(jw).add(g.transpose().mmul(g).mul(1e-6));
    const w = solve(m, Matrix.eye(4));
    const wa = w.mmul(a.transpose());
    const p = Matrix.sub(w, wa.mmul(solve(a.mmul(wa), Matrix.eye(1))).mmul(wa.transpose()));
    const { response: found } = response(driveline, jw, [1e-6, 1e-6]);
    for (let i = 0; i < 4; i++)
      for (let j = 0; j < 4; j++)
        expect(found[i]![j]! / p.get(0, 0)).toBeCloseTo(p.get(i, j) / p.get(0, 0), 12);
  });
});

/** Not so near to dependent rows that the two solutions differ by rounding. */
function isWellPosed({ motors, constraints }: Driveline): boolean {
  const rows = constraints.map(({ row }) => row);
  if (rows.length === 0) return motors.length > 0;
  const a = new Matrix(rows);
  const gram = a.mmul(a.transpose());
  const volume = rows.length === 1 ? gram.get(0, 0) : determinant(gram);
  return volume > 1e-4;
}

function determinant(matrix: Matrix): number {
  if (matrix.rows === 1) return matrix.get(0, 0);
  return matrix.getRow(0).reduce((sum, value, j) => {
    const minor = matrix.subMatrixColumn(
      Array.from({ length: matrix.columns }, (_, k) => k).filter((k) => k !== j),
      1,
      matrix.rows - 1,
    );
    return sum + (j % 2 === 0 ? 1 : -1) * value * determinant(minor);
  }, 0);
}

describe('what a driveline shares', () => {
  const jw = [3e-5, 3e-5, 2e-5, 2e-5];

  test('an open differential gives both wheels the same torque, whatever they do', () => {
    fc.assert(
      fc.property(ratio, torques, torque, (turns, tw, tm) => {
        const driveline = { ...singleMotor('rear', 'open', turns), shaftInertia };
        const rates = response(driveline, jw, [1e-6]).accelerate(tw, [tm]);
        const shafts = [0, 1].map((i) => jw[i]! * rates[i]! - tw[i]!);
        expect(shafts[0]!).toBeCloseTo(shafts[1]!, 10);
      }),
    );
  });

  test('a locked axle turns both wheels at the same rate', () => {
    fc.assert(
      fc.property(ratio, torques, torque, (turns, tw, tm) => {
        const driveline = { ...singleMotor('rear', 'locked', turns), shaftInertia };
        const rates = response(driveline, jw, [1e-6]).accelerate(tw, [tm]);
        expect(rates[0]! - rates[1]!).toBeCloseTo(0, 6);
        expect(rates[2]!).toBeCloseTo(tw[2]! / jw[2]!, 6);
      }),
    );
  });

  test('the mean front speed follows the mean of the rears where the front is averaged', () => {
    fc.assert(
      fc.property(ratio, torques, torques, (turns, tw, tm) => {
        const driveline = { ...rearPair('averaged', turns), shaftInertia };
        const rates = response(driveline, jw, [1e-6, 1e-6]).accelerate(tw, tm);
        expect((rates[2]! + rates[3]!) / 2 / 1e4).toBeCloseTo((rates[0]! + rates[1]!) / 2 / 1e4, 9);
        expect(rates[4]! / 1e4).toBeCloseTo((turns * rates[0]!) / 1e4, 9);
      }),
    );
  });
});

describe('faults are other matrices', () => {
  const jw = [3e-5, 3e-5, 2e-5, 2e-5];
  const driveline = { ...rearPair('averaged', 4), shaftInertia };
  const after = (faults: Fault[], tw: number[], tm: number[]) =>
    response(driveline, jw, [1e-6, 1e-6], faults).accelerate(tw, tm);

  test('a slipped rear shaft: the wheel rolls free, the motor turns what is left', () => {
    const rates = after([{ kind: 'slippedShaft', wheel: 0 }], [0.01, 0, 0, 0], [0, 0]);
    expect(rates[0]).toBeCloseTo(0.01 / (3e-5 - shaftInertia), 6);
    expect(rates.slice(1, 8).every((rate) => rate === 0)).toBe(true);
    const driven = after([{ kind: 'slippedShaft', wheel: 0 }], [0, 0, 0, 0], [0.01, 0]);
    expect(driven[0]).toBe(0);
    expect(driven[4]! / (4 * driven[8]!)).toBeCloseTo(1, 12);
  });

  test('a slipped front shaft takes the torque off both front wheels', () => {
    // An open differential gives no more torque than its lighter side takes: the stub's inertia.
    const intact = after([], [0, 0, 0, 0], [0.01, 0.01]);
    const rates = after([{ kind: 'slippedShaft', wheel: 2 }], [0, 0, 0, 0], [0.01, 0.01]);
    expect(rates[2]).toBe(0);
    expect(Math.abs(rates[3]!)).toBeLessThan(0.2 * intact[3]!);
    expect(rates[0]!).toBeGreaterThan(intact[0]!);
  });

  test('front drive lost: the front wheels roll free', () => {
    const rates = after(
      [{ kind: 'lostDrive', constraint: 'frontDrive' }],
      [0, 0, 0, 0],
      [0.01, 0.01],
    );
    expect(rates[2]).toBe(0);
    expect(rates[3]).toBe(0);
    expect(rates[0]).toBeCloseTo(0.04 / (3e-5 + 16e-6), 6);
  });

  test('a slipped pinion: the motor turns on its own', () => {
    const rates = after([{ kind: 'slippedPinion', motor: 0 }], [0, 0, 0, 0], [0.001, 0]);
    expect(rates[4]).toBeCloseTo(0.001 / 1e-6, 3);
    expect(rates[0]).toBe(0);
  });

  test('a jammed wheel stands still, and its motor with it', () => {
    const rates = after([{ kind: 'jammedWheel', wheel: 1 }], [0, 0.5, 0, 0], [0, 0.5]);
    expect(rates[1]! / 1e4).toBeCloseTo(0, 12);
    expect(rates[5]! / 1e4).toBeCloseTo(0, 12);
  });

  test('a lost wheel leaves the inertia of its stub', () => {
    const rates = after(
      [
        { kind: 'lostWheel', wheel: 0 },
        { kind: 'lostDrive', constraint: 'frontDrive' },
      ],
      [0, 0, 0, 0],
      [0.01, 0],
    );
    expect(rates[0]).toBeCloseTo(0.04 / (1e-6 + 16e-6), 6);
  });

  test('any faults together leave finite matrices that forget no constraint', () => {
    const fault = fc.oneof(
      fc.record({ kind: fc.constant('slippedShaft' as const), wheel: fc.nat(3) }),
      fc.record({ kind: fc.constant('jammedWheel' as const), wheel: fc.nat(3) }),
      fc.record({ kind: fc.constant('lostWheel' as const), wheel: fc.nat(3) }),
      fc.record({ kind: fc.constant('slippedPinion' as const), motor: fc.nat(1) }),
      fc.constant<Fault>({ kind: 'lostDrive', constraint: 'frontDrive' }),
    );
    fc.assert(
      fc.property(fc.array(fault, { maxLength: 6 }), torques, torques, (faults, tw, tm) => {
        const rates = after(faults, tw, tm);
        expect(rates.every(Number.isFinite)).toBe(true);
        for (const each of faults)
          if (each.kind === 'jammedWheel') expect(rates[each.wheel]! / 1e5).toBeCloseTo(0, 9);
      }),
    );
  });
});
