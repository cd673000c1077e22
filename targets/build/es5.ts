import { readFile } from 'node:fs/promises';
import { build, type Plugin, transform } from 'esbuild';
import ts from 'typescript';
import { arrangeBodies } from './arrange-bodies.ts';
import { plainTokens } from './plain-tokens.ts';

/** What to compile, and how. */
export interface Es5Options {
  /** Path of the module that assigns what the script offers to the global record. */
  entry: string;
  /** Folder the file names in the readable form are relative to. */
  root: string;
  /** Name of the global record. */
  global: string;
  /** Identifiers replaced by JSON values. */
  define?: Record<string, string>;
  /** Names of fields that keep their names in the minified form; absent = all do. */
  keepFields?: readonly string[];
}

/** A script in its forms; the same program. */
export interface Es5Script {
  /** As the sources are written. */
  readable: string;
  /** The minified form before its names and white space went, statement by statement the same. */
  short: string;
  minified: string;
}

/**
 * Turns a module with everything it imports into one ES5 script without helpers: esbuild bundles,
 * TypeScript lowers, esbuild shortens. Same sources, same bytes.
 *
 * @throws esbuild's error if a module is missing or does not parse
 */
export async function compileEs5(options: Es5Options): Promise<Es5Script> {
  const [readable, short] = await Promise.all([lower(options, false), lower(options, true)]);
  const assigned = ['length', 'push', ...namesAssignedTo(options.global, readable)];
  const minified = await transform(short, {
    target: 'es5',
    charset: 'ascii',
    legalComments: 'none',
    minifyWhitespace: true,
    minifyIdentifiers: true,
    ...(options.keepFields && {
      mangleProps: /./,
      reserveProps: new RegExp(`^(${[...options.keepFields, ...assigned].join('|')})$`),
    }),
  });
  return {
    readable: plainTokens(readable).replace(/\/\*!/g, '/**'),
    short: plainTokens(short),
    minified: plainTokens(minified.code),
  };
}

/**
 * The bundled script in ES5.
 *
 * @param shorten true = constants are put in place of their names and statements in shorter forms.
 *   That could fold 7 / 100 to .07, which not every engine parses exactly; the gate refuses any
 *   such number.
 */
async function lower(options: Es5Options, shorten: boolean): Promise<string> {
  const bundled = await build({
    entryPoints: [options.entry],
    absWorkingDir: options.root,
    bundle: true,
    write: false,
    format: 'iife',
    target: 'es2020',
    charset: 'ascii',
    treeShaking: true,
    minifySyntax: shorten,
    legalComments: 'inline',
    logLevel: 'silent',
    // Not the user's tsconfig: the same sources must give the same bytes everywhere.
    tsconfigRaw: {},
    banner: { js: `var ${options.global} = {};` },
    define: options.define ?? {},
    plugins: [keepFunctionDocs],
  });
  return ts.transpileModule(bundled.outputFiles[0]!.text, {
    compilerOptions: {
      target: ts.ScriptTarget.ES5,
      module: ts.ModuleKind.ESNext,
      ignoreDeprecations: '6.0',
      alwaysStrict: false,
      newLine: ts.NewLineKind.LineFeed,
    },
    transformers: { after: [arrangeBodies] },
  }).outputText;
}

/** What the entry assigns to the global record. */
function namesAssignedTo(global: string, code: string): string[] {
  return [...code.matchAll(new RegExp(`^ *${global}\\.(\\w+) = `, 'gm'))].map((found) => found[1]!);
}

/** Makes the comment before a function one that esbuild keeps. */
const keepFunctionDocs: Plugin = {
  name: 'keep-function-docs',
  setup(setup) {
    setup.onLoad({ filter: /\.[jt]s$/ }, async ({ path }) => ({
      loader: path.endsWith('ts') ? 'ts' : 'js',
      contents: (await readFile(path, 'utf8')).replace(
        /^\/\*\*((?:(?!\*\/)[\s\S])*\*\/\n(?:export )?function )/gm,
        '/*!$1',
      ),
    }));
  },
};
