import { existsSync } from 'node:fs';
import type { EngineName } from '../../targets/manifest.ts';
import { duktapeEngine, mujsEngine, withScriptFile } from '../engines/command-engine.ts';
import type { Figure, FigureSource } from './figure.ts';
import { type FigureCar, figureBundle } from './figure-bundle.ts';
import { nativeQuickJs } from './native-quickjs.ts';
import { tickScript } from './tick-script.ts';
import { countInstructions, valgrindMissing } from './valgrind.ts';

/** An engine as valgrind starts it. */
interface Measured {
  name: EngineName;
  missing(): string | null;
  command: string;
  /** Parameters before the script's. */
  parameters: string[];
  /** N; the count is over N and 2 N ticks. */
  ticks: number;
  /** Goal for one tick with all stages on. */
  most: number;
  note: string;
}

const HOW =
  'each in the shape for its engine; callgrind, x86-64, (2 N ticks - N ticks) / N, ' +
  'less an empty tick';
const MODULE = new URL('../engines/quickjs-engine.js', import.meta.url);
/** The smallest program that runs a script file in QuickJS. */
const RUN_QUICKJS = `
  import { readFileSync } from 'node:fs';
  const { quickjsEngine } = await import('${MODULE}');
  process.stdout.write(await quickjsEngine.run(readFileSync(process.argv[1], 'utf8')));`;

const DUKTAPE: Measured = {
  name: 'duktape',
  missing: duktapeEngine.available,
  command: 'duk',
  parameters: [],
  ticks: 400,
  most: 150_000,
  note: HOW,
};

const MUJS: Measured = { ...DUKTAPE, name: 'mujs', missing: mujsEngine.available, command: 'mujs' };

const QUICKJS: Measured = { ...DUKTAPE, name: 'quickjs', missing: () => null, most: 50_000 };

const QUICKJS_AS_WASM: Measured = {
  ...QUICKJS,
  missing: () => (existsSync(MODULE) ? null : 'only the compiled package can be measured'),
  command: process.execPath,
  // One thread, and one compiler for the WebAssembly: else the two runs differ in more than ticks.
  parameters: [
    ...['--single-threaded', '--no-opt', '--hash-seed=1', '--random-seed=1'],
    ...['--no-liftoff', '--no-wasm-tier-up', '--wasm-lazy-compilation'],
    ...['--input-type=module', '--eval', RUN_QUICKJS],
  ],
  ticks: 5000,
  note: `${HOW}; QuickJS as WebAssembly, optimised by Node: its own machine code would be less`,
};

/** What is measured, its share of the engine's goal, and the car. */
const CASES: readonly (readonly [what: string, share: number | null, car: FigureCar])[] = [
  ['tick, all stages on, two motors; one setup alone', 1, { sensors: true, fades: false }],
  ['the same; shaped for any engine', 1, { sensors: true, fades: false, shape: 'any' }],
  ['the same; as small as can be', 1, { sensors: true, fades: false, shape: 'smallest' }],
  ['the same; fitted for its vehicle', 1, { sensors: true, fades: false, fit: 'vehicle' }],
  ['the same; fitted for nothing', null, { sensors: true, fades: false, fit: 'any' }],
  ['tick, no current and no gyro; one setup alone', 1 / 2, { sensors: false, fades: false }],
  ['tick during a cross-fade; two setups alone', null, { sensors: true, fades: true }],
];

/** Machine instructions of one tick on each engine, against an empty tick. */
export const instructionsPerTick: FigureSource = {
  name: 'instructions',
  async measure() {
    const figures: Figure[] = [];
    for (const engine of [DUKTAPE, MUJS, await quickJs()]) {
      figures.push(...(await measureEngine(engine)));
    }
    return figures;
  },
};

/** QuickJS as the machine code it is on a hub, or else as the WebAssembly of the package. */
async function quickJs(): Promise<Measured> {
  if (valgrindMissing() !== null) return QUICKJS;
  const native = await nativeQuickJs();
  if ('command' in native) {
    const note = `${HOW}; QuickJS 2021-03-27 as machine code, by cc -O2`;
    return { ...QUICKJS, command: native.command, note };
  }
  const note = `${QUICKJS_AS_WASM.note}; that could not be made: ${native.missing}`;
  return { ...QUICKJS_AS_WASM, note };
}

async function measureEngine(engine: Measured): Promise<Figure[]> {
  const unit = 'instructions';
  const missing = valgrindMissing() ?? engine.missing();
  if (missing !== null) {
    const none = { where: engine.name, value: null, unit, note: missing };
    return CASES.map(([what]) => ({ what, ...none }));
  }
  const { code } = await figureBundle('core', { sensors: true, fades: false });
  const empty = await perTick(engine, code, false, false);
  const figures: Figure[] = [
    { what: 'empty tick', where: engine.name, value: empty, unit, note: engine.note },
  ];
  for (const [what, share, car] of CASES) {
    const bundle = await figureBundle('core', { ...car, shape: car.shape ?? engine.name });
    const value = (await perTick(engine, bundle.code, true, car.fades)) - empty;
    const goal = share === null ? {} : { most: engine.most * share };
    figures.push({ what, where: engine.name, value, unit, ...goal, note: engine.note });
  }
  return figures;
}

async function perTick(
  { command, parameters, ticks: n }: Measured,
  bundle: string,
  steps: boolean,
  fades: boolean,
): Promise<number> {
  const count = (ticks: number) =>
    withScriptFile(tickScript({ bundle, ticks, steps, fades }), (file) =>
      countInstructions(command, [...parameters, file]),
    );
  const [once, twice] = await Promise.all([count(n), count(2 * n)]);
  for (const { printed } of [once, twice]) expectDriving(printed, steps && fades);
  return Math.round((twice.count - once.count) / n);
}

/** A core that did not drive, or did not fade, would give too small a figure. */
function expectDriving(printed: string, fades: boolean): void {
  const [state, flags] = printed.trim().split(' ').map(Number) as [number, number];
  const DRIVING = 2;
  const FADING = 64;
  if (state !== DRIVING || (flags & FADING) !== (fades ? FADING : 0)) {
    throw new Error(`the measured core is in state ${state} with flags ${flags}`);
  }
}
