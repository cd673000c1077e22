import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { packageRoot } from '../../targets/package-root.ts';
import { hasCommand, runCommand } from '../engines/command-engine.ts';
import { makeFolder } from '../file-error.ts';

/** QuickJS as machine code: the command that runs a script file, or why there is none. */
export type NativeQuickJs = { command: string } | { missing: string };

/** The package that carries QuickJS's C sources, and the SHA-512 of its file. */
const PACKAGE = 'qjsc@0.3.0';
const DIGEST =
  '6bbf9c53afc855c65b21e8df7ddb7fc1954c5fa2cbd8c0cbdc743d65be469b6d' +
  'c6f43bc1312ff3f461c5c73dfd6c0be9d8fbcc38cfb2a52380ca892dd83759db';
const SOURCES = 'package/deps/quickjs_2021_03_27';
const FILES = ['quickjs', 'cutils', 'libregexp', 'libunicode', 'libbf'].map((name) => `${name}.c`);

const OPTIONS = ['-O2', '-w', '-D_GNU_SOURCE', '-DCONFIG_VERSION="2021-03-27"'];

/** The smallest program that runs a script file: the language and `print`, nothing else. */
const RUNNER = `
#include "quickjs.h"
#include <stdio.h>
#include <stdlib.h>
static JSValue print(JSContext *c, JSValueConst self, int count, JSValueConst *given) {
  const char *text = JS_ToCString(c, given[0]);
  puts(text);
  JS_FreeCString(c, text);
  return JS_UNDEFINED;
}
int main(int count, char **given) {
  FILE *file = fopen(given[1], "rb");
  fseek(file, 0, SEEK_END);
  long size = ftell(file);
  rewind(file);
  char *script = malloc(size + 1);
  size = fread(script, 1, size, file);
  script[size] = 0;
  JSContext *c = JS_NewContext(JS_NewRuntime());
  JSValue global = JS_GetGlobalObject(c);
  JS_SetPropertyStr(c, global, "print", JS_NewCFunction(c, print, "print", 1));
  JSValue value = JS_Eval(c, script, size, given[1], JS_EVAL_TYPE_GLOBAL);
  if (!JS_IsException(value)) return 0;
  fprintf(stderr, "%s\\n", JS_ToCString(c, JS_GetException(c)));
  return 1;
}
`;

/**
 * Builds QuickJS from the sources in its npm package, once; the command stays in the cache folder
 * of node_modules. Needs npm, tar, a C compiler and, the first time, the network.
 */
export async function nativeQuickJs(): Promise<NativeQuickJs> {
  const cache = join(packageRoot(), 'node_modules', '.cache', 'axlewright');
  // A command of another runner or other options would be another one.
  const made = createHash('sha256')
    .update(RUNNER + OPTIONS.join())
    .digest('hex');
  const command = join(cache, `${PACKAGE}-${made.slice(0, 12)}`);
  if (existsSync(command)) return { command };
  const absent = ['npm', 'tar', 'cc'].filter((name) => !hasCommand(name));
  if (absent.length > 0) return { missing: `no command ${absent.join(', ')}` };
  let folder: string;
  try {
    makeFolder(cache);
    folder = await mkdtemp(join(cache, 'build-'));
  } catch (error) {
    return { missing: `no room for it in ${cache}: ${(error as Error).message}` };
  }
  try {
    const problem = await build(folder);
    if (problem !== undefined) return { missing: problem };
    await rename(join(folder, 'qjs'), command);
    return { command };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** @returns what went wrong, or undefined: `qjs` is in the folder */
async function build(folder: string): Promise<string | undefined> {
  const packed = ['pack', PACKAGE, '--loglevel', 'error', '--pack-destination', folder];
  const fetched = await run('npm', packed);
  if (fetched.problem !== undefined) return fetched.problem;
  const file = join(folder, fetched.printed.trim());
  const digest = createHash('sha512')
    .update(await readFile(file))
    .digest('hex');
  if (digest !== DIGEST) return `${PACKAGE} is not the file it was`;
  const unpacked = await run('tar', ['-xzf', file, '-C', folder]);
  if (unpacked.problem !== undefined) return unpacked.problem;
  const sources = join(folder, SOURCES);
  const runner = join(folder, 'run.c');
  await writeFile(runner, RUNNER);
  const files = [runner, ...FILES.map((name) => join(sources, name))];
  const libraries = ['-lm', '-lpthread'];
  const compiled = await run('cc', [
    ...OPTIONS,
    '-I',
    sources,
    '-o',
    join(folder, 'qjs'),
    ...files,
    ...libraries,
  ]);
  return compiled.problem;
}

async function run(command: string, parameters: string[]) {
  const { status, printed, said } = await runCommand(command, parameters);
  const why = said.trim().split('\n')[0] || `status ${status}`;
  return { printed, problem: status === 0 ? undefined : `\`${command}\` failed: ${why}` };
}
