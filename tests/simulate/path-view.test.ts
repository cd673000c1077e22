import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gripClass } from '../../harness/report/draw-vehicle.ts';
import { pathFrame } from '../../harness/report/path-frame.ts';
import { pathMoments } from '../../harness/report/path-moments.ts';
import { pathSection } from '../../harness/report/section-path.ts';
import { circleView, pathView } from './sample-path.ts';

const coordinate = fc.double({ min: -50, max: 50, noNaN: true });
const way = fc.array(fc.tuple(coordinate, coordinate), { minLength: 1, maxLength: 60 });

describe('the picture from above', () => {
  test('has equal axes, holds every point, and is neither a ribbon nor a tower', () => {
    fc.assert(
      fc.property(way, (points) => {
        const frame = pathFrame(pathView([{ points }]));
        const { width, height, scale } = frame;
        expect(frame.x(3) - frame.x(2)).toBeCloseTo(scale, 6);
        expect(frame.y(2) - frame.y(3)).toBeCloseTo(scale, 6);
        expect(width / height).toBeGreaterThan(0.79);
        expect(width / height).toBeLessThan(4.3);
        for (const [x, y] of points) {
          expect(frame.x(x)).toBeGreaterThanOrEqual(0);
          expect(frame.x(x)).toBeLessThanOrEqual(width);
          expect(frame.y(y)).toBeGreaterThanOrEqual(-0.5);
          expect(frame.y(y)).toBeLessThanOrEqual(height + 0.5);
        }
      }),
    );
  });

  test('the same way somewhere else, or mirrored, looks the same', () => {
    fc.assert(
      fc.property(way, coordinate, (points, by) => {
        const plain = pathFrame(pathView([{ points }]));
        const moved = pathFrame(pathView([{ points: points.map(([x, y]) => [x + by, y]) }]));
        const mirrored = pathFrame(pathView([{ points: points.map(([x, y]) => [x, -y]) }]));
        for (const other of [moved, mirrored]) {
          expect(other.scale).toBeCloseTo(plain.scale, 6);
          expect(other.height).toBe(plain.height);
          expect(other.enlarged).toBe(plain.enlarged);
        }
      }),
    );
  });

  test('a vehicle too small to see is drawn larger, the caption says so; never on a course', () => {
    const points: [number, number][] = [
      [0, 0],
      [40, 0],
    ];
    const view = pathView([{ points }]);
    expect(pathFrame(view).enlarged).toBeGreaterThan(3);
    expect(pathSection(view)).toMatch(/drawn \d+ times its size/);
    const gates = [{ fromX: 5, toX: 6, right: -0.2, left: 0.2 }];
    expect(pathFrame({ ...view, gates }).enlarged).toBe(1);
    expect(pathSection({ ...view, gates })).toContain('true to scale');
  });

  test('vehicles stand at equal times, from the start of the manoeuvre to the very end', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 30, max: 900 }),
        fc.integer({ min: 1, max: 3 }),
        (count, drives) => {
          const view = circleView(count, drives);
          const { at, stepS } = pathMoments(view, pathFrame(view));
          expect(at).toHaveLength(drives);
          at.forEach((moments, d) => {
            const { t } = view.drives[d]!;
            expect(t[moments[0]!]).toBe(0);
            expect(moments.at(-1)).toBe(t.length - 1);
            expect(moments.length).toBeLessThanOrEqual(22);
            moments.slice(1, -1).forEach((sample) => {
              const steps = t[sample]! / stepS;
              expect(Math.abs(steps - Math.round(steps)) * stepS).toBeLessThan(0.0101);
            });
          });
        },
      ),
    );
  });

  test('wheels are told apart by the slip of best grip', () => {
    expect([0, 0.7, 0.71, 1, 1.01, 20].map(gripClass)).toEqual([
      'grips',
      'grips',
      'near',
      'near',
      'slides',
      'slides',
    ]);
    const html = pathSection(circleView(200, 1));
    expect(html).toContain('class="slides" x=');
    expect(html).toContain('class="grips" x=');
    // Only the rear left wheel of the sample slides, and leaves one unbroken mark.
    const [, rubber] = /class="rubber" d="([^"]*)"/.exec(html)!;
    expect(rubber!.match(/M/g)).toHaveLength(1);
  });

  test('names are only names', () => {
    const view = circleView(100, 2);
    view.drives[0]!.name = '<b onclick="x">&';
    const html = pathSection(view);
    expect(html).not.toContain('<b onclick');
    expect(html).toContain('&lt;b onclick=&quot;x&quot;&gt;&amp;');
  });

  test('a drive without a sample is an empty floor', () => {
    expect(pathSection(pathView([{ points: [] }]))).toContain('<svg class="floor"');
  });

  test('the floor’s halves, its slope and the course are drawn and named', () => {
    const view = circleView(100, 1);
    const html = pathSection({
      ...view,
      patches: [{ fromX: -Infinity, toX: Infinity, fromY: -Infinity, toY: 0, name: 'wet strip' }],
      gates: [{ fromX: 0, toX: 1, right: -Infinity, left: 0.5 }],
      notes: ['The floor rises by 10 %, to the right.'],
    });
    expect(html).toContain('wet strip');
    expect(html).toContain('edge of the course');
    expect(html).toContain('The floor rises by 10 %');
    // One line of the two, and its sign in the key.
    expect(html.match(/class="gate" d="M/g)).toHaveLength(2);
    expect(html).not.toMatch(/NaN|Infinity/);
  });
});
