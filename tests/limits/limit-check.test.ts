import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createLimitCheck, LIMITS } from '../../harness/check/limit-check.ts';
import {
  createController,
  createInputs,
  createOutputs,
  MISSING,
  type Outputs,
} from '../../lib/index.ts';
import { arbitraryDrive } from './arbitrary-drive.ts';
import { checkDrives } from './check-drives.ts';
import { breaches } from './judge.ts';
import { LONG } from './limit-suite.ts';
import { plainConstants } from './plain-constants.ts';
import { play } from './play.ts';
import { ARM, scripted } from './scripted.ts';

const plain = plainConstants({});

describe('the verdicts', () => {
  it('of no tick at all say of every limit that nothing exercised it', () => {
    const verdicts = createLimitCheck(plain, createController).verdicts();
    expect(verdicts.map(({ id }) => id)).toEqual(LIMITS.map((limit) => `S${limit}`));
    for (const { held, firstAtMs } of verdicts)
      expect([held, firstAtMs]).toEqual([null, undefined]);
  });

  it('of a plain drive say what it exercised, when first, and in whole sentences', () => {
    const { verdicts } = scripted(plain, [
      ARM,
      { ticks: 60, throttle: 1000, steer: 400 },
      { ticks: 100, throttle: -1000 },
      { ticks: 60, throttle: -1000, raw: { throttleUs: MISSING } },
    ]);
    const held = Object.values(verdicts).filter((verdict) => verdict.held);
    expect(held.map(({ id }) => id)).toEqual([
      // With no current at first, the ceiling lets a command grow by 337 permille in a tick.
      ...['S1', 'S2', 'S3', 'S4', 'S5', 'S6', 'S8', 'S10', 'S11', 'S12', 'S15'],
    ]);
    expect(verdicts.S5).toMatchObject({
      firstAtMs: 300,
      detail: expect.stringContaining('1 time'),
    });
    expect(verdicts.S3!.firstAtMs).toBeGreaterThan(910 + 100);
    expect(verdicts.S4!.detail).toContain('1 loss of signal; the longest took 400 ms');
    for (const { detail, title } of Object.values(verdicts)) {
      expect(detail).toMatch(/^[A-Z0-9].*\.$/);
      expect(title).not.toMatch(/\.$/);
      expect(detail).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  it('count the ticks of a breach, and keep its first', () => {
    const check = createLimitCheck(plain, createController, [1]);
    const outputs = { ...createOutputs(), steer: 1500 };
    for (let n = 0; n < 5; n++) check.observe({ ...createInputs(), timeMs: 10 * n }, outputs);
    expect(check.verdicts()).toEqual([
      {
        id: 'S1',
        title: 'Every output is a whole number in its range, whatever arrives',
        held: false,
        detail: 'The steering command was 1500. It was broken in 5 ticks in all.',
        firstAtMs: 0,
      },
    ]);
  });
});

it(
  'a replay, knowing inner signals only as integers and the slot as wished, breaks no limit either',
  () => {
    const property = fc.property(arbitraryDrive, (drive) => {
      const { constants } = drive;
      const check = createLimitCheck(constants, createController);
      const cut: Outputs = createOutputs();
      const wished = createInputs();
      let slot = 0;
      play(createController(constants), drive, {
        before: (inputs) => {
          slot = Number.isInteger(inputs.slot) && Math.abs(inputs.slot) < 32768 ? inputs.slot : 0;
        },
        after: (inputs, outputs) => {
          Object.assign(wished, inputs, { slot });
          Object.assign(cut, outputs);
          cut.throttle = outputs.throttle | 0;
          cut.demand = outputs.demand | 0;
          cut.cut = outputs.cut | 0;
          cut.limit = outputs.limit | 0;
          check.observe(wished, cut);
        },
        threw: check.threw,
        offered: (at, setup, crc, accepted) =>
          check.offered(at as number, setup as number[], crc, accepted),
      });
      expect(breaches(check.verdicts())).toBe('');
    });
    checkDrives(property, {
      title: 'A limit seemed broken in a replay',
      where: 'tests/limits/limit-check.test.ts -t replay',
      seed: 20261300,
      runs: 200,
    });
  },
  LONG,
);
