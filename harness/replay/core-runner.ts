import { type Constants, V } from '../../lib/index.ts';
import { evaluate, loadQuickJs } from '../engines/quickjs-engine.ts';
import type { EvaluatedBundle } from './evaluate-bundle.ts';
import { inputWidth, outputWidth } from './row-layout.ts';

/** A core from a bundle, at power-up, that takes rows of inputs and gives rows of outputs. */
export interface CoreRunner {
  /** Number of motors. */
  readonly motors: number;
  /**
   * Steps the core once for each row.
   *
   * @param rows `count` rows of `inputWidth(motors)` integers, see row-layout
   * @returns `count` rows of `outputWidth(motors)` integers; fractions are cut off
   */
  run(rows: Int32Array, count: number): Int32Array;
  /** What a step threw first, against limit S15, or an empty text. */
  threw(): string;
  /** Gives back what the engine holds. */
  dispose(): void;
}

/** Engines a replay can run the bundle in. */
export type ReplayEngine = 'node' | 'quickjs';

/**
 * @param bundle of any variant, see targets/SPEC.md
 * @param constants what the core is to drive with
 * @param engine which JavaScript engine runs the bundle
 */
export async function createCoreRunner(
  bundle: EvaluatedBundle,
  constants: Constants,
  engine: ReplayEngine,
): Promise<CoreRunner> {
  const motors = constants.vehicle[V.MOTORS]!;
  const driver = driverSource(constants, motors);
  if (engine === 'node') {
    const create = new Function('axlewright', `${driver}\nreturn { run: runRows, threw: told };`);
    const { run, threw } = create(bundle.axlewright) as Driver;
    return {
      motors,
      run: (rows, count) => {
        const out = new Int32Array(count * outputWidth(motors));
        run(rows, count, out);
        return out;
      },
      threw,
      dispose: () => {},
    };
  }
  return quickJsRunner(bundle.code, driver, motors);
}

interface Driver {
  run(rows: ArrayLike<number>, count: number, out: number[] | Int32Array): void;
  threw(): string;
}

/** ES5, run beside the bundle in the same engine. */
function driverSource(constants: Constants, motors: number): string {
  const width = inputWidth(motors);
  const outWidth = outputWidth(motors);
  return `
var core = axlewright.createController(${JSON.stringify(constants)});
var inputs = axlewright.createInputs(), outputs = axlewright.createOutputs();
var threw = '';
function told() { return threw; }
function runRows(rows, count, out) {
  for (var n = 0; n < count; n++) {
    var r = n * ${width}, o = n * ${outWidth};
    inputs.timeMs = rows[r]; inputs.throttleUs = rows[r + 1]; inputs.steerUs = rows[r + 2];
    inputs.ageMs = rows[r + 3]; inputs.slot = rows[r + 4]; inputs.guest = rows[r + 5];
    inputs.batteryMv = rows[r + 6]; inputs.yawRateMradS = rows[r + 7];
    for (var m = 0; m < ${motors}; m++) {
      inputs.currentMa[m] = rows[r + 8 + m];
      inputs.wheelDegS[m] = rows[r + ${8 + motors} + m];
    }
    try { core.step(inputs, outputs); } catch (error) { threw = threw || String(error); }
    out[o] = outputs.enable; out[o + 1] = outputs.steer; out[o + 2] = outputs.state;
    out[o + 3] = outputs.cause; out[o + 4] = outputs.flags; out[o + 5] = outputs.slot;
    out[o + 6] = outputs.throttle | 0; out[o + 7] = outputs.demand | 0;
    out[o + 8] = outputs.cut | 0; out[o + 9] = outputs.limit | 0;
    out[o + 10] = outputs.speed | 0; out[o + 11] = outputs.found;
    out[o + 12] = outputs.spin | 0; out[o + 13] = outputs.free | 0;
    out[o + 14] = outputs.jam | 0; out[o + 15] = outputs.assist | 0;
    for (m = 0; m < ${motors}; m++) out[o + 16 + m] = outputs.drive[m];
  }
}`;
}

async function quickJsRunner(code: string, driver: string, motors: number): Promise<CoreRunner> {
  const context = (await loadQuickJs()).newContext();
  evaluate(context, code);
  // Integers cross the border as text: exact, and one call a chunk.
  const call = 'function runText(t,n){var o=[];runRows(eval("["+t+"]"),n,o);return o.join()}';
  evaluate(context, `${driver}\n${call}`);
  const runText = context.getProp(context.global, 'runText');
  const told = context.getProp(context.global, 'told');
  return {
    motors,
    run: (rows, count) => {
      const text = context.newString(rows.subarray(0, count * inputWidth(motors)).join());
      const n = context.newNumber(count);
      const result = context.unwrapResult(
        context.callFunction(runText, context.undefined, text, n),
      );
      const numbers = context.getString(result).split(',').map(Number);
      for (const handle of [text, n, result]) handle.dispose();
      return Int32Array.from(numbers);
    },
    threw: () => {
      const text = context.unwrapResult(context.callFunction(told, context.undefined));
      const threw = context.getString(text);
      text.dispose();
      return threw;
    },
    dispose: () => {
      told.dispose();
      runText.dispose();
      context.dispose();
    },
  };
}
