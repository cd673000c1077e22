import { Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { createMomentumDoubt } from '../../lib/momentum-doubt.ts';
import { createMomentumFit } from '../../lib/momentum-fit.ts';
import { SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';

const setup = setupOf({ name: 'a', surface: 'b' });
const { vehicle } = bake(vehicleOf(SAMPLES.hatch), [setup]);
const FORCES = [-3000, 0, 500, 2000, 6000];

/** A fit whose errors are the given ones, as after driving. */
function learnt(ratioError: number, dragError: number, correlation: number, of = vehicle) {
  const fit = createMomentumFit(of);
  const doubt = createMomentumDoubt(of, fit);
  const first = fit.ratioError;
  Object.assign(fit, {
    ratioError,
    dragError,
    ratios: ratioError ** 2,
    drags: dragError ** 2,
    both: correlation * ratioError * dragError,
  });
  // The root of the variance comes nearer with each tick.
  const settled = (f: number) => {
    for (let i = 0; i < 40; i++) doubt.run(f);
    return doubt.run(f);
  };
  return { settled, first };
}

describe('what the gain of speed may be wrong by', () => {
  test.each([-0.5, 0, 0.9])('is the standard deviation of r f - a by ml-matrix, %d', (both) => {
    const [ratioError, dragError] = [0.06, 120];
    const { settled, first } = learnt(ratioError, dragError, both);
    const covariance = new Matrix([
      [ratioError ** 2, both * ratioError * dragError],
      [both * ratioError * dragError, dragError ** 2],
    ]);
    for (const f of FORCES) {
      const row = new Matrix([[f, -1]]);
      const variance = row.mmul(covariance).mmul(row.transpose()).get(0, 0);
      expect(settled(f)).toBeCloseTo(Math.sqrt(variance) * (1 + ratioError / first), 6);
    }
  });

  test('is less than half of both errors at a force at which they make up for each other', () => {
    const { settled, first } = learnt(0.06, 120, 0.9);
    expect(settled(2000)).toBeLessThan(0.5 * (0.06 * 2000 + 120) * (1 + 0.06 / first));
  });

  test('is never less than both errors on tracks, and on no vehicle a while after power-up', () => {
    const { vehicle: tracked } = bake(vehicleOf(SAMPLES.forwarder), [setup]);
    const { settled } = learnt(0.06, 120, 0.9, tracked);
    for (const f of FORCES) expect(settled(f)).toBeCloseTo(0.06 * Math.abs(f) + 120, 9);
    const fit = createMomentumFit(vehicle);
    const doubt = createMomentumDoubt(vehicle, fit);
    for (const f of FORCES) {
      for (let i = 0; i < 40; i++) doubt.run(f);
      expect(doubt.run(f)).toBeGreaterThan(fit.ratioError * Math.abs(f) + fit.dragError - 1e-6);
    }
  });

  test('stays a number, whatever the currents say', () => {
    for (const both of [0, 1.1]) {
      const { settled } = learnt(both / 10, 100 * both, both);
      for (const f of [0, 1e9, -1e9, 1e-9, 900, 1000]) {
        expect(settled(f)).toBeGreaterThanOrEqual(0);
        expect(Number.isFinite(settled(f))).toBe(true);
      }
    }
  });
});
