import type { Tick } from './tick.ts';

/** What a run says about one safety limit. */
export interface LimitVerdict {
  /** `S1` to `S17`, as in README. */
  id: string;
  /** What the limit demands. */
  title: string;
  /** null = nothing in this run exercised it. */
  held: boolean | null;
  /** false = no run of this vehicle with these setups could exercise it; `held` is null then. */
  applies?: false;
  /**
   * A sentence for the builder: how often it was exercised, the tightest margin, the breach, or
   * what it would have taken to exercise it.
   */
  detail: string;
  /** Run time of the first breach, or, if it held, of the first time it was exercised, ms. */
  firstAtMs?: number;
}

/**
 * Watches a run for one safety limit, tick by tick. It derives what it holds a core to from
 * inputs, outputs and constants alone, and knows nothing of the core's own bookkeeping. The same
 * monitors judge property tests, replays and reports.
 */
export interface LimitMonitor {
  readonly id: string;
  readonly title: string;
  /** Takes the next tick; allocates nothing. The record is used again. */
  observe(tick: Tick): void;
  verdict(): LimitVerdict;
}
