import { expect, it } from 'vitest';
import { Out, outputWidth } from '../../harness/replay/row-layout.ts';
import { createTimeline } from '../../harness/replay/timeline.ts';
import { Flag, Layout, State } from '../../lib/index.ts';

it('says of each stretch of yaw assist how much of the cut it took away at most', () => {
  const timeline = createTimeline(Layout.PAIR);
  const row = new Int32Array(outputWidth(2));
  row[Out.STATE] = State.DRIVING;
  for (let tick = 0; tick < 500; tick++) {
    const change = tick >= 100 && tick < 150 ? 50 - tick : tick === 300 ? -7 : 0;
    row[Out.ASSIST] = change;
    row[Out.FLAGS] = change === 0 ? 0 : Flag.ASSIST;
    timeline.observe(tick / 100, row, 0, row[Out.FLAGS]);
  }
  expect(timeline.finish().findings.map(({ atS, toS, text }) => [atS, toS, text])).toEqual([
    [
      1,
      1.49,
      'Yaw assist takes up to 9.9 % of inside cut away; beyond none it slows the outside motor.',
    ],
    [
      3,
      3,
      'Yaw assist takes up to 0.7 % of inside cut away; beyond none it slows the outside motor.',
    ],
  ]);
});
