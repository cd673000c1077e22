import { extname } from 'node:path';
import { Tinypool } from 'tinypool';
import type { Constants } from '../../lib/index.ts';
import type { LimitVerdict } from '../check/limit-monitor.ts';
import type { LimitTicks, LimitWork } from './limit-worker.ts';

/** As LimitWatch, in a thread of its own: it takes as long as the rest of a replay. */
export interface LimitsAside {
  /** Resolves once the ticks before these are judged, so that no more than two chunks wait. */
  take(inputs: Int32Array, outputs: Int32Array, count: number): Promise<void>;
  /** Takes what a step threw. */
  threw(error: string): Promise<void>;
  verdicts(): Promise<LimitVerdict[]>;
  dispose(): Promise<void>;
}

/**
 * @param code the bundle that is replayed
 * @param constants what it drives with
 */
export function createLimitsAside(code: string, constants: Constants): LimitsAside {
  const filename = new URL(`./limit-worker${extname(import.meta.url)}`, import.meta.url).href;
  const pool = new Tinypool({ filename, minThreads: 1, maxThreads: 1 });
  let judged = run('begin', { code, constants } satisfies LimitWork);

  function run(name: string, task: unknown): Promise<unknown> {
    const done = pool.run(task, { name });
    // What it throws is told by the next `await`.
    done.catch(() => {});
    return done;
  }

  return {
    async take(inputs, outputs, count) {
      await judged;
      judged = run('take', { inputs, outputs, count } satisfies LimitTicks);
    },
    async threw(error) {
      await judged;
      await run('threw', error);
    },
    async verdicts() {
      await judged;
      return (await run('verdicts', undefined)) as LimitVerdict[];
    },
    dispose: () => pool.destroy(),
  };
}
