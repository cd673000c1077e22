import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BrushTyre } from '../../harness/plant/brush-tyre.ts';
import { MagicFormula, magicFormula } from '../../harness/plant/magic-formula.ts';
import tyre from './tyre.json' with { type: 'json' };

describe('Magic Formula (Bakker et al. 1987; Pacejka, Tyre and Vehicle Dynamics, eq. 4.49)', () => {
  test.each(tyre.magic_formula.hand_points)('hand point B $B, C $C, E $E, x $x', (point) => {
    const { B, C, D, E, x, y } = point;
    expect(D * magicFormula(B, C, E, x)).toBeCloseTo(y, 12);
  });

  // Table A3.1 of the same book's second edition: a passenger tyre's pure slip curves are this
  // curve with offsets; points computed from the book's equations and an independent
  // implementation.
  const points = tyre.passenger_tyre_A3_1.check_points;

  test.each(points)('passenger tyre along: kappa $kappa, Fz $Fz', ({ kappa, Fz, Fx0 }) => {
    expect(alongForce(kappa, Fz)).toBeCloseTo(Fx0, 6);
  });

  test.each(points)('passenger tyre across: alpha $alpha, Fz $Fz', ({ alpha, Fz, Fy0 }) => {
    // The source states its own agreement with the independent implementation: 0.0033 N.
    expect(Math.abs(acrossForce(alpha, Fz) - Fy0)).toBeLessThan(0.0033);
  });

  test('the plant’s table follows the formula within 1e-6 of the greatest force', () => {
    const slip = fc.double({ min: -8, max: 3, noNaN: true }).map((power) => 10 ** power);
    const shape = fc.record({
      b: fc.double({ min: 1, max: 40, noNaN: true }),
      c: fc.double({ min: 1, max: 2.5, noNaN: true }),
      // Nearer to 1 the curve's tail bends so late that it is off by up to 2e-5.
      e: fc.double({ min: -10, max: 0.9, noNaN: true }),
    });
    fc.assert(
      fc.property(shape, fc.array(slip, { minLength: 50, maxLength: 50 }), ({ b, c, e }, slips) => {
        const model = new MagicFormula(b, c, e);
        for (const s of slips)
          expect(Math.abs(model.force(s, 1, 1) - magicFormula(b, c, e, s))).toBeLessThan(1e-6);
      }),
    );
  });

  test('has its slip stiffness B C D at no slip and its greatest force at the peak slip', () => {
    const model = new MagicFormula(6, 1.3, 0.2);
    expect(model.force(1e-6, 0.5, 10) / 1e-6).toBeCloseTo(model.stiffness(0.5, 10), 4);
    const peak = model.peakSlip(0.5, 10);
    expect(model.force(peak, 0.5, 10)).toBeCloseTo(5, 10);
    expect(model.force(peak * 0.9, 0.5, 10)).toBeLessThan(5);
    expect(model.force(peak * 1.1, 0.5, 10)).toBeLessThan(5);
  });
});

describe('combined slip by similarity (normalised: F = F0(sigma) along sigma)', () => {
  const { B, C, D, E, Fz } = tyre.similarity_combined.parameters;

  test.each(tyre.similarity_combined.points)('kappa $kappa, alpha $alpha', (point) => {
    const sigmaX = point.kappa / (1 + point.kappa);
    const sigmaY = Math.tan(point.alpha) / (1 + point.kappa);
    const sigma = Math.hypot(sigmaX, sigmaY);
    const force = new MagicFormula(B, C, E).force(sigma, D, Fz);
    expect(sigma).toBeCloseTo(point.sigma, 12);
    expect((force * sigmaX) / sigma).toBeCloseTo(point.Fx, 6);
    expect((force * sigmaY) / sigma).toBeCloseTo(point.Fy, 6);
  });
});

describe('brush model (Pacejka ch. 3; same cubic: Fiala 1954; memory, derivation checked)', () => {
  const { C, mu, Fz, a, sigma_sl: sliding } = tyre.brush.parameters;
  const model = new BrushTyre(C, a);

  test.each(tyre.brush.points)('sigma $sigma_x, $sigma_y', (point) => {
    const sigma = Math.hypot(point.sigma_x, point.sigma_y);
    const force = model.force(sigma, mu, Fz);
    expect(force).toBeCloseTo(point.F, 12);
    expect((force * point.sigma_x) / sigma).toBeCloseTo(point.Fx, 12);
    expect((force * point.sigma_y) / sigma).toBeCloseTo(point.Fy, 12);
    expect(model.trail(sigma, mu, Fz)).toBeCloseTo(point.pneumatic_trail, 12);
  });

  test.each(tyre.brush.cubic_equivalence)('cubic at alpha $alpha', ({ alpha, F_cubic: cubic }) => {
    expect(model.force(Math.tan(alpha), mu, Fz)).toBeCloseTo(cubic, 12);
  });

  test('slides from 3 mu Fz / C on; its trail is a third of the half contact at no slip', () => {
    expect(model.peakSlip(mu, Fz)).toBeCloseTo(sliding, 12);
    expect(model.trail(1e-9, mu, Fz)).toBeCloseTo(a / 3, 9);
  });
});

const p = tyre.passenger_tyre_A3_1.coefficients;

/** Pure slip along the wheel, eqs 4.E9-4.E18 of the second edition, with our curve. */
function alongForce(kappa: number, load: number): number {
  const d = (load - p.Fz0) / p.Fz0;
  const greatest = (p.pDx1 + p.pDx2 * d) * load;
  const stiffness = load * (p.pKx1 + p.pKx2 * d) * Math.exp(p.pKx3 * d);
  const slip = kappa + p.pHx1 + p.pHx2 * d;
  const curvature = (p.pEx1 + p.pEx2 * d + p.pEx3 * d * d) * (1 - p.pEx4 * Math.sign(slip));
  const b = stiffness / (p.pCx1 * greatest);
  return greatest * magicFormula(b, p.pCx1, curvature, slip) + load * (p.pVx1 + p.pVx2 * d);
}

/** Pure slip across the wheel without camber, eqs 4.E19-4.E30 of the second edition. */
function acrossForce(alpha: number, load: number): number {
  const d = (load - p.Fz0) / p.Fz0;
  const greatest = (p.pDy1 + p.pDy2 * d) * load;
  const stiffness = p.pKy1 * p.Fz0 * Math.sin(p.pKy4 * Math.atan(load / (p.pKy2 * p.Fz0)));
  const slip = alpha + p.pHy1 + p.pHy2 * d;
  const curvature = (p.pEy1 + p.pEy2 * d) * (1 - p.pEy3 * Math.sign(slip));
  const b = stiffness / (p.pCy1 * greatest);
  return greatest * magicFormula(b, p.pCy1, curvature, slip) + load * (p.pVy1 + p.pVy2 * d);
}
