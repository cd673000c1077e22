import { describe, expect, it } from 'vitest';
import { S } from '../../lib/index.ts';
import { createBench } from '../lib/bench.ts';
import { plainConstants } from '../limits/plain-constants.ts';
import published from './servo-pulse.json' with { type: 'json' };

describe('servo pulses (common practice, no source)', () => {
  const constants = plainConstants({ setups: [{ [S.THROTTLE_DEAD_BAND]: 10 }] });

  it.each([
    [published.reverseUs, -1000],
    [published.centreUs, 0],
    [published.forwardUs, 1000],
  ])('%i us are %i permille', (throttleUs, want) => {
    expect(createBench(constants).step(1, { throttleUs }).throttle).toBeCloseTo(want, 9);
  });
});
