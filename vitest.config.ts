import { defineConfig } from 'vitest/config';

export default defineConfig({
  resolve: { alias: { axlewright: new URL('./harness/index.ts', import.meta.url).pathname } },
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 30_000,
    maxWorkers: 2,
  },
});
