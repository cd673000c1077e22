import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { formatRunMetadata } from '../../harness/runs/format-run-metadata.ts';
import { importRun } from '../../harness/runs/import-run.ts';
import { columnSchema, mappingSchema, timeSchema } from '../../harness/runs/mapping-schema.ts';
import { readRunMetadata } from '../../harness/runs/read-run-metadata.ts';
import { motorNames, runColumns } from '../../harness/runs/run-columns.ts';
import { Layout } from '../../lib/codes.ts';
import { createScratch, readOut, told } from './scratch.ts';

const scratch = createScratch();
const spec = readFileSync(new URL('../../harness/runs/SPEC.md', import.meta.url), 'utf8');

/** The text of an example, by the name in its heading. */
function example(name: string): string {
  const text = new RegExp(`### \`${name}\`\\n\\n\`\`\`\\w+\\n([^]*?)\`\`\``).exec(spec)?.[1];
  if (text === undefined) throw new Error(`SPEC.md has no example ${name}`);
  return text;
}

/** First cells of the tables' rows that are all code. */
const terms = [...spec.matchAll(/^\| `([^`|]+)`\s*\|/gm)].map((match) => match[1]!);

test('the worked example reads as the page says', async () => {
  scratch.put('walk.csv-metadata.json', example('walk.csv-metadata.json'));
  const path = scratch.put('walk.csv', example('walk.csv').replaceAll('\n', '\r\n'));
  const out = await readOut(path, { mode: 'strict' });
  expect(out.rows).toEqual([
    [0, 1500, 1500, 7800, 0],
    [10, 1620, 1490, 7790, 250],
    [20, 1625, 1480, -32768, -32768],
  ]);
  expect(out.texts).toEqual([[''], ['first bend, "slow"'], ['']]);
  expect(out.issues).toEqual([]);
});

test('the description in the worked example is the one the writer makes', async () => {
  scratch.put('walk.csv-metadata.json', example('walk.csv-metadata.json'));
  const { columns = [], ...metadata } = (await readRunMetadata(scratch.path('walk.csv')))!;
  const made = formatRunMetadata('walk.csv', columns, metadata);
  expect(JSON.parse(made)).toEqual(JSON.parse(example('walk.csv-metadata.json')));
  expect(metadata).toEqual({
    layout: Layout.SINGLE,
    rows: 3,
    vehicle: 'club walker',
    setups: ['lawn'],
    surface: 'lawn',
    startsAtPowerUp: false,
    origin: 'Made up for this page.',
    notes: ['A walk round the lawn.'],
  });
});

test('the torn example gives what the page says', async () => {
  const out = await readOut(scratch.put('torn.csv', example('torn.csv')));
  expect(out.rows.map(([time]) => time)).toEqual([0, 15, 50]);
  expect(`${told(out.issues).join('\n')}\n`).toBe(example('torn.txt'));
});

test('the import example gives what the page says', async () => {
  const log = scratch.put('club.csv', example('club.csv'));
  const mapping = scratch.put('club.mapping.json', example('club.mapping.json'));
  const run = scratch.path('club-run.csv');
  const report = await importRun(log, mapping, run, { mode: 'lenient' });
  expect(scratch.text('club-run.csv')).toBe(example('club-run.csv').replaceAll('\n', '\r\n'));
  expect(told(report.issues)).toEqual([
    '7: not-a-number: throttle_us: found "none", expected a number.',
  ]);
  expect(report).toMatchObject({ rowsIn: 4, rowsOut: 3, losses: 1, issueCount: 1 });
});

test('the page lists every column of every layout in its order', () => {
  for (const layout of [Layout.SINGLE, Layout.PAIR, Layout.TWO_PAIRS, Layout.TRACKED]) {
    const listed = terms
      .filter((term) => /^[a-z_<>]+$/.test(term) && term !== 'single' && term !== 'pair')
      .flatMap((term) => motorNames(layout).map((motor) => term.replace('<motor>', motor)));
    const names = runColumns(layout).map(({ name }) => name);
    expect([...new Set(listed)].filter((name) => names.includes(name))).toEqual(names);
    expect(spec).toContain(
      motorNames(layout)
        .map((motor) => `\`${motor}\``)
        .join(', '),
    );
  }
  const rows = [...spec.matchAll(/^\| `([^`]+)`\s*\|\s*(\S*)\s*\|\s*(.*?)\s*\|$/gm)];
  for (const { name, meaning, unit } of runColumns(Layout.SINGLE)) {
    if (name.includes('_motor_')) continue;
    const row = rows.find((match) => match[1] === name);
    expect(row?.slice(1)).toEqual([name, unit, meaning]);
  }
});

test('the page lists every field of a mapping and every kind of issue', () => {
  const fields = [
    ...Object.keys(mappingSchema.entries).filter((name) => name !== 'time' && name !== 'columns'),
    ...Object.keys(timeSchema.entries).map((name) => `time.${name}`),
    ...Object.keys(columnSchema.entries).map((name) => `columns.<column>.${name}`),
  ];
  for (const field of fields) expect(terms).toContain(field);
  const source = readFileSync(new URL('../../harness/runs/run-issue.ts', import.meta.url), 'utf8');
  const kinds = [...source.matchAll(/^ {2}\| '([a-z-]+)'/gm)].map((match) => match[1]!);
  expect(kinds.length).toBeGreaterThan(10);
  for (const kind of kinds) expect(terms).toContain(kind);
});
