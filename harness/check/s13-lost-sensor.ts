import { Found } from '../../lib/codes.ts';
import { type Constants, Flag, MISSING, S, V } from '../../lib/index.ts';
import { count, createLimitLog, type LimitLog, percent } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { createSlope, FREE } from './slope.ts';
import type { Tick } from './tick.ts';

/** So long may what rests on a sensor go on without it, ms. */
const FADED_MS = 300;
const NO_LOSS = 'While armed, supply and currents gave every sample that they should.';
const NO_SENSOR = { why: 'The vehicle has no sensor of supply or currents that could be lost.' };
const TITLE = 'A lost sensor removes its function and adds no risk';

/**
 * S13: while a sensor the vehicle has gives no sample, the drive stays under the blind cap. A gyro
 * that gives none, or one and the same while yaw assist is at work, leaves the vehicle as it is
 * without yaw assist within 300 ms. A current sensor that gives none takes spin and jam of its
 * motor away: once their sums have sunk from twice the threshold, and their hold has passed.
 */
export function s13LostSensor({ vehicle }: Constants): LimitMonitor {
  const log = createLimitLog();
  const slope = createSlope();
  const cap = vehicle[V.BLIND_CAP]!;
  const supply = vehicle[V.HAS_SUPPLY] === 1;
  const current = vehicle[V.HAS_CURRENT] === 1;
  const gyro = vehicle[V.HAS_GYRO] === 1;
  let greatest = 0;
  let sample = MISSING;
  let missingMs = 0;
  let assistedMs = 0;
  const watchFound = createFoundWatch(log);

  /** Time without a sample, and time of yaw assist on one and the same sample. */
  function watchGyro({ inputs, outputs, forbidMs, atMs }: Tick): void {
    const { yawRateMradS } = inputs;
    const { assist, flags } = outputs;
    if (!gyro && assist !== 0) log.breach(atMs, 2, assist, 0);
    const isMissing = yawRateMradS === MISSING;
    missingMs = isMissing ? missingMs + forbidMs : 0;
    if (yawRateMradS !== sample) assistedMs = 0;
    else if (assist !== 0) assistedMs += forbidMs;
    sample = yawRateMradS;
    if (assist === 0) return;
    if (missingMs > FADED_MS) log.breach(atMs, 2, assist, missingMs);
    else if (assistedMs > FADED_MS) log.breach(atMs, 3, assist, assistedMs);
    else if (isMissing && (flags & Flag.GYRO_DOUBT) === 0) log.breach(atMs, 4, assist, 0);
  }

  function blind({ inputs, motors, supplyLost }: Tick): boolean {
    if (supplyLost) return true;
    if (!current) return false;
    for (let i = 0; i < motors; i++) if (inputs.currentMa[i] === MISSING) return true;
    return false;
  }

  return {
    id: 'S13',
    title: TITLE,
    observe(tick) {
      watchGyro(tick);
      if (current) watchFound(tick);
      const lost = blind(tick);
      const down = (tick.lo[S.STOP]! * tick.forbidMs) / 1000;
      const excess = slope.fall(tick.most, lost ? cap : FREE, down);
      if (!lost) return;
      if (tick.armed) log.exercise(tick.atMs);
      if (tick.most > greatest) greatest = tick.most;
      if (excess > 0) log.breach(tick.atMs, 0, tick.most, cap);
      else if ((tick.outputs.flags & Flag.SENSOR_LOST) === 0) log.breach(tick.atMs, 1, 0, 0);
    },
    verdict: () =>
      log.verdict(
        'S13',
        TITLE,
        () =>
          `A sensor gave no sample in ${count(log.count, 'armed tick')}; the greatest command ` +
          `then was ${percent(greatest)}, and the blind cap is ${percent(cap)}.`,
        [
          (value, bound) =>
            `Without a sensor a command was ${percent(value)}; the blind cap is ${percent(bound)}.`,
          () => 'A sensor gave no sample and the core did not report it.',
          (value, bound) =>
            `Yaw assist changed the cut by ${percent(value)} when the gyro had been silent ` +
            `for ${bound} ms.`,
          (value, bound) =>
            `Yaw assist changed the cut by ${percent(value)}, for ${bound} ms ` +
            `on one and the same sample.`,
          () => 'The gyro gave no sample and the core did not report it.',
          (value, bound) =>
            `Motor ${value} was still found loose or held fast after ${bound} ms ` +
            'without its current.',
        ],
        supply || current ? NO_LOSS : NO_SENSOR,
      ),
  };
}

/** Holds findings to go with the current that they rest on. */
function createFoundWatch(log: LimitLog): (tick: Tick) => void {
  const silentTicks = [0, 0, 0, 0];
  const silentMs = [0, 0, 0, 0];
  return ({ inputs, outputs, motors, lo, hi, permitMs, atMs }) => {
    const spin = hi[S.SPIN_H]! / (100 + lo[S.SPIN_K]!);
    const jam = hi[S.JAM_H]! / (100 + lo[S.JAM_K]!);
    for (let i = 0; i < motors; i++) {
      if (inputs.currentMa[i] !== MISSING) {
        silentTicks[i] = 0;
        silentMs[i] = 0;
      } else if (silentTicks[i]! <= Math.max(spin, jam) + 1) silentTicks[i]!++;
      else silentMs[i]! += permitMs;
      const bits = (Found.SPIN | Found.JAM) << i;
      const isOver = silentMs[i]! > hi[S.FOUND_HOLD_MS]! + permitMs + 1;
      if (isOver && (outputs.found & bits) !== 0) log.breach(atMs, 5, i, silentMs[i]!);
    }
  };
}
