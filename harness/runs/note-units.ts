import { MISSING } from '../../lib/index.ts';
import type { Problem } from '../problems.ts';
import type { RunChunk } from './run-chunk.ts';

/** What samples of a column lie between, whatever the vehicle, and how another unit is mended. */
const LIKELY = [
  { name: 'throttle_us', least: 500, greatest: 2500, unit: 'µs', cure: 'scale and offset' },
  { name: 'steer_us', least: 500, greatest: 2500, unit: 'µs', cure: 'scale and offset' },
  { name: 'battery_mv', least: 1000, greatest: 32767, unit: 'mV', cure: 'unit' },
];

/**
 * Passes chunks on, and at their end notes the columns of which no sample is a likely one: they are
 * in another unit.
 *
 * @param file of which it is said
 */
export async function* noteUnits(
  file: string,
  chunks: AsyncIterable<RunChunk>,
  note: (problem: Problem) => void,
): AsyncGenerator<RunChunk> {
  const seen = LIKELY.map(() => ({ low: Infinity, high: -Infinity }));
  for await (const chunk of chunks) {
    LIKELY.forEach(({ name }, i) => {
      const span = seen[i]!;
      for (const value of chunk.columns.get(name) ?? []) {
        if (value === MISSING) continue;
        span.low = Math.min(span.low, value);
        span.high = Math.max(span.high, value);
      }
    });
    yield chunk;
  }
  LIKELY.forEach(({ name: field, least, greatest, unit, cure }, i) => {
    const { low, high } = seen[i]!;
    if (high < low || (high >= least && low <= greatest)) return;
    const message = `lies between ${low} and ${high} ${unit}, expected ${least} to ${greatest}.`;
    note({ file, field, message, cure: `Is it in another unit? Give ${cure} in the mapping.` });
  });
}
