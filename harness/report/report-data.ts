import type { PathView } from './path-view.ts';
import type { TraceStyle } from './trace-style.ts';

/** Everything a report shows. Plain data; every text is escaped by the renderer. */
export interface ReportData {
  title: string;
  subtitle: string;
  /** The outcome in one sentence, at the very top. */
  verdict: { held: boolean; text: string };
  /** Car, setup, surface, engine, hash, core version, duration, ticks ... */
  facts: Fact[];
  /** The axis that all panels share, seconds, never falling. */
  timeS: number[];
  panels: Panel[];
  /** What the supervisor did, in the order of time. */
  states: StateSpan[];
  /** In any order; the report sorts and numbers them by time. */
  findings: Finding[];
  /** One row a safety limit. */
  limits: LimitRow[];
  /** What is wrong or odd in the file. */
  odds: Odd[];
  /** Two setups over the same inputs; the panels then hold the traces of both. */
  comparison?: Comparison;
  /** How the vehicle handled, one line a setup; stands above the outcome. */
  handling?: Handling[];
  /** A simulated drive seen from above. */
  path?: PathView;
  /** Figures of a simulated drive. */
  metrics?: MetricsTable;
  /** Names of the setups that share every panel, in the order of the styles; two or more. */
  overlay?: string[];
  /** Sentences of the safety box. */
  cautions: string[];
}

/** One line of the box of facts. */
export interface Fact {
  label: string;
  value: string;
  /** true = it needs a line of its own. */
  isLong?: boolean;
}

/** One chart. */
export interface Panel {
  title: string;
  /** Unit of every trace, as the reader is to see it; empty = none. */
  unit: string;
  traces: Trace[];
  /** Least and greatest value of the axis; left out = fitted to the whole run. */
  range?: [number, number];
}

/** One line in a chart. */
export interface Trace {
  label: string;
  /** One value for each of `timeS`; `null` = no sample, drawn as a gap. */
  values: (number | null)[];
  /** Left out = each trace of a panel gets another one. */
  style?: TraceStyle;
  /**
   * Which colour of the palette, from 0. Left out = its place in the panel; or, when there is
   * a comparison and every trace of the panel has a style, its place among those of the same
   * style: so both setups share a colour.
   */
  hue?: number;
}

/** A stretch of time in one state. */
export interface StateSpan {
  fromS: number;
  toS: number;
  label: string;
  kind: StateKind;
}

/** What a state means to a bystander. */
export type StateKind = 'off' | 'ready' | 'driving' | 'stopping' | 'fault';

/** Something worth a look. */
export interface Finding {
  atS: number;
  /** End of it; left out = a moment. */
  toS?: number;
  severity: Severity;
  /** A whole sentence. */
  text: string;
}

/** How much a finding matters. */
export type Severity = 'note' | 'warning' | 'breach';

/** The outcome of one safety limit. */
export interface LimitRow {
  /** Such as `S4`. */
  id: string;
  title: string;
  /** null = this run did not exercise it. */
  held: boolean | null;
  /** false = no run of this vehicle could exercise it. */
  applies?: false;
  detail: string;
  /** First time it was broken, or first exercised, seconds. */
  firstAtS?: number;
}

/** Something wrong or odd in the file; what is left out of the charts says so. */
export interface Odd {
  /** Line of the file, from 1; 0 = the reason speaks of no one line. */
  line: number;
  reason: string;
}

/** Figures of two setups side by side. */
export interface Comparison {
  names: [string, string];
  rows: { label: string; a: string; b: string }[];
}

/** How a vehicle handled in a drive. */
export interface Handling {
  /** Name of the setup. */
  name: string;
  style: TraceStyle;
  hue: number;
  /** In a word, such as `Understeer`; empty = the drive does not tell. */
  word: string;
  tone: 'good' | 'fair' | 'bad' | 'plain';
  /** A whole sentence with the figure it rests on. */
  text: string;
}

/** Figures of a manoeuvre, one column a setup. */
export interface MetricsTable {
  names: string[];
  /** How each setup is drawn in the charts. */
  styles: TraceStyle[];
  /** In the order of the table. */
  rows: MetricRow[];
}

/** One figure of every setup. */
export interface MetricRow {
  label: string;
  /** With unit; null = this drive does not show it. */
  values: (string | null)[];
  /** What it tells, or why it is not shown. */
  meaning: string;
  /** Those the manoeuvre is driven for stand first and are never folded away. */
  isHeadline: boolean;
}
