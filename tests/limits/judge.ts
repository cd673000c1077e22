import { createLimitCheck, type LimitNumber } from '../../harness/check/limit-check.ts';
import type { LimitVerdict } from '../../harness/check/limit-monitor.ts';
import type { Constants, Controller } from '../../lib/index.ts';
import type { Drive } from './arbitrary-drive.ts';
import { play } from './play.ts';

/** A core under test. */
export interface Core {
  name: string;
  createController(constants: Constants): Controller;
}

/** Drives a core and judges it by some of the limits. */
export function judge(core: Core, drive: Drive, limits: readonly LimitNumber[]): LimitVerdict[] {
  const { constants } = drive;
  const check = createLimitCheck(constants, core.createController, limits);
  play(core.createController(constants), drive, {
    after: check.observe,
    threw: check.threw,
    offered: (slot, setup, crc, accepted) =>
      check.offered(slot as number, setup as number[], crc, accepted),
  });
  return check.verdicts();
}

/** What was broken, in words, for a test's message. */
export function breaches(verdicts: readonly LimitVerdict[]): string {
  return verdicts
    .filter(({ held }) => held === false)
    .map(({ id, detail, firstAtMs }) => `${id}: ${detail} (at ${firstAtMs} ms)`)
    .join(' ');
}
