import { type Layout, MISSING } from '../../lib/index.ts';
import type { RunChunk } from '../runs/run-chunk.ts';
import { motorNames } from '../runs/run-columns.ts';
import { Out, outputWidth } from './row-layout.ts';

/**
 * What the motors were commanded while the run was recorded, permille, a row of motors a tick;
 * where the run does not say, what the core makes of it.
 *
 * @param outputs recomputed rows of the chunk, see row-layout
 */
export function driveRows(chunk: RunChunk, layout: Layout, outputs: Int32Array): Int32Array {
  const names = motorNames(layout);
  const width = outputWidth(names.length);
  const drives = new Int32Array(chunk.rows * names.length);
  names.forEach((name, motor) => {
    const recorded = chunk.columns.get(`drive_${name}_permille`);
    for (let row = 0; row < chunk.rows; row++) {
      const was = recorded?.[row] ?? MISSING;
      const computed = outputs[row * width + Out.DRIVE + motor]!;
      drives[row * names.length + motor] = was === MISSING ? computed : was;
    }
  });
  return drives;
}
