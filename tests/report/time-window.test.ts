import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createTimeWindow } from '../../harness/report/client/time-window.ts';

const act = fc.oneof(
  fc.record({
    kind: fc.constant('zoom' as const),
    by: fc.double({ min: 0.1, max: 10, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant('move' as const),
    by: fc.double({ min: -3, max: 3, noNaN: true }),
  }),
  fc.record({ kind: fc.constant('show' as const), by: fc.double() }),
  fc.record({ kind: fc.constant('reset' as const), by: fc.constant(0) }),
);

test('whatever is done, the window lies within the run and has a length', () => {
  fc.assert(
    fc.property(fc.array(act, { maxLength: 40 }), (acts) => {
      const view = createTimeWindow(5, 65);
      for (const { kind, by } of acts) {
        if (kind === 'zoom') view.zoom(by, view.fromS() + 0.3 * (view.toS() - view.fromS()));
        else if (kind === 'move') view.move(by);
        else if (kind === 'show') view.show(by, by + 1);
        else view.reset();
        expect(view.fromS()).toBeGreaterThanOrEqual(5);
        expect(view.toS()).toBeLessThanOrEqual(65 + 1e-9);
        expect(view.toS() - view.fromS()).toBeGreaterThanOrEqual(0.05 - 1e-9);
      }
    }),
  );
});

test('zooming in and out again about a point returns to the same window', () => {
  const view = createTimeWindow(0, 60);
  view.show(20, 30);
  view.zoom(4, 22);
  expect(view.fromS()).toBeCloseTo(21.5, 9);
  expect(view.toS()).toBeCloseTo(24, 9);
  view.zoom(1 / 4, 22);
  expect([view.fromS(), view.toS()].map((s) => Math.round(s * 1e6) / 1e6)).toEqual([20, 30]);
});

test('listeners hear of a change and of nothing else', () => {
  const view = createTimeWindow(0, 60);
  let heard = 0;
  view.onChange(() => {
    heard += 1;
  });
  view.reset();
  view.show(Number.NaN, 3);
  expect(heard).toBe(0);
  view.show(1, 2);
  expect(heard).toBe(1);
  expect(view.isWhole()).toBe(false);
});

test('a run of one row still has a window', () => {
  const view = createTimeWindow(7, 7);
  expect(view.toS()).toBeGreaterThan(view.fromS());
});
