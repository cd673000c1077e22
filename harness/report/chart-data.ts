import type { Finding, Panel, ReportData, StateSpan, Trace } from './report-data.ts';
import type { TraceStyle } from './trace-style.ts';

/** What the charts need of a report; embedded in the page as JSON. */
export interface ChartData {
  timeS: number[];
  panels: ChartPanel[];
  states: StateSpan[];
  /** By time; a finding's number on the page is its place here, from 1. */
  findings: Finding[];
}

/** A panel whose traces all have a style and a colour. */
export interface ChartPanel {
  title: string;
  unit: string;
  range: [number, number] | null;
  traces: ChartTrace[];
}

export interface ChartTrace {
  label: string;
  style: TraceStyle;
  hue: number;
  values: (number | null)[];
}

const STYLES: readonly TraceStyle[] = ['solid', 'dashed', 'dotted'];

/**
 * Picks out what the charts draw; a value that is no finite number becomes a gap.
 * @throws RangeError naming the panel and trace whose length is not that of `timeS`
 */
export function toChartData(data: ReportData): ChartData {
  checkAxis(data.timeS);
  return {
    timeS: data.timeS.map((time) => Number(time.toFixed(6))),
    panels: data.panels.map((panel) => toChartPanel(panel, data)),
    states: data.states,
    findings: inOrder(data.findings),
  };
}

/** Findings by time; those of one moment stay as they were given. */
export function inOrder(findings: readonly Finding[]): Finding[] {
  return [...findings].sort((a, b) => a.atS - b.atS);
}

function toChartPanel(panel: Panel, data: ReportData): ChartPanel {
  const perStyle = new Map<TraceStyle, number>();
  const isShared = data.comparison !== undefined && panel.traces.every((trace) => trace.style);
  const traces = panel.traces.map((trace, i): ChartTrace => {
    checkLength(trace, panel, data.timeS.length);
    const style = trace.style ?? STYLES[i % STYLES.length]!;
    const place = perStyle.get(style) ?? 0;
    perStyle.set(style, place + 1);
    const hue = trace.hue ?? (isShared ? place : i);
    return { label: trace.label, style, hue, values: trace.values.map(short) };
  });
  return { title: panel.title, unit: panel.unit, range: panel.range ?? null, traces };
}

/** Seven significant digits: more than any sensor here has, and a third of the bytes. */
function short(value: number | null): number | null {
  return value !== null && Number.isFinite(value) ? Number(value.toPrecision(7)) : null;
}

function checkLength(trace: Trace, panel: Panel, length: number): void {
  if (trace.values.length === length) return;
  throw new RangeError(
    `report panel "${panel.title}", trace "${trace.label}": ` +
      `${trace.values.length} values for ${length} times`,
  );
}

function checkAxis(timeS: readonly number[]): void {
  timeS.forEach((time, i) => {
    if (!Number.isFinite(time)) throw new RangeError(`report timeS[${i}] is not a number: ${time}`);
    if (i > 0 && time < timeS[i - 1]!) {
      throw new RangeError(`report timeS[${i}] falls: ${time} s after ${timeS[i - 1]} s`);
    }
  });
}
