import { readFileSync } from 'node:fs';
import { SourceMap } from 'node:module';
import { basename, dirname, extname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type BuildFailure, build, type Plugin } from 'esbuild';
import { readError } from '../file-error.ts';
import { type Problem, UserError } from '../problems.ts';

/**
 * Runs a garage's TypeScript or JavaScript file and gives its default export, unchecked. The file
 * is bundled in memory; `axlewright` stands for this very package, so that a garage needs no
 * node_modules. The file is a program of the user's and may do whatever a program may.
 *
 * @param file path as the user named it; messages name it the same way
 * @throws UserError if the file cannot be read, does not compile, throws, or has no default export
 */
export async function evaluateFile(file: string): Promise<unknown> {
  const { code, map } = await bundle(file);
  let exported: Record<string, unknown>;
  try {
    exported = await import(`${DATA_URL}${Buffer.from(code).toString('base64')}`);
  } catch (error) {
    throw new UserError([thrown(file, error, map)]);
  }
  if ('default' in exported) return exported.default;
  const message = 'the file has no default export.';
  const cure = 'Write "export default define...({ ... })" as in a garage of "axlewright new".';
  throw new UserError([{ file, message, cure }]);
}

const DATA_URL = 'data:text/javascript;base64,';

/** The functions a garage imports; a file of its own, so that nothing else gets bundled. */
const DEFINE = fileURLToPath(new URL(`./define${extname(import.meta.url)}`, import.meta.url));

const ownPackage: Plugin = {
  name: 'own-package',
  setup(hooks) {
    hooks.onResolve({ filter: /^axlewright$/ }, () => ({ path: DEFINE }));
  },
};

async function bundle(file: string): Promise<{ code: string; map: string }> {
  try {
    readFileSync(file);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw readError(file, error);
    const cure = 'Check the name; "axlewright new DIR" makes a complete garage.';
    throw new UserError([{ file, message: 'there is no such file.', cure }]);
  }
  try {
    const result = await build({
      entryPoints: [resolve(file)],
      bundle: true,
      write: false,
      format: 'esm',
      platform: 'node',
      target: 'node20',
      charset: 'utf8',
      outfile: 'garage.js',
      sourcemap: 'external',
      sourcesContent: false,
      logLevel: 'silent',
      plugins: [ownPackage],
    });
    // Of two fields with the same name the first would be lost without a word.
    const doubled = result.warnings.filter(({ id }) => id === 'duplicate-object-key');
    if (doubled.length > 0) {
      throw new UserError(doubled.map((each) => compileProblem(file, each)));
    }
    const [map, code] = result.outputFiles;
    return { code: code?.text ?? '', map: map?.text ?? '' };
  } catch (error) {
    if (error instanceof UserError || !isBuildFailure(error)) throw error;
    throw new UserError(error.errors.map((each) => compileProblem(file, each)));
  }
}

function compileProblem(file: string, error: BuildFailure['errors'][number]): Problem {
  const message = `${error.text.replace(/\.$/, '')}.`;
  const { location } = error;
  if (location === null) return { file, message };
  const from = relative(dirname(resolve(file)), resolve(location.file));
  const place = from === basename(file) ? file : join(dirname(file), from);
  return { file: place, line: location.line, message, cure: cureOf(location.lineText) };
}

function cureOf(lineText: string): string {
  return `Mend this line: ${lineText.trim()}`;
}

function isBuildFailure(error: unknown): error is BuildFailure {
  return error instanceof Error && 'errors' in error && Array.isArray(error.errors);
}

function thrown(file: string, error: unknown, map: string): Problem {
  const message = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  const problem = { file, message: `the file throws ${message}.`, cure: 'Mend the file.' };
  const line = error instanceof Error ? lineOf(file, error, map) : undefined;
  return line === undefined ? problem : { ...problem, line };
}

/** Line of the topmost frame that lies in the file itself, not in one it imports. */
function lineOf(file: string, error: Error, map: string): number | undefined {
  const sources = new SourceMap(JSON.parse(map));
  for (const frame of (error.stack ?? '').split('\n')) {
    const [, line, column] = /:(\d+):(\d+)\)?$/.exec(frame) ?? [];
    if (!frame.includes(DATA_URL) || line === undefined) continue;
    const origin = sources.findEntry(Number(line) - 1, Number(column) - 1);
    if ('originalSource' in origin && resolve(origin.originalSource) === resolve(file)) {
      return origin.originalLine + 1;
    }
  }
  return undefined;
}
