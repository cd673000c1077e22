import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LimitNumber } from '../../harness/check/limit-check.ts';
import type { Constants } from '../../lib/index.ts';
import { arbitraryDrive } from './arbitrary-drive.ts';
import { checkDrives, REPLAYS } from './check-drives.ts';
import { type Core, judge } from './judge.ts';
import { type Leg, scripted } from './scripted.ts';
import { sourceCore } from './source-core.ts';

/** A core that breaks a limit, and a drive that shows it. */
export interface Mutant {
  core: Core;
  constants: Constants;
  legs: Leg[];
  /** Run time at which the breach begins, ms, reckoned by hand. */
  atMs: number;
  /** By how much it may lie off, ms; default 0. */
  within?: number;
}

/** Seed of the drives of S1; each limit adds its number. */
const SEED = 20261125;
/** Drives a property is tried on; a campaign tries it on more. */
const RUNS = process.env.MODE === 'campaign' ? 10_000 : 120;
/** A campaign takes its time, ms. */
export const LONG = 3_600_000;

/** The tests every limit has: it holds in arbitrary drives, and a core that breaks it is found. */
export function limitSuite(
  limit: LimitNumber,
  options: { exercised: number; mutants: readonly Mutant[] },
): void {
  describe(`S${limit}`, () => {
    it(
      'holds for arbitrary vehicles, inputs, clocks and dropouts, ' +
        `at least ${options.exercised} % of which exercise it`,
      () => {
        const where = `tests/limits/s${String(limit).padStart(2, '0')}.test.ts -t arbitrary`;
        holds(limit, sourceCore, options.exercised, where);
      },
      LONG,
    );

    it.each(options.mutants.map((mutant) => [mutant.core.name, mutant] as const))(
      'is reported as broken, from the right time on, by %s',
      (_name, { core, constants, legs, atMs, within }) => {
        const healthy = scripted(constants, legs);
        const broken = Object.values(healthy.verdicts).filter(({ held }) => held === false);
        expect(broken, 'the core itself must break no limit in this drive').toEqual([]);
        const verdict = scripted(constants, legs, core).verdicts[`S${limit}`]!;
        expect(verdict).toMatchObject({ id: `S${limit}`, held: false });
        expect(Math.abs(verdict.firstAtMs! - atMs), verdict.detail).toBeLessThanOrEqual(
          within ?? 0,
        );
      },
    );
  });
}

/**
 * The property itself: no drive breaks the limit.
 *
 * @param exercised least share of the drives that must exercise it, percent
 * @param where what `vitest run` needs to find the test again
 */
export function holds(limit: LimitNumber, core: Core, exercised: number, where: string): void {
  let drives = 0;
  let exercising = 0;
  const property = fc.property(arbitraryDrive, (drive) => {
    const verdict = judge(core, drive, [limit])[0]!;
    drives++;
    if (verdict.held !== null) exercising++;
    if (verdict.held === false) throw new Error(`${verdict.detail} (at ${verdict.firstAtMs} ms)`);
  });
  const title = `S${limit} was broken by ${core.name}`;
  checkDrives(property, { title, where, seed: SEED + limit, runs: RUNS });
  if (REPLAYS) return;
  const share = (100 * exercising) / drives;
  if (RUNS > 1000) console.log(`S${limit}: ${drives} drives, ${share.toFixed(1)} % exercise it`);
  expect(share, `share of drives that exercise S${limit}, percent`).toBeGreaterThan(exercised);
}
