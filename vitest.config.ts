import { defineConfig } from 'vitest/config';

/** Tests of functions alone: they may share a process, so that its modules are loaded once. */
const PURE = 'tests/{lib,limits,manoeuvres,metrics,published,setup}/**/*.test.ts';

export default defineConfig({
  resolve: { alias: { axlewright: new URL('./harness/index.ts', import.meta.url).pathname } },
  test: {
    testTimeout: 30_000,
    maxWorkers: 2,
    projects: [
      { extends: true, test: { name: 'pure', include: [PURE], isolate: false } },
      { extends: true, test: { name: 'whole', include: ['tests/**/*.test.ts'], exclude: [PURE] } },
    ],
  },
});
