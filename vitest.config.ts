import { defineConfig } from 'vitest/config';

/** Tests of functions alone: they may share a process, so that its modules are loaded once. */
const PURE = 'tests/{lib,limits,manoeuvres,metrics,published,setup}/**/*.test.ts';

export default defineConfig(({ mode }) => ({
  resolve: { alias: { axlewright: new URL('./harness/index.ts', import.meta.url).pathname } },
  test: {
    testTimeout: 30_000,
    maxWorkers: 2,
    projects: [
      { extends: true, mode, test: { name: 'pure', include: [PURE], isolate: false } },
      {
        extends: true,
        mode,
        test: { name: 'whole', include: ['tests/**/*.test.ts'], exclude: [PURE] },
      },
    ],
  },
}));
