import { createHash } from 'node:crypto';
import { Script } from 'node:vm';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ChartData } from '../../harness/report/chart-data.ts';
import { renderReport } from '../../harness/report/render-report.ts';
import { sampleReport } from './sample-report.ts';

describe('the document', () => {
  const html = renderReport(sampleReport());

  test('is one HTML document in British English with one first heading', () => {
    expect(html.startsWith('<!doctype html>\n<html lang="en-GB">')).toBe(true);
    expect(html.trimEnd().endsWith('</html>')).toBe(true);
    expect(html.match(/<h1>/g)).toHaveLength(1);
    expect(html.match(/<meta charset="utf-8">/g)).toHaveLength(1);
  });

  test('headings never skip a level', () => {
    const levels = [...html.matchAll(/<h([1-6])[ >]/g)].map((match) => Number(match[1]));
    levels.slice(1).forEach((level, i) => {
      expect(level).toBeLessThanOrEqual(levels[i]! + 1);
    });
  });

  test('refers to nothing outside itself', () => {
    expect(html).not.toMatch(/https?:/i);
    expect(html).not.toMatch(/\b(src|href|action|srcset)\s*=/i);
    expect(html).not.toMatch(/url\(|@import/i);
  });

  test('its content policy forbids every request and allows this script alone', () => {
    const script = html.match(/<script>([\s\S]*?)<\/script>/)?.[1] ?? '';
    const hash = createHash('sha256').update(script).digest('base64');
    expect(() => new Script(script)).not.toThrow();
    expect(script).toContain('beforeprint');
    expect(html).toContain(`default-src 'none'; script-src 'sha256-${hash}'`);
  });

  test('carries the licence of the chart library', () => {
    expect(html).toContain('The MIT License (MIT)');
    expect(html).toContain('Leon Sorokin');
  });

  test('is the same, byte for byte, for the same data', () => {
    expect(renderReport(sampleReport())).toBe(html);
  });

  test('has a row for each limit with its outcome in words', () => {
    const rows = [...html.matchAll(/<tr role="row" class="is-\w+">[\s\S]*?<\/tr>/g)].map(String);
    expect(rows).toHaveLength(3);
    expect(rows[0]).toContain('Held');
    expect(rows[1]).toContain('Broken');
    expect(rows[1]).toContain('3.25 s');
    expect(rows[2]).toContain('Not tested');
    expect(html).toContain('1 held, 1 broken, 1 not tested in this run.');
  });

  test('a limit that is nothing to the vehicle is told from one not tested', () => {
    const { limits, ...rest } = sampleReport();
    const strange = { id: 'S4', title: 'Supply', held: null, applies: false as const, detail: '' };
    const page = renderReport({ ...rest, limits: [...limits, strange] });
    expect(page).toContain('1 held, 1 broken, 1 not tested in this run, 1 does not apply.');
    expect(page).toMatch(/<\/svg>Does not apply<\/span>/);
  });

  test('numbers the findings by time', () => {
    expect(html.indexOf('8.00 s to 9.00 s')).toBeGreaterThan(0);
    expect(html.indexOf('8.00 s to 9.00 s')).toBeLessThan(html.indexOf('The late one.'));
  });

  test('shows lost rows, both setups and every caution', () => {
    expect(html).toContain('<td class="line">17</td>');
    expect(html).not.toContain('Rows lost');
    expect(html).toContain('>other</th>');
    expect(html).toContain('<li>Lift the wheels.</li>');
  });

  test('a loss of no one line has no line number', () => {
    const odds = [{ line: 0, reason: 'and 3 more' }];
    const rows = renderReport({ ...sampleReport(), odds });
    expect(rows).toContain('<td class="line"></td><td>and 3 more</td>');
  });

  test('says so when there is nothing to show', () => {
    const { comparison: _, ...plain } = sampleReport();
    const empty = renderReport({ ...plain, timeS: [], panels: [], findings: [], odds: [] });
    expect(empty).toContain('There is no row to draw.');
    expect(empty).toContain('Nothing was found that needs a word.');
    expect(empty).toContain('Every row of the file could be read.');
    expect(empty).not.toContain('Two setups');
  });
});

describe('text from outside', () => {
  const skeleton = tagsOf(renderReport(sampleReport('x')));

  test('never adds, drops or changes a tag', () => {
    const hostile = fc.oneof(
      fc.string({ unit: 'binary', minLength: 1 }),
      fc.constantFrom(
        '</script><script>alert(1)</script>',
        '"><img onerror=alert(1)>',
        "' onmouseover='alert(1)",
        '<!--',
        ']]>',
        '</title></style>',
        '&lt;script&gt;',
        '\u0000<\u2028/script>',
      ),
    );
    fc.assert(
      fc.property(hostile, (text) => {
        expect(tagsOf(renderReport(sampleReport(text)))).toEqual(skeleton);
      }),
      { numRuns: 60 },
    );
  });

  test('reaches the reader as it was given', () => {
    const html = renderReport(sampleReport('a < b & "c" \u00b0 \u2192'));
    expect(html).toContain('<h1>a &lt; b &amp; &quot;c&quot; \u00b0 \u2192</h1>');
  });

  test('in the embedded data reads back as it was given', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        const charts = embedded(renderReport(sampleReport(text)));
        expect(charts.panels[0]!.title).toBe(text);
        expect(charts.findings[0]!.text).toBe(text);
      }),
      { numRuns: 40 },
    );
  });
});

describe('the embedded data', () => {
  test('hold every sample, and null for what is no finite number', () => {
    const data = sampleReport();
    data.panels[1]!.traces[0]!.values[3] = Number.NaN;
    data.panels[1]!.traces[0]!.values[4] = Number.POSITIVE_INFINITY;
    const charts = embedded(renderReport(data));
    expect(charts.timeS).toEqual(data.timeS);
    expect(charts.panels[0]!.traces[0]!.values.map((v) => v! + 0)).toEqual(
      data.panels[0]!.traces[0]!.values.map((v) => v! + 0),
    );
    expect(charts.panels[1]!.traces[0]!.values.slice(2, 6)).toEqual([104, null, null, 110]);
  });

  test('no two traces of a panel look the same', () => {
    const data = sampleReport();
    const values = data.timeS.map(() => 1);
    data.panels[0]!.traces = Array.from({ length: 12 }, (_, i) => ({ label: `t${i}`, values }));
    const looks = embedded(renderReport(data)).panels[0]!.traces.map((t) => `${t.style} ${t.hue}`);
    expect(new Set(looks).size).toBe(12);
  });

  test('both setups of a comparison share colours and differ in their dashes', () => {
    const data = sampleReport();
    const values = data.timeS.map(() => 1);
    data.panels[0]!.traces = [
      { label: 'left, a', values, style: 'solid' },
      { label: 'left, b', values, style: 'dashed' },
      { label: 'right, a', values, style: 'solid' },
      { label: 'right, b', values, style: 'dashed' },
    ];
    const hues = embedded(renderReport(data)).panels[0]!.traces.map((trace) => trace.hue);
    expect(hues).toEqual([0, 0, 1, 1]);
  });

  test('a trace of another length and a falling axis are refused by name', () => {
    const short = sampleReport();
    short.panels[1]!.traces[1]!.values.pop();
    expect(() => renderReport(short)).toThrow(
      'report panel "Motor currents", trace "right": 400 values for 401 times',
    );
    const falling = sampleReport();
    falling.timeS[5] = 0;
    expect(() => renderReport(falling)).toThrow('report timeS[5] falls: 0 s after 0.2 s');
  });
});

/** Every tag with its attributes, the content policy and the data left out. */
function tagsOf(html: string): string[] {
  const page = html.replace(/<script[\s\S]*?<\/script>/g, '<script></script>');
  return page.match(/<[!/a-z][^>]*>/gi) ?? [];
}

function embedded(html: string): ChartData {
  const json = html.match(/id="chart-data">([\s\S]*?)<\/script>/)?.[1];
  return JSON.parse(json ?? '') as ChartData;
}
