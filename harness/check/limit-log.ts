import type { LimitVerdict } from './limit-monitor.ts';

/** Keeps what a monitor has to tell in a few numbers, so that watching a run allocates nothing. */
export interface LimitLog {
  /** How often the limit was exercised. */
  count: number;
  /** The tightest margin seen; Infinity while none was. */
  margin: number;
  /** Times in which it was broken. */
  breaches: number;
  /** Notes that this tick exercised the limit. */
  exercise(atMs: number): void;
  /** Notes a margin that this tick kept. */
  keep(margin: number): void;
  /** Notes a breach; of the first, its kind and two numbers are kept for the sentence. */
  breach(atMs: number, kind: number, value: number, bound: number): void;
  /**
   * @param held sentence if it held
   * @param broken sentence for each kind of breach, from its two numbers
   * @param idle why nothing exercised it
   */
  verdict(
    id: string,
    title: string,
    held: () => string,
    broken: readonly ((value: string, bound: string) => string)[],
    idle: string | Inapplicable,
  ): LimitVerdict;
}

/** Why a limit is nothing to this vehicle with these setups, in a sentence. */
export interface Inapplicable {
  why: string;
}

/** An empty log. */
export function createLimitLog(): LimitLog {
  let exercisedAt = 0;
  let brokenAt = 0;
  let brokenKind = 0;
  let brokenValue = 0;
  let brokenBound = 0;
  const log: LimitLog = {
    count: 0,
    margin: Infinity,
    breaches: 0,
    exercise,
    keep,
    breach,
    verdict,
  };

  function exercise(atMs: number): void {
    if (log.count === 0) exercisedAt = atMs;
    log.count++;
  }

  function keep(margin: number): void {
    if (margin < log.margin) log.margin = margin;
  }

  function breach(atMs: number, kind: number, value: number, bound: number): void {
    if (log.breaches === 0) {
      brokenAt = atMs;
      brokenKind = kind;
      brokenValue = value;
      brokenBound = bound;
    }
    log.breaches++;
  }

  function verdict(
    id: string,
    title: string,
    held: () => string,
    broken: readonly ((value: string, bound: string) => string)[],
    idle: string | Inapplicable,
  ): LimitVerdict {
    if (log.breaches > 0) {
      const first = broken[brokenKind]!(short(brokenValue), short(brokenBound));
      const more = log.breaches > 1 ? ` It was broken in ${log.breaches} ticks in all.` : '';
      return { id, title, held: false, detail: first + more, firstAtMs: brokenAt };
    }
    if (log.count === 0) {
      if (typeof idle === 'string') return { id, title, held: null, detail: idle };
      return { id, title, held: null, applies: false, detail: idle.why };
    }
    return { id, title, held: true, detail: held(), firstAtMs: exercisedAt };
  }

  return log;
}

/** A number for a sentence: whole, or with one decimal below 100. */
export function short(value: number): string {
  if (!Number.isFinite(value) || Number.isInteger(value)) return String(value);
  return Math.abs(value) < 100 ? String(Number(value.toFixed(1))) : String(Math.round(value));
}

/** A command of the core, permille, as a reader sees it: in percent. */
export function percent(permille: string | number): string {
  return `${Number((Number(permille) / 10).toFixed(2))} %`;
}

/** `1 tick`, `2 ticks`. */
export function count(number: number, noun: string, plural = `${noun}s`): string {
  return `${number} ${number === 1 ? noun : plural}`;
}
