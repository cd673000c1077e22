import { Cause, type Layout, State } from '../../lib/index.ts';
import type { Finding, StateSpan } from '../report/report-data.ts';
import { CAUSE_WORDS, FLAG_WORDS, STATE_WORDS } from '../words/core-words.ts';
import { detectionSentence } from './detection-sentence.ts';
import { createDetections, type Detection } from './detections.ts';
import { Out } from './row-layout.ts';

/** Gathers what a reader of the run wants to know, tick by tick, in bounded memory. */
export interface Timeline {
  /**
   * @param atS run time, seconds; `outputs[at...]` is the tick's row
   * @param flags as ToldFlags has them
   */
  observe(atS: number, outputs: Int32Array, at: number, flags: number): void;
  /** @param said bits of Flag that are told otherwise */
  finish(said?: number): TimelineResult;
}

/** What stands on a timeline, in the order of time. */
interface TimelineResult {
  states: StateSpan[];
  /** Everything a reader is told; the detections are among them, as sentences. */
  findings: Finding[];
  detections: Detection[];
  /** How many more there were. */
  dropped: number;
}

/** A finding, and the flag that it tells of, if it does. */
interface Flagged extends Finding {
  flag?: number;
}

/** Flags that go and come back within this time count as one stretch, s. */
const JOIN_S = 0.5;
/** More findings of one kind than this tell nothing new. */
const MOST_OF_A_KIND = 50;

/** @param layout decides the motors that findings name */
export function createTimeline(layout: Layout): Timeline {
  const gatherer = createDetections(layout);
  const states: StateSpan[] = [];
  const findings: Flagged[] = [];
  const spans = FLAG_WORDS.map(() => ({ from: -1, to: -1, assist: 0, count: 0 }));
  let state = -1;
  let cause: number = Cause.NONE;
  let dropped = 0;
  let endS = 0;

  function observe(atS: number, outputs: Int32Array, at: number, flags: number): void {
    endS = atS;
    gatherer.observe(atS, outputs, at);
    const now = outputs[at + Out.STATE]!;
    if (now !== state) {
      state = now;
      const words = STATE_WORDS[now]!;
      const before = states.at(-1);
      if (before !== undefined) before.toS = atS;
      states.push({ fromS: atS, toS: atS, label: words.label, kind: words.kind });
    }
    const why = outputs[at + Out.CAUSE]!;
    if (why !== cause) {
      cause = why;
      if (why !== Cause.NONE) findings.push(stopFinding(atS, why));
      else if (now === State.READY) {
        findings.push({ atS, severity: 'note', text: 'Re-armed by a held neutral throttle.' });
      }
    }
    FLAG_WORDS.forEach((word, i) => {
      const span = spans[i]!;
      if ((flags & word.flag) === 0) return;
      if (span.from >= 0 && atS - span.to > JOIN_S) close(i);
      if (span.from < 0) span.from = atS;
      span.to = atS;
      span.assist = Math.max(span.assist, Math.abs(outputs[at + Out.ASSIST]!));
    });
  }

  function close(i: number): void {
    const span = spans[i]!;
    const { flag, text, warning } = FLAG_WORDS[i]!;
    const words = typeof text === 'string' ? text : text(span.assist);
    span.count++;
    if (span.count > MOST_OF_A_KIND) dropped++;
    else {
      findings.push({
        atS: span.from,
        toS: span.to,
        severity: warning ? 'warning' : 'note',
        text: `${words[0]!.toUpperCase()}${words.slice(1)}.`,
        flag,
      });
    }
    span.from = -1;
    span.assist = 0;
  }

  function finish(said = 0): TimelineResult {
    spans.forEach((span, i) => {
      if (span.from >= 0) close(i);
    });
    const last = states.at(-1);
    if (last !== undefined) last.toS = endS;
    const told = gatherer.finish();
    findings.push(...told.detections.map(detectionFinding));
    findings.sort((a, b) => a.atS - b.atS);
    return {
      states,
      findings: findings
        .filter(({ flag }) => flag === undefined || (flag & said) === 0)
        .map(({ flag, ...finding }) => finding),
      detections: told.detections,
      dropped: dropped + told.dropped,
    };
  }

  return { observe, finish };
}

function detectionFinding(detection: Detection): Finding {
  const { fromS, toS } = detection;
  return { atS: fromS, toS, severity: 'warning', text: detectionSentence(detection) };
}

function stopFinding(atS: number, cause: number): Finding {
  const latched = cause >= Cause.LOW_SUPPLY;
  return {
    atS,
    severity: 'warning',
    text: `${latched ? 'Latched fault' : 'Controlled stop'}: ${CAUSE_WORDS[cause]}.`,
  };
}
