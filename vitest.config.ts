import { defineConfig } from 'vitest/config';

/** Tests that start programs, fill the machine, or measure their own process. */
const APART = [
  'tests/{cli,engines,tidy}/**/*.test.ts',
  'tests/**/*browser.test.ts',
  'tests/plant/allocation.test.ts',
];
const ALL = 'tests/**/*.test.ts';

export default defineConfig(({ mode }) => ({
  resolve: { alias: { axlewright: new URL('./harness/index.ts', import.meta.url).pathname } },
  test: {
    // For what hangs: a machine that has more to do takes several times as long.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // Commands that run inside a test say the same on a terminal as elsewhere.
    env: { NO_COLOR: '1', FORCE_COLOR: '' },
    maxWorkers: 2,
    projects: [
      // They may share a process, so that its modules are loaded once.
      {
        extends: true,
        mode,
        test: { name: 'beside', include: [ALL], exclude: APART, isolate: false },
      },
      { extends: true, mode, test: { name: 'apart', include: APART } },
    ],
  },
}));
