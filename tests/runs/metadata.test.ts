import { renameSync, rmSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { UserError } from '../../harness/problems.ts';
import { readRunMetadata } from '../../harness/runs/read-run-metadata.ts';
import { metadataPath, type RunMetadata } from '../../harness/runs/run-metadata.ts';
import { writeRun } from '../../harness/runs/write-run.ts';
import { Layout } from '../../lib/codes.ts';
import { toChunk } from './random-run.ts';
import { createScratch, readOut, rejection } from './scratch.ts';

const scratch = createScratch();
const NAMES = ['time_ms', 'throttle_us', 'steer_us'];
const RUN = toChunk({ names: NAMES, rows: [{ integers: [0, 1, 2], texts: [] }] });

const ALL: RunMetadata = {
  layout: Layout.TWO_PAIRS,
  vehicle: 'club hatch',
  setups: ['hall', 'carpet', 'guest'],
  setupHash: '8f14e45f',
  constants: { vehicle: [1, -2, 3], setups: [[4, 5], [6]], crc: -7 },
  coreVersion: '0.1.0',
  surface: 'hall floor',
  seed: 'hall-7',
  origin: 'Scripted sticks, recorded through the core.',
  startsAtPowerUp: true,
  notes: ['first', 'second "note"'],
  other: { 'dc:creator': 'the club', 'https://axlewright.example/run#later': [1, 2] },
};

test('everything that is told of a run comes back, with rows and columns added', async () => {
  const path = scratch.path('all.csv');
  await writeRun(path, NAMES, [RUN], { metadata: ALL });
  expect(await readRunMetadata(path)).toEqual({ ...ALL, rows: 1, columns: NAMES });
});

test('names that are no plain file names, as in an address', async () => {
  for (const name of ['a b.csv', 'ümlaut #1.csv', '100%.csv', "it's [x].csv"]) {
    const path = scratch.path(name);
    await writeRun(path, NAMES, [RUN], { metadata: { vehicle: 'x' } });
    expect((await readRunMetadata(path))?.vehicle).toBe('x');
  }
});

describe('a run with no metadata, or broken ones', () => {
  test('none: the run is read, nothing is told', async () => {
    const path = scratch.path('none.csv');
    await writeRun(path, NAMES, [RUN]);
    rmSync(metadataPath(path));
    expect(await readRunMetadata(path)).toBeUndefined();
    expect(await readOut(path, { mode: 'strict' })).toMatchObject({
      rows: [[0, 1, 2]],
      issues: [],
    });
  });

  test('no JSON: the message names file and line; leniently the run is read without', async () => {
    const path = scratch.path('broken.csv');
    await writeRun(path, NAMES, [RUN]);
    scratch.put('broken.csv-metadata.json', '{\n  "@context": 1,\n  oops\n}\n');
    const error = await rejection(readOut(path, { mode: 'strict' }));
    expect(error).toBeInstanceOf(UserError);
    expect(error.message).toMatch(/broken\.csv-metadata\.json:3: is no JSON/);
    const { rows, issues } = await readOut(path);
    expect(rows).toEqual([[0, 1, 2]]);
    expect(issues.map(({ kind, lost }) => [kind, lost])).toEqual([['metadata', false]]);
  });

  test('wrong values: every one is named with what was expected', async () => {
    const path = scratch.path('wrong.csv');
    await writeRun(path, NAMES, [RUN]);
    const ns = 'https://axlewright.example/run#';
    scratch.put(
      'wrong.csv-metadata.json',
      JSON.stringify({
        '@context': 'http://www.w3.org/ns/csvw',
        url: 'wrong.csv',
        [`${ns}rows`]: 'three',
        [`${ns}startsAtPowerUp`]: 1,
        [`${ns}layout`]: 'sidecar',
      }),
    );
    const { message } = await rejection(readRunMetadata(path));
    expect(message).toContain('rows: found "three", expected a number.');
    expect(message).toContain('startsAtPowerUp: found 1, expected true or false.');
    expect(message).toMatch(/layout: found "sidecar", expected .*"twoPairs"/);
  });

  test('damaged constants are named', async () => {
    const path = scratch.path('constants.csv');
    await writeRun(path, NAMES, [RUN], { metadata: ALL });
    const text = scratch.text('constants.csv-metadata.json');
    scratch.put('constants.csv-metadata.json', text.replace('[1,-2,3]', '[1,-2,null]'));
    expect((await rejection(readRunMetadata(path))).message).toContain(
      'constants.vehicle.2: found null, expected a number.',
    );
    scratch.put('constants.csv-metadata.json', text.replace('[1,-2,3]', '[1,-2,'));
    expect((await rejection(readRunMetadata(path))).message).toContain('constants: is no JSON');
  });

  test('metadata of another file are not used; the message names the cure', async () => {
    const path = scratch.path('old.csv');
    await writeRun(path, NAMES, [RUN], { metadata: ALL });
    const renamed = scratch.path('new.csv');
    renameSync(path, renamed);
    renameSync(metadataPath(path), metadataPath(renamed));
    const { message } = await rejection(readRunMetadata(renamed));
    expect(message).toContain('url: names "old.csv", not the run it lies beside.');
    expect(message).toContain('write its new name there');
  });
});
