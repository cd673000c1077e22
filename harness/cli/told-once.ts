import { formatNumber } from '../report/format.ts';
import type { Finding } from '../report/report-data.ts';

/** Findings as rows of time and text; of one and the same text only the first, with its count. */
export function toldOnce(findings: readonly Pick<Finding, 'atS' | 'text'>[]): string[][] {
  const all = new Map<string, { first: number; last: number; count: number }>();
  for (const { atS, text } of findings) {
    const seen = all.get(text);
    if (seen === undefined) all.set(text, { first: atS, last: atS, count: 1 });
    else Object.assign(seen, { last: atS, count: seen.count + 1 });
  }
  return [...all].map(([text, { first, last, count }]) => {
    const more = count === 1 ? '' : ` ${count} times, the last at ${formatNumber(last, 2)} s.`;
    return [`${formatNumber(first, 2)} s`, text + more];
  });
}
