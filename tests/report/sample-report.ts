import type { ReportData } from '../../harness/report/report-data.ts';

/** Samples of the made-up run below, 20 to the second. */
const COUNT = 401;

/** Where the steering of the sample has no samples, seconds. */
export const GAP_S = [8, 12] as const;

/**
 * A small made-up run of 20 s: enough of everything that a report can show. `text` takes the
 * place of every text, so that tests can put anything there.
 */
export function sampleReport(text = 'plain'): ReportData {
  const timeS = Array.from({ length: COUNT }, (_, i) => i / 20);
  return {
    title: text,
    subtitle: text,
    verdict: { held: true, text },
    facts: [
      { label: text, value: text },
      { label: 'Duration', value: '20.00 s' },
    ],
    timeS,
    panels: [
      {
        title: text,
        unit: text,
        range: [-1000, 1000],
        traces: [
          { label: text, values: timeS.map((t) => Math.round(900 * Math.sin(t))) },
          { label: 'steering', values: timeS.map((t) => (isLost(t) ? null : -500)) },
        ],
      },
      {
        title: 'Motor currents',
        unit: 'mA',
        traces: [
          { label: 'left', values: timeS.map((t) => 100 + 40 * t) },
          { label: 'right', values: timeS.map((t) => 900 - 30 * t) },
        ],
      },
      { title: 'Supply', unit: 'V', traces: [{ label: 'supply', values: timeS.map(() => 7.4) }] },
    ],
    states: [
      { fromS: 0, toS: 2, label: 'locked', kind: 'off' },
      { fromS: 2, toS: 8, label: text, kind: 'driving' },
      { fromS: 8, toS: 9, label: 'stopping', kind: 'stopping' },
      { fromS: 9, toS: 20, label: 'fault', kind: 'fault' },
    ],
    findings: [
      { atS: 15, severity: 'breach', text: 'The late one.' },
      { atS: 8, toS: 9, severity: 'warning', text },
    ],
    limits: [
      { id: 'S1', title: text, held: true, detail: text },
      { id: 'S2', title: 'Slew', held: false, detail: 'too fast', firstAtS: 3.25 },
      { id: 'S3', title: 'Reversal', held: null, detail: 'no reversal' },
    ],
    odds: [{ line: 17, reason: text }],
    comparison: { names: [text, 'other'], rows: [{ label: text, a: text, b: text }] },
    cautions: [text, 'Lift the wheels.'],
  };
}

/** Ends included on neither side, so that the samples at both ends of the gap are there. */
function isLost(timeS: number): boolean {
  return timeS > GAP_S[0] && timeS < GAP_S[1];
}
