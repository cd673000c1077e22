import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'acorn';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { nodeEngine } from '../../harness/engines/node-engine.ts';
import { compileEs5, type Es5Script } from '../../targets/build/es5.ts';
import { plainTokens } from '../../targets/build/plain-tokens.ts';
import { publicNames } from '../../targets/build/public-names.ts';
import { packageRoot } from '../../targets/package-root.ts';
import { buildSample, sampleBundle } from './sample-bundle.ts';

/** Sources that hold every trap of the chain. */
const SOURCES: Record<string, string> = {
  'codes.ts': `
    /** Doc of a type, not of a function. */
    export const enum Code { NONE = 0, MANY = 1000 }
  `,
  'stage.ts': `
import { Code } from './codes.ts';

/** Doc of a function. */
export function createStage(start: number): { read(): number; kept: number } {
  let count = start;
  const share = 7 / 100;
  const stage = { kept: 5, hidden: 6, read: read };
  // A comment within.
  function read(): number {
    for (const step of [1, 2]) {
      const twice = step * 2;
      count += twice;
    }
    if (count === Code.MANY) count = 100000;
    return count * share + stage.hidden;
  }
  return stage;
}
`,
  'entry.ts': `
import { createStage } from './stage.ts';
declare const demo: Record<string, unknown>;
declare const GIVEN: number[];
demo.createStage = createStage;
demo.given = GIVEN;
`,
};

let folder: string;
let script: Es5Script;

function compile(): Promise<Es5Script> {
  return compileEs5({
    entry: join(folder, 'entry.ts'),
    root: folder,
    global: 'demo',
    define: { GIVEN: '[1000,-20000,300]' },
    keepFields: ['read', 'kept'],
  });
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'axlewright-chain-'));
  for (const [name, text] of Object.entries(SOURCES)) writeFileSync(join(folder, name), text);
  script = await compile();
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('traps of the chain', () => {
  it('leaves a ratio a division: folded, it is a decimal some engines read inexactly', () => {
    expect(script.readable).toContain('7 / 100');
    expect(script.minified).toContain('7/100');
    expect(script.minified).not.toMatch(/\.0?7/);
  });

  it('writes whole numbers with plain digits, also where esbuild shortens them', () => {
    for (const text of [script.readable, script.minified]) {
      expect(text).toContain('100000');
      expect(text).toMatch(/1000\b/);
      expect(text).toContain('-20000');
      expect(text).not.toMatch(/\de\d/);
    }
    expect(plainTokens('x = 1e3 + 2E2 + a1e3 - .5e1 + 0x1e3 + 1.5 + "1e3";')).toBe(
      'x = 1000 + 200 + a1e3 - 5 + 0x1e3 + 1.5 + "1e3";',
    );
  });

  it('puts the value of a const enum in its place', () => {
    expect(script.minified).not.toContain('Code');
    expect(script.readable).toContain('1000 /* MANY */');
  });

  it('is ES5, with no helper, getter, strict mode or export machinery', () => {
    for (const text of [script.readable, script.minified]) {
      expect(() => parse(text, { ecmaVersion: 5 })).not.toThrow();
      expect(text).not.toMatch(/__|defineProperty|use strict|exports|Symbol|Object|get /);
    }
  });

  it('keeps the doc of a function when readable, and no comment when minified', () => {
    expect(script.readable).toContain('/** Doc of a function. */');
    expect(script.readable).not.toContain('Doc of a type');
    expect(script.minified).not.toMatch(/\/\*|\/\//);
  });

  it('declares inner functions before the first use of their name, and joins variables', () => {
    const inner = script.readable.indexOf('function read(');
    expect(inner).toBeLessThan(script.readable.indexOf('read: read'));
    expect(script.readable).toContain('var count = start, share = 7 / 100, stage =');
  });

  it('shortens inner fields and keeps the public ones', () => {
    expect(script.minified).not.toContain('hidden');
    expect(script.minified).toMatch(/\bread:/);
    expect(script.minified).toMatch(/\bkept:/);
    expect(script.minified).toContain('demo.createStage=');
  });

  it('means the same in both forms as the source does', async () => {
    const call = 'var s = demo.createStage(10); s.read(); print(s.read() * 100 + demo.given[1]);';
    // 10 + 2 + 4 twice = 22; 22 * 7 / 100 + 6 = 7.54; 754 - 20000.
    for (const text of [script.readable, script.minified]) {
      expect(await nodeEngine.run(`${text};${call}`)).toBe('-19246\n');
    }
  });

  it('gives the same bytes for the same sources', async () => {
    expect(await compile()).toEqual(script);
  });
});

describe('the real bundle', () => {
  it('is the same bytes for the same options', async () => {
    const variant = 'core';
    expect(await buildSample({ variant })).toEqual(await sampleBundle({ variant }));
  });

  it('assigns its exports to one global record, and makes no other global', async () => {
    for (const minify of [true, false]) {
      const { code } = await sampleBundle({ minify });
      const program = parse(code, { ecmaVersion: 5 });
      expect(program.body.map(({ type }) => type)).toEqual([
        'VariableDeclaration',
        'ExpressionStatement',
      ]);
      const list = 'var n = []; for (var k in axlewright) n.push(k); print(n.sort().join());';
      expect(await nodeEngine.run(`${code}\n${list}`)).toBe(
        'boot,constants,createController,createInputs,createOutputs,createRecorder\n',
      );
    }
  });

  it('embeds constants as integer literals', async () => {
    const { code } = await sampleBundle({ minify: true });
    expect(code).toMatch(
      /\{vehicle:\[2,1,2,10,100,1000,1500,2000,[\d,-]+\],setups:\[\[[\d,-]+\]\]/,
    );
  });

  it('accounts for every byte of the minified script', async () => {
    const { code, parts } = await sampleBundle({ minify: true });
    const script = code.slice(code.indexOf('\n') + 1);
    expect(parts.reduce((sum, { bytes }) => sum + bytes, 0)).toBe(script.length);
    expect(parts.map(({ name }) => name)).toContain('lib/controller.ts');
    expect(parts.find(({ name }) => name === 'constants')!.bytes).toBeGreaterThan(300);
    expect(parts.find(({ name }) => name === 'wrapper')!.bytes).toBeLessThan(60);
    const readable = await sampleBundle({ minify: false });
    expect(readable.parts).toEqual(parts);
  });

  it('keeps every field name that a hub sees in the minified form', async () => {
    const { code } = await sampleBundle({ minify: true });
    const files = ['lib/signals.ts', 'lib/recorder.ts', 'targets/generic/ports.ts'];
    const names = await publicNames(files.map((file) => join(packageRoot(), file)));
    expect(names.length).toBeGreaterThan(30);
    for (const name of names) expect(code, name).toMatch(new RegExp(`\\b${name}\\b`));
  });

  it('refuses names that do not fit the header or the setups', async () => {
    const { buildBundle } = await import('../../targets/build/bundle.ts');
    const { generic } = await import('../../targets/generic/manifest.ts');
    const constants = { vehicle: [1], setups: [[1]], crc: 1 };
    const base = { target: generic, variant: 'core', minify: true } as const;
    const build = (setups: string[], given = constants) =>
      buildBundle({ ...base, constants: given, setups });
    await expect(build([])).rejects.toThrow('0 names for 1 setups');
    await expect(build(['a b'])).rejects.toThrow('must match');
    await expect(build(['a'], { ...constants, vehicle: [0.5] })).rejects.toThrow('integer');
  });
});
