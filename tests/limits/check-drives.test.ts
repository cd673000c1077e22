import fc from 'fast-check';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { S } from '../../lib/index.ts';
import { arbitraryDrive } from './arbitrary-drive.ts';
import { checkDrives } from './check-drives.ts';
import { holds } from './limit-suite.ts';
import { heedless } from './mutants.ts';

const keys = ['AXW_SEED', 'AXW_PATH', 'AXW_RUNS'] as const;
const before = keys.map((key) => [key, process.env[key]] as const);

afterEach(() => {
  for (const [key, value] of before) {
    if (value === undefined) delete process.env[key];
    else process.env[key] = value;
  }
});

function messageOf(run: () => void): string {
  try {
    run();
  } catch (error) {
    return (error as Error).message;
  }
  return 'held';
}

/** Sets the variables that the command in a failure's message sets. */
function takeCommand(message: string): string {
  const found = /^AXW_SEED=(\S+) AXW_PATH=(\S+) npx vitest run (.+)$/m.exec(message);
  expect(found, message).not.toBeNull();
  process.env.AXW_SEED = found![1]!;
  process.env.AXW_PATH = found![2]!;
  return found![3]!;
}

describe('a property that fails', () => {
  const guestless = heedless('a core without a guest cap', { setup: { [S.GUEST_CAP]: 1000 } });

  const run = () => holds(17, guestless, 0, 'tests/limits/s17.test.ts -t arbitrary');
  let message = '';
  beforeAll(() => {
    message = messageOf(run);
  });

  it('finds a core that breaks a limit, without any script', () => {
    expect(message).toMatch(/^S17 was broken by a core without a guest cap: A command was/);
  });

  it('prints one command that replays it to the same smallest drive', () => {
    expect(takeCommand(message)).toBe('tests/limits/s17.test.ts -t arbitrary');
    const last = (text: string) => text.slice(text.indexOf('Smallest drive'));
    expect(last(messageOf(run))).toBe(last(message));
  });

  it('says so when it fails without a reason', () => {
    const never = fc.property(arbitraryDrive, () => false);
    const message = messageOf(() =>
      checkDrives(never, { title: 'It failed', where: 'x.test.ts', seed: 1, runs: 2 }),
    );
    expect(message).toContain('It failed: ');
    expect(takeCommand(message)).toBe('x.test.ts');
  });
});
