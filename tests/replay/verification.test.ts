import { expect, test } from 'vitest';
import type { ReplayResult } from '../../harness/replay/replay.ts';
import { Out, outputWidth } from '../../harness/replay/row-layout.ts';
import { verdictText } from '../../harness/replay/verdict-text.ts';
import { createVerifier } from '../../harness/replay/verification.ts';
import { type RunChunk, runHeader } from '../../harness/runs/run-chunk.ts';
import { Flag, Layout } from '../../lib/index.ts';

/** Three ticks of which the laptop computes the guest cap alone; the second was recorded so. */
function verdictOf(recorded: { throttle?: number; flags: number }, losses = 0): string {
  const columns = new Map([
    ['throttle_permille', Int32Array.of(0, recorded.throttle ?? 0, 0)],
    ['flags', Int32Array.of(0, recorded.flags, 0)],
  ]);
  const lines = Int32Array.of(2, 3, 4);
  const header = runHeader([...columns.keys()]);
  const chunk: RunChunk = { header, rows: 3, columns, extra: new Map(), lines };
  const verifier = createVerifier(Layout.PAIR, new Set(columns.keys()));
  const outputs = new Int32Array(outputWidth(2));
  outputs[Out.FLAGS] = Flag.GUEST;
  for (let row = 0; row < 3; row++) {
    columns.get('flags')![row]! |= Flag.GUEST;
    verifier.compare(chunk, row, outputs, 0, 10 * row);
  }
  const figures = { drivingS: 1 };
  const result = { limits: [], figures, verification: verifier.result() };
  return verdictText(result as unknown as ReplayResult, losses);
}

test('a setup that the hub was offered is told as what cannot be recomputed', () => {
  const taken = / from tick 2 on: there the hub took a setup .* all ticks before it are the same/;
  expect(verdictOf({ flags: Flag.FADING })).toMatch(taken);
  expect(verdictOf({ throttle: 3, flags: Flag.FADING })).toMatch(taken);
  expect(verdictOf({ flags: Flag.SETUP_REFUSED })).toMatch(/there the hub refused a setup/);
});

test('other differences keep their own reasons', () => {
  expect(verdictOf({ throttle: 3, flags: 0 })).toMatch(/\(another build, other setups/);
  expect(verdictOf({ flags: Flag.FADING }, 1)).toMatch(/1 part was left out/);
  expect(verdictOf({ flags: 0 })).toMatch(/recomputed all 3 ticks bit for bit/);
});

test('what the run does not hold is no proof, and is named', () => {
  expect(verdictOf({ flags: 0 })).toMatch(/as far as the run tells; it lacks slot, state, cause/);
  const alone = createVerifier(Layout.PAIR, new Set(['time_ms', 'slot', 'throttle_us']));
  // The slot is an input, too.
  expect(alone.result()).toMatchObject({ columns: [], missing: expect.arrayContaining(['flags']) });
});
