import { resolve } from 'node:path';
import { defineConfig, type Plugin } from 'vitest/config';

const root = import.meta.dirname;
const SOURCE = /^(lib|harness|targets)\/(?!demo\/garages\/)(.*)\.ts$/;

/**
 * The tests drive what is built, as Node loads it. From the sources they take a third longer, for
 * there a name that is imported is looked up at each use.
 */
const driveWhatIsBuilt: Plugin = {
  name: 'drive-what-is-built',
  enforce: 'pre',
  resolveId(name, importer) {
    if (name === 'axlewright') return resolve(root, 'dist/harness/index.js');
    if (!name.startsWith('.') || !importer) return null;
    const found = SOURCE.exec(resolve(importer, '..', name).slice(root.length + 1));
    return found && resolve(root, `dist/${found[1]}/${found[2]}.js`);
  },
};

export default defineConfig({
  plugins: [driveWhatIsBuilt],
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: 'tests/build.ts',
    server: { deps: { external: [/\/dist\/(lib|harness|targets)\//] } },
    // They may share a process, so that its modules are loaded, and compiled, once.
    isolate: false,
    // For what hangs: a machine that has more to do takes several times as long.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // Commands that run inside a test say the same on a terminal as elsewhere.
    env: { NO_COLOR: '1', FORCE_COLOR: '' },
    maxWorkers: 2,
    // What is built is trees made anew and thrown away: a larger nursery, a twentieth less work.
    execArgv: ['--max-semi-space-size=32'],
  },
});
