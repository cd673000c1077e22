import { afterEach, expect, test, vi } from 'vitest';
import { need } from './needs.ts';

afterEach(() => {
  vi.unstubAllEnvs();
  vi.restoreAllMocks();
});

const ABSENT = 'no-such-program-anywhere';

test('a program on the PATH is found with its folder', () => {
  vi.stubEnv('PATH', `/nowhere:${process.execPath.replace(/\/[^/]+$/, '')}`);
  expect(need('node')).toBe(process.execPath);
});

test('a missing program is named, and the caller may go on without it', () => {
  vi.stubEnv('CI', '');
  const said = vi.spyOn(process.stderr, 'write').mockReturnValue(true);
  expect(need(ABSENT)).toBeNull();
  expect(said).toHaveBeenCalledWith(expect.stringContaining(ABSENT));
});

test('with CI=true a missing program is a failure', () => {
  vi.stubEnv('CI', 'true');
  expect(() => need(ABSENT)).toThrow(ABSENT);
});
