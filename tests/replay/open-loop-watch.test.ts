import { expect, test } from 'vitest';
import { createOpenLoopWatch } from '../../harness/replay/open-loop-watch.ts';
import { Out, outputWidth } from '../../harness/replay/row-layout.ts';
import { V } from '../../lib/index.ts';
import { plainConstants } from '../limits/plain-constants.ts';

/** What is said of so many ticks in which the right motor was commanded that much more. */
function saidOf(more: number, ticks: number, vehicle = {}): string[] {
  const watch = createOpenLoopWatch(plainConstants({ vehicle }));
  const outputs = new Int32Array(outputWidth(2)).fill(300, Out.DRIVE);
  for (let i = 0; i < ticks; i++) watch.observe(Int32Array.of(300, 300 + more), 0, outputs, 0);
  return watch.finish().map(({ text }) => text);
}

test('currents that answered to other commands are told, with how far these were apart', () => {
  expect(saidOf(-180, 100)).toEqual([expect.stringMatching(/by up to 18 %: the currents/)]);
});

test('nothing is said of small differences, of few ticks, or where no current is measured', () => {
  expect(saidOf(20, 100)).toEqual([]);
  expect(saidOf(500, 5)).toEqual([]);
  expect(saidOf(500, 100, { [V.HAS_CURRENT]: 0 })).toEqual([]);
});
