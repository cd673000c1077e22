import { expect, test } from 'vitest';
import { Out, outputWidth } from '../../harness/replay/row-layout.ts';
import { createToldFlags } from '../../harness/replay/told-flags.ts';
import { Flag } from '../../lib/index.ts';
import { plainConstants } from '../limits/plain-constants.ts';

/** Flags told of a drive through these commands; 2000 permille/s are 20 in a tick of 10 ms. */
function told(drives: [number, number][], flags: number = Flag.CURRENT_LIMIT, stepMs = 10) {
  const reader = createToldFlags(plainConstants({}));
  return drives.map(([left, right]) => {
    const row = new Int32Array(outputWidth(2));
    row[Out.FLAGS] = flags;
    row.set([left, right], Out.DRIVE);
    return reader.of(stepMs, row, 0);
  });
}

const CEILING = Flag.CURRENT_LIMIT;

test('the current ceiling is told where it is the slower of the two', () => {
  expect(
    told([
      [20, 18],
      [40, 36],
      [53, 47],
      [53, 47],
      [50, 45],
      [55, 50],
    ]),
  ).toEqual([...[0, 0, CEILING, CEILING, CEILING, CEILING]]);
});

test('in reverse as well, and of a cut-off fraction less than the rate allows', () => {
  expect(
    told([
      [-20, -20],
      [-39, -39],
      [-57, -57],
    ]),
  ).toEqual([0, 0, CEILING]);
});

test('a late tick permits no more than two', () => {
  expect(
    told(
      [
        [40, 40],
        [60, 60],
      ],
      CEILING,
      50,
    ),
  ).toEqual([0, CEILING]);
});

test('not while the motors rest before a change of direction; other flags stay', () => {
  const both = CEILING | Flag.HEAT_LIMIT;
  expect(
    told(
      [
        [0, 0],
        [0, 0],
        [-20, -20],
        [-20, -20],
      ],
      both,
    ),
  ).toEqual([...[Flag.HEAT_LIMIT, Flag.HEAT_LIMIT, Flag.HEAT_LIMIT, both]]);
});
