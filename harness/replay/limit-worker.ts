import type { Constants } from '../../lib/index.ts';
import type { LimitVerdict } from '../check/limit-monitor.ts';
import { evaluateBundle } from './evaluate-bundle.ts';
import { createLimitWatch, type LimitWatch } from './limit-watch.ts';

/** What is judged: the script that is replayed, and what it drives with. */
export interface LimitWork {
  code: string;
  constants: Constants;
}

/** Ticks as rows; see row-layout. */
export interface LimitTicks {
  inputs: Int32Array;
  outputs: Int32Array;
  count: number;
}

let watch: LimitWatch;

/** Begins the one run that this worker judges. */
export function begin({ code, constants }: LimitWork): void {
  watch = createLimitWatch(evaluateBundle(code), constants);
}

/** Takes the next ticks of it. */
export function take({ inputs, outputs, count }: LimitTicks): void {
  watch.take(inputs, outputs, count);
}

/** Takes what a step threw. */
export function threw(error: string): void {
  watch.threw(error);
}

/** What the ticks taken so far have shown. */
export function verdicts(): LimitVerdict[] {
  return watch.verdicts();
}
