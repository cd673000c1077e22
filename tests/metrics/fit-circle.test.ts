import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitCircle } from '../../harness/metrics/fit-circle.ts';
import { fitLine } from '../../harness/metrics/fit-line.ts';

const metres = fc.double({ min: -50, max: 50, noNaN: true });
const angle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });

function arc(x: number, y: number, radius: number, from: number, length: number, count: number) {
  const at = (i: number) => from + (length * i) / (count - 1);
  return {
    xs: Array.from({ length: count }, (_, i) => x + radius * Math.cos(at(i))),
    ys: Array.from({ length: count }, (_, i) => y + radius * Math.sin(at(i))),
  };
}

describe('the circle that fits best', () => {
  test('is the circle itself, wherever it lies and however much of it is driven', () => {
    fc.assert(
      fc.property(
        metres,
        metres,
        fc.double({ min: 0.05, max: 20, noNaN: true }),
        angle,
        fc.double({ min: 0.2, max: 40, noNaN: true }),
        (x, y, radius, from, length) => {
          const { xs, ys } = arc(x, y, radius, from, length, 60);
          const found = fitCircle(xs, ys, { from: 0, to: 60 })!;
          expect(Math.abs(found / radius - 1)).toBeLessThan(1e-6);
        },
      ),
    );
  });

  test('has no radius on a straight line of any direction', () => {
    fc.assert(
      fc.property(metres, metres, angle, (x, y, direction) => {
        const at = (i: number) => i * 0.01;
        const xs = Array.from({ length: 50 }, (_, i) => x + at(i) * Math.cos(direction));
        const ys = Array.from({ length: 50 }, (_, i) => y + at(i) * Math.sin(direction));
        expect(fitCircle(xs, ys, { from: 0, to: 50 })).toBe(Infinity);
      }),
    );
  });

  test('is not to be had from two points or from one place', () => {
    expect(fitCircle([0, 1], [0, 1], { from: 0, to: 2 })).toBeUndefined();
    expect(fitCircle([1, 1, 1], [2, 2, 2], { from: 0, to: 3 })).toBeUndefined();
  });

  test('only looks at the samples it is told to', () => {
    const { xs, ys } = arc(0, 0, 2, 0, 3, 20);
    expect(fitCircle([99, ...xs, 99], [99, ...ys, -99], { from: 1, to: 21 })).toBeCloseTo(2, 9);
  });

  test('evens out points beside the circle: ±1 % noise on radius 2 leaves it within 1 %', () => {
    const { xs, ys } = arc(0, 0, 2, 0, 5, 200);
    const off = (value: number, i: number) => value * (1 + (i % 2 === 0 ? 0.01 : -0.01));
    const found = fitCircle(xs.map(off), ys.map(off), { from: 0, to: 200 })!;
    expect(Math.abs(found / 2 - 1)).toBeLessThan(0.01);
  });
});

describe('the line that fits best', () => {
  test('is the line itself', () => {
    const x = [0, 1, 4, 9];
    const { offset, slope } = fitLine(
      x,
      x.map((value) => 3 - 0.5 * value),
    );
    expect(offset).toBeCloseTo(3, 12);
    expect(slope).toBeCloseTo(-0.5, 12);
  });

  test('is that of least squares: closed form of four points', () => {
    // x mean 1.5, y mean 1.75; slope = sum (x - 1.5)(y - 1.75) / sum (x - 1.5)² = 4.5 / 5.
    const { offset, slope } = fitLine([0, 1, 2, 3], [0, 2, 2, 3]);
    expect(slope).toBeCloseTo(0.9, 12);
    expect(offset).toBeCloseTo(1.75 - 0.9 * 1.5, 12);
  });
});
