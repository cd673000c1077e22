import { type Constants, V } from '../../lib/index.ts';
import type { LimitVerdict } from '../check/limit-monitor.ts';
import { createArmingWatch } from '../replay/arming-watch.ts';
import { createCoreRunner, type ReplayEngine } from '../replay/core-runner.ts';
import type { Detection } from '../replay/detections.ts';
import { evaluateBundle } from '../replay/evaluate-bundle.ts';
import { createFigures, type Figures } from '../replay/figures.ts';
import { createLimitWatch } from '../replay/limit-watch.ts';
import { In, inputWidth, outputWidth } from '../replay/row-layout.ts';
import { createRunClock } from '../replay/run-clock.ts';
import { createTimeline } from '../replay/timeline.ts';
import { createToldFlags } from '../replay/told-flags.ts';
import { createVerifier, type Verification } from '../replay/verification.ts';
import type { Finding, StateSpan } from '../report/report-data.ts';
import { rowsChunk } from './rows-chunk.ts';
import type { SimulationResult } from './simulate.ts';

/** What the core did in a drive, and whether it may be believed. */
export interface DriveJudgement {
  limits: LimitVerdict[];
  /** Whether no limit was broken. */
  held: boolean;
  /** Times are those of the manoeuvre, s. */
  states: StateSpan[];
  findings: Finding[];
  /** What the core found by the motors’ currents; told among the findings, too. */
  detections: Detection[];
  figures: Figures;
  /** Whether the bundle recomputed every output that the core gave in the loop. */
  verification: Verification;
}

/**
 * Steps the bundle that a hub would run through the inputs of a drive, compares bit for bit, and
 * holds the drive to the safety limits.
 *
 * @param bundle script of the core; see targets/SPEC.md
 */
export async function judgeDrive(
  { rows, leadInS }: SimulationResult,
  constants: Constants,
  bundle: string,
  engine: ReplayEngine,
): Promise<DriveJudgement> {
  const layout = constants.vehicle[V.LAYOUT]!;
  const evaluated = evaluateBundle(bundle);
  const runner = await createCoreRunner(evaluated, constants, engine);
  const recomputed = runner.run(rows.inputs, rows.count);
  runner.dispose();
  const chunk = rowsChunk(rows, layout);
  const verifier = createVerifier(layout, new Set(chunk.columns.keys()));
  const watch = createLimitWatch(evaluated, constants);
  const timeline = createTimeline(layout);
  const arming = createArmingWatch(constants);
  const figures = createFigures(rows.motors);
  const told = createToldFlags(constants);
  const clock = createRunClock();
  watch.take(rows.inputs, rows.outputs, rows.count);
  for (let row = 0; row < rows.count; row++) {
    const inputAt = row * inputWidth(rows.motors);
    const stepMs = clock.step(rows.inputs[inputAt + In.TIME]!);
    const at = row * outputWidth(rows.motors);
    const flags = told.of(stepMs, rows.outputs, at);
    timeline.observe(clock.atMs / 1000, rows.outputs, at, flags);
    arming.observe(stepMs, rows.inputs, inputAt, rows.outputs, at);
    figures.observe(stepMs / 1000, rows.outputs, at, flags);
    verifier.compare(chunk, row, recomputed, at, clock.atMs);
  }
  const { states, findings, detections } = timeline.finish();
  const limits = watch.verdicts();
  // The run's clock begins with its first tick, the manoeuvre after the lead-in.
  const startS = leadInS - (rows.inputs[In.TIME] ?? 0) / 1000;
  return {
    limits: limits.map((limit) => limitFrom(limit, 1000 * startS)),
    held: limits.every((limit) => limit.held !== false),
    states: states.map((span) => ({
      ...span,
      fromS: span.fromS - startS,
      toS: span.toS - startS,
    })),
    findings: [...arming.finish(), ...findings.map((finding) => findingFrom(finding, startS))],
    detections: detections.map((each) => ({
      ...each,
      fromS: each.fromS - startS,
      toS: each.toS - startS,
    })),
    figures: figures.finish(),
    verification: verifier.result(),
  };
}

function limitFrom({ firstAtMs, ...limit }: LimitVerdict, startMs: number): LimitVerdict {
  return firstAtMs === undefined ? limit : { ...limit, firstAtMs: firstAtMs - startMs };
}

function findingFrom(finding: Finding, startS: number): Finding {
  const { atS, toS } = finding;
  return { ...finding, atS: atS - startS, ...(toS !== undefined && { toS: toS - startS }) };
}
