import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';

/** Script and style sheet of the page, ready to be inlined. */
export interface ClientBundle {
  script: string;
  style: string;
}

let cached: ClientBundle | undefined;

/**
 * Bundles the page's script with the chart library it uses; once a process. Finds the script
 * beside this file, as TypeScript in the sources and as JavaScript in the built package.
 */
export function clientBundle(): ClientBundle {
  cached ??= buildClient();
  return cached;
}

function buildClient(): ClientBundle {
  const here = fileURLToPath(import.meta.url);
  const entry = join(dirname(here), 'client', here.endsWith('.ts') ? 'main.ts' : 'main.js');
  const built = buildSync({
    entryPoints: [entry],
    bundle: true,
    format: 'iife',
    platform: 'browser',
    target: 'es2020',
    charset: 'ascii',
    minify: true,
    legalComments: 'none',
    sourcemap: false,
    tsconfigRaw: '{}',
    write: false,
    logLevel: 'silent',
  });
  const require = createRequire(import.meta.url);
  const library = dirname(require.resolve('uplot/package.json'));
  const { version } = JSON.parse(readFileSync(join(library, 'package.json'), 'utf8'));
  const licence = readFileSync(join(library, 'LICENSE'), 'utf8').trim();
  return {
    script: `/* holds uPlot ${version}\n${licence}\n*/\n${built.outputFiles[0]!.text.trim()}`,
    style: readFileSync(join(library, 'dist', 'uPlot.min.css'), 'utf8').trim(),
  };
}
