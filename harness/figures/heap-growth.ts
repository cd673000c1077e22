import { setFlagsFromString } from 'node:v8';
import { createContext, runInContext, runInNewContext } from 'node:vm';
import { duktapeEngine, mujsEngine, withScriptFile } from '../engines/command-engine.ts';
import { addPrint, evaluate, loadQuickJs } from '../engines/quickjs-engine.ts';
import type { Figure, FigureSource } from './figure.ts';
import { figureBundle } from './figure-bundle.ts';
import { tickScript } from './tick-script.ts';
import { countHeap, valgrindMissing } from './valgrind.ts';

const WHAT = 'heap growth a tick';
const UNIT = 'bytes';

/** What a tick leaves on the heap of each engine after it has collected its garbage. */
export const heapGrowthPerTick: FigureSource = {
  name: 'heap',
  async measure() {
    const { code } = await figureBundle('full', { sensors: true, fades: false });
    return heapGrowthOf(code);
  },
};

/**
 * The same for a given program.
 *
 * @param bundle code of a bundle of the variant `full`
 * @param nodeTicks ticks on Node, whose own account of its heap is good to some kilobytes
 */
export async function heapGrowthOf(bundle: string, nodeTicks = 1_000_000): Promise<Figure[]> {
  return [
    await onNode(bundle, nodeTicks),
    await onQuickJs(bundle),
    ...(await onDuktape(bundle)),
    ...(await onMujs(bundle)),
  ];
}

async function onNode(bundle: string, n: number): Promise<Figure> {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  const context = createContext({ print: () => {} });
  runInContext(tickLoop(bundle), context);
  const run = (context as unknown as { run: (ticks: number) => void }).run;
  const used = () => {
    run(n);
    collect();
    return process.memoryUsage().heapUsed;
  };
  // Long enough that the engine's own growth, while it compiles, is past, and its noise is small.
  used();
  const before = used();
  const value = Math.round((1000 * (used() - before)) / n) / 1000;
  const note = `heap in use after ${n} ticks more, each time after a collection`;
  return { what: WHAT, where: 'node', value: Math.max(value, 0), unit: UNIT, most: 0, note };
}

async function onQuickJs(bundle: string): Promise<Figure> {
  const context = (await loadQuickJs()).newContext();
  addPrint(context, () => {});
  evaluate(context, tickLoop(bundle));
  const n = 2000;
  const used = () => {
    evaluate(context, `run(${n})`);
    const usage = context.runtime.computeMemoryUsage();
    const { memory_used_size: bytes } = context.dump(usage) as { memory_used_size: number };
    usage.dispose();
    return bytes;
  };
  used();
  const before = used();
  const value = (used() - before) / n;
  context.dispose();
  const note = `heap in use after ${n} ticks more, by QuickJS's own account`;
  return { what: WHAT, where: 'quickjs', value, unit: UNIT, most: 0, note };
}

function onDuktape(bundle: string): Promise<Figure[]> {
  // Collects its garbage at the end and leaves the rest to be counted.
  return byValgrind('duktape', duktapeEngine.available(), 'duk', ['--no-heap-destroy'], bundle, '');
}

function onMujs(bundle: string): Promise<Figure[]> {
  // Left by `quit`, it does not free what is still in use.
  return byValgrind('mujs', mujsEngine.available(), 'mujs', [], bundle, 'gc(); quit(0);');
}

async function byValgrind(
  where: string,
  engineMissing: string | null,
  command: string,
  parameters: string[],
  bundle: string,
  ending: string,
): Promise<Figure[]> {
  const missing = valgrindMissing() ?? engineMissing;
  if (missing !== null) return [{ what: WHAT, where, value: null, unit: UNIT, note: missing }];
  const n = 400;
  const after = (ticks: number) =>
    withScriptFile(`${tickScript({ bundle, ticks, steps: true, fades: false })}${ending}`, (file) =>
      countHeap(command, [...parameters, file]),
    );
  const [once, twice] = await Promise.all([after(n), after(2 * n)]);
  const note = `memcheck, in use at exit, (2 N ticks - N ticks) / N, N = ${n}`;
  const passing = `memcheck, all allocations of the engine, those it frees included`;
  return [
    {
      what: WHAT,
      where,
      value: (twice.inUse - once.inUse) / n,
      unit: UNIT,
      most: 0,
      note,
    },
    {
      what: 'allocated and freed by the engine a tick',
      where,
      value: Math.round((twice.allocated - once.allocated) / n),
      unit: UNIT,
      note: passing,
    },
  ];
}

/** A script that makes a hub and a function `run(ticks)` that drives on from where it was. */
function tickLoop(bundle: string): string {
  return `${bundle}
var now = 0;
var hub = axlewright.boot({
  nowMs: function () { return now; },
  readThrottleUs: function () { return now < 2000 ? 1500 : 1700; },
  readSteerUs: function () { return 1400; },
  readInputAgeMs: function () { return 5; },
  readBatteryMv: function () { return 7300; },
  readCurrentMa: function () { return 600; },
  readYawRate: function () { return 20; },
  writeDrive: function () {}
}, 20, 10);
function run(ticks) {
  for (var i = 0; i < ticks; i++) { now = (now + 10) | 0; hub.tick(); }
}
`;
}
