import { readFile } from 'node:fs/promises';
import { build, type Plugin, type TransformOptions, transform } from 'esbuild';
import { specialise } from '../specialise/specialise.ts';
import { arrangeBodies } from './arrange-bodies.ts';
import { compiler } from './compiler.ts';
import { type Fitting, fitPlugin } from './fit.ts';
import { plainStatements } from './plain-statements.ts';
import { plainTokens } from './plain-tokens.ts';
import type { Shape } from './shape.ts';
import { shortNames } from './short-names.ts';

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
  /** What the script is fitted for; absent = nothing, and its minified form is not specialised. */
  fitting?: Fitting | undefined;
}

/** A script in its forms; all do the same to the last bit. */
export interface Es5Script {
  /** As the sources are written. */
  readable: string;
  minified: string;
  /**
   * The minified form as it would be if no variables shared a name, with names and white space and
   * without; see parts.ts.
   */
  apart: readonly [short: string, minified: string];
  /** The modules it was bundled from. */
  modules: readonly string[];
}

/**
 * Turns a module with everything it imports into one ES5 script without helpers: esbuild bundles,
 * TypeScript lowers, `specialise` fits it, esbuild shortens. Same sources, same bytes.
 *
 * @throws esbuild's error if a module is missing or does not parse
 */
export async function compileEs5(options: Es5Options): Promise<Es5Script> {
  const readable = await lower(options);
  const { known, shape } = options.fitting ?? {};
  const assigned = ['length', 'push', ...namesAssignedTo(options.global, readable)];
  const keep = options.keepFields && [...options.keepFields, ...assigned];
  const globals = [options.global];
  const fitted = specialise(readable, { known, room: shape, globals, fields: keep });
  const apart = await minify(fitted.apart, keep, shape);
  const [, minified] =
    fitted.code === fitted.apart ? apart : await minify(fitted.code, keep, shape);
  return {
    readable: plainTokens(readable).replace(/\/\*!/g, '/**'),
    minified,
    apart,
    modules: fitted.modules,
  };
}

/** @returns the code in its shorter form, first with its names and white space, then without */
async function minify(
  code: string,
  keepFields: readonly string[] | undefined,
  shape: Shape | undefined,
): Promise<[short: string, minified: string]> {
  // Twice: what the first makes, the second makes shorter still.
  const once = await transform(code, { ...PLAIN, minifySyntax: true });
  const short = await transform(once.code, { ...PLAIN, minifySyntax: true });
  const statements = plainStatements(short.code, shape?.branches === true, shape?.small === true);
  const plain = await transform(statements, PLAIN);
  const minified = await transform(plain.code, {
    ...PLAIN,
    minifyWhitespace: true,
    minifyIdentifiers: true,
    ...(keepFields && {
      mangleProps: /./,
      reserveProps: new RegExp(`^(${keepFields.join('|')})$`),
    }),
  });
  return [plainTokens(plain.code), shortNames(plainTokens(minified.code, true))];
}

const PLAIN: TransformOptions = { target: 'es5', charset: 'ascii', legalComments: 'none' };

/** The script as the sources are written, in ES5. */
export async function readableEs5(options: Es5Options): Promise<string> {
  return plainTokens(await lower(options)).replace(/\/\*!/g, '/**');
}

/** The bundled script in ES5. */
async function lower(options: Es5Options): Promise<string> {
  const bundled = await build({
    entryPoints: [options.entry],
    absWorkingDir: options.root,
    bundle: true,
    write: false,
    format: 'iife',
    target: 'es2020',
    charset: 'ascii',
    treeShaking: true,
    legalComments: 'inline',
    logLevel: 'silent',
    // Not the user's tsconfig: the same sources must give the same bytes everywhere.
    tsconfigRaw: {},
    banner: { js: `var ${options.global} = {};` },
    define: options.define ?? {},
    plugins: [...(options.fitting ? [fitPlugin(options.fitting.values)] : []), keepFunctionDocs],
  });
  return compiler.transpileModule(bundled.outputFiles[0]!.text, {
    compilerOptions: {
      target: compiler.ScriptTarget.ES5,
      module: compiler.ModuleKind.ESNext,
      ignoreDeprecations: '6.0',
      alwaysStrict: false,
      newLine: compiler.NewLineKind.LineFeed,
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
