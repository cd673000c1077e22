import { type Constants, V } from '../../lib/index.ts';
import type { LimitVerdict } from '../check/limit-monitor.ts';
import type { Finding, StateSpan } from '../report/report-data.ts';
import { type ReadOptions, readRun } from '../runs/read-run.ts';
import type { RunChunk } from '../runs/run-chunk.ts';
import { createCoreRunner, type ReplayEngine } from './core-runner.ts';
import type { Detection } from './detections.ts';
import { evaluateBundle } from './evaluate-bundle.ts';
import { createFigures, type Figures } from './figures.ts';
import { inputRows } from './input-rows.ts';
import { createLimitWatch } from './limit-watch.ts';
import { createLimitsAside } from './limits-aside.ts';
import { In, inputWidth, outputWidth } from './row-layout.ts';
import { createRunClock } from './run-clock.ts';
import { createRunNotes } from './run-notes.ts';
import { createTimeline } from './timeline.ts';
import { createToldFlags } from './told-flags.ts';
import { createVerifier, type Verification, type Verifier } from './verification.ts';

/** What to replay, and how. */
export interface ReplayOptions {
  /** Path of the run. */
  run: string;
  /** How the run is read, and who hears of what is wrong with it. */
  read: ReadOptions;
  /** The bundle that is stepped; see targets/SPEC.md. */
  bundle: string;
  /** What the core drives with. */
  constants: Constants;
  /** A second set of constants to step with the same inputs. */
  against?: Constants;
  /** Compare with the outputs that the run holds. */
  verify?: boolean;
  engine: ReplayEngine;
  /**
   * Whether limits are judged in a thread of their own; starting that takes a tenth of a second.
   */
  aside?: boolean;
  /** Called with every tick, in order; for traces, or to save what was recomputed. */
  onTick?: (tick: ReplayedTick) => void;
  /** Called after every chunk, when the ticks of it have been seen by `onTick`. */
  onChunk?: (chunk: ReplayedChunk) => void | Promise<void>;
}

/** One tick of a replay. The arrays are used again: copy what is to stay. */
export interface ReplayedTick {
  /** Run time: sum of the run's clock where it ran forward, s. */
  atS: number;
  /** Rows of inputs, see row-layout; this tick's begins at `inputAt`. */
  inputs: Int32Array;
  inputAt: number;
  /** The same for outputs. */
  outputs: Int32Array;
  outputAt: number;
  /** Rows of outputs of the second set of constants. */
  against?: Int32Array;
  /** The run's own rows, and which of them this is. */
  chunk: RunChunk;
  row: number;
}

/** A stretch of a replay. */
export interface ReplayedChunk {
  chunk: RunChunk;
  inputs: Int32Array;
  outputs: Int32Array;
}

/** What a replay found. */
export interface ReplayResult {
  ticks: number;
  durationS: number;
  limits: LimitVerdict[];
  /** Whether no limit was broken. */
  held: boolean;
  states: StateSpan[];
  findings: Finding[];
  /** What the core found by the motors’ currents; told among the findings, too. */
  detections: Detection[];
  figures: Figures;
  againstFigures?: Figures;
  verification?: Verification;
}

/**
 * Feeds a run to the core tick by tick and judges what comes out. Memory does not grow with the
 * run's length.
 *
 * @throws UserError if the run cannot be read
 */
export async function replay(options: ReplayOptions): Promise<ReplayResult> {
  const pass = await createPass(options);
  try {
    for await (const chunk of readRun(options.run, options.read)) await pass.take(chunk);
    return await pass.result();
  } finally {
    await pass.dispose();
  }
}

interface Pass {
  take(chunk: RunChunk): Promise<void>;
  result(): Promise<ReplayResult>;
  dispose(): Promise<void>;
}

async function createPass(options: ReplayOptions): Promise<Pass> {
  const { bundle, constants, engine } = options;
  const layout = constants.vehicle[V.LAYOUT]!;
  const evaluated = evaluateBundle(bundle);
  const core = await createCoreRunner(evaluated, constants, engine);
  const other = options.against && (await createCoreRunner(evaluated, options.against, engine));
  const aside = options.aside === true ? createLimitsAside(bundle, constants) : undefined;
  const watch = aside ?? createLimitWatch(evaluated, constants);
  const clock = createRunClock();
  const timeline = createTimeline(layout);
  const notes = createRunNotes(constants);
  const told = createToldFlags(constants);
  const otherTold = options.against && createToldFlags(options.against);
  const figures = createFigures(core.motors);
  const otherFigures = other && createFigures(core.motors);
  const inWidth = inputWidth(core.motors);
  const outWidth = outputWidth(core.motors);
  let verifier: Verifier | undefined;
  let ticks = 0;

  async function take(chunk: RunChunk): Promise<void> {
    const inputs = inputRows(chunk, layout);
    const outputs = core.run(inputs, chunk.rows);
    const against = other?.run(inputs, chunk.rows);
    if (options.verify) verifier ??= createVerifier(layout, new Set(chunk.columns.keys()));
    await watch.take(inputs, outputs, chunk.rows);
    notes.take(chunk, inputs, outputs);
    for (let row = 0; row < chunk.rows; row++) {
      const inputAt = row * inWidth;
      const outputAt = row * outWidth;
      const stepMs = clock.step(inputs[inputAt + In.TIME]!);
      const stepS = stepMs / 1000;
      const atS = clock.atMs / 1000;
      const flags = told.of(stepMs, outputs, outputAt);
      timeline.observe(atS, outputs, outputAt, flags);
      figures.observe(stepS, outputs, outputAt, flags);
      if (against && otherFigures && otherTold) {
        const others = otherTold.of(stepMs, against, outputAt);
        otherFigures.observe(stepS, against, outputAt, others);
      }
      verifier?.compare(chunk, row, outputs, outputAt, clock.atMs);
      options.onTick?.({
        atS,
        inputs,
        inputAt,
        outputs,
        outputAt,
        chunk,
        row,
        ...(against && { against }),
      });
    }
    ticks += chunk.rows;
    await options.onChunk?.({ chunk, inputs, outputs });
  }

  async function result(): Promise<ReplayResult> {
    const threw = core.threw();
    if (threw !== '') await watch.threw(threw);
    const limits = await watch.verdicts();
    const events = timeline.finish(notes.said());
    return {
      ticks,
      durationS: clock.atMs / 1000,
      limits,
      held: limits.every((limit) => limit.held !== false),
      ...events,
      findings: [...notes.finish(), ...events.findings],
      figures: figures.finish(),
      ...(otherFigures && { againstFigures: otherFigures.finish() }),
      ...(verifier && { verification: verifier.result() }),
    };
  }

  return {
    take,
    result,
    dispose: async () => {
      for (const runner of [core, other]) runner?.dispose();
      await aside?.dispose();
    },
  };
}
