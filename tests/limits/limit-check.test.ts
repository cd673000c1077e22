import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createLimitCheck, LIMITS } from '../../harness/check/limit-check.ts';
import {
  type Constants,
  createController,
  createInputs,
  createOutputs,
  Layout,
  MISSING,
  type Outputs,
  V,
} from '../../lib/index.ts';
import { arbitraryDrive } from './arbitrary-drive.ts';
import { checkDrives } from './check-drives.ts';
import { breaches } from './judge.ts';
import { LONG } from './limit-suite.ts';
import { plainConstants } from './plain-constants.ts';
import { play } from './play.ts';
import { ARM, type Leg, scripted } from './scripted.ts';

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

  it('tell what a drive did not put to the test from what does not apply to a vehicle', () => {
    const gentle: Leg[] = [ARM, { ticks: 60, throttle: 300 }];
    const idle = (constants: Constants, legs = gentle) =>
      Object.values(scripted(constants, legs).verdicts).filter(({ held }) => held === null);
    const why = (constants: Constants, legs = gentle) =>
      Object.fromEntries(idle(constants, legs).map(({ id, detail }) => [id, detail]));
    const strange = (constants: Constants) =>
      idle(constants).flatMap(({ id, applies }) => (applies === false ? [id] : []));
    const bare = { [V.HAS_SUPPLY]: 0, [V.HAS_CURRENT]: 0, [V.HAS_GYRO]: 0 };
    const single = { [V.LAYOUT]: Layout.SINGLE, [V.MOTORS]: 1, [V.SUPPLY_REFERENCE_MV]: 0 };
    expect(strange(plainConstants({ vehicle: { ...bare, ...single } }))).toEqual([
      ...['S8', 'S9', 'S10', 'S12', 'S13'],
    ]);
    const guarded = plainConstants({ vehicle: { [V.CURRENT_LIMIT_MA]: 0 }, setups: [{}, {}] });
    expect(strange(guarded)).toEqual([]);
    expect(why(guarded)).toMatchObject({
      S3: 'No motor changed its direction.',
      S8: expect.stringMatching(/^The drive was too gentle: .* 0 ms at most, .* 0 K of 100 K\.$/),
      S9: 'The supply never fell below 7400 mV; derating begins at 7000 mV.',
      S14: 'The setup was never changed.',
    });
    const raw = { currentMa: [MISSING, MISSING] };
    const unfelt = gentle.map((leg) => ({ ...leg, raw }));
    expect(why(guarded, unfelt).S8).toBe('No current was measured.');
    expect(why(guarded, [ARM]).S8).toBe('No motor was driven.');
    const free = { [V.CURRENT_LIMIT_MA]: 0, [V.STALL_MS]: 0 };
    expect(strange(plainConstants({ vehicle: free }))).toEqual(['S8']);
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
