import { mkdtemp, readdir, readFile, rm, stat, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { UserError } from '../../harness/problems.ts';
import { REPORT_MARK, renderReport } from '../../harness/report/render-report.ts';
import { writeReport } from '../../harness/report/write-report.ts';
import { sampleReport } from './sample-report.ts';

/** What a report begins with. */
const OLD = `<!doctype html>\n<html>\n<head>\n${REPORT_MARK}\nold`;

let folder = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'report-'));
});

afterAll(() => rm(folder, { recursive: true }));

test('replaces an older report and leaves nothing else behind', async () => {
  const path = join(folder, 'run.html');
  await writeFile(path, OLD);
  await writeReport(path, sampleReport());
  expect(await readFile(path, 'utf8')).toBe(renderReport(sampleReport()));
  expect(await readdir(folder)).toEqual(['run.html']);
});

test('data that cannot be drawn leave the older report as it was', async () => {
  const path = join(folder, 'kept.html');
  await writeFile(path, OLD);
  const wrong = { ...sampleReport(), timeS: [1, 0] };
  await expect(writeReport(path, wrong)).rejects.toThrow(RangeError);
  expect(await readFile(path, 'utf8')).toBe(OLD);
});

test('a run or a setup of that name is left alone', async () => {
  const path = join(folder, 'run.csv');
  await writeFile(path, 'time_ms');
  await expect(writeReport(path, sampleReport())).rejects.toThrow('is no report; nothing was');
  expect(await readFile(path, 'utf8')).toBe('time_ms');
});

test('so is a page that is no report, and what cannot be read whole or is no file', async () => {
  const page = join(folder, 'index.html');
  await writeFile(page, '<!DOCTYPE html><title>Club page</title>');
  await expect(writeReport(page, sampleReport())).rejects.toThrow('is no report; nothing was');
  const film = join(folder, 'film.mp4');
  await writeFile(film, 'x');
  await truncate(film, 3 * 2 ** 30);
  await expect(writeReport(film, sampleReport())).rejects.toThrow('is no report; nothing was');
  expect((await stat(film)).size).toBe(3 * 2 ** 30);
  await rm(film);
  await expect(writeReport('/dev/null', sampleReport())).rejects.toThrow('is a device');
  expect((await stat('/dev/null')).isCharacterDevice()).toBe(true);
});

test('a folder that is not there, or one in place of a file, is the user’s to mend', async () => {
  const nowhere = join(folder, 'none', 'run.html');
  await expect(writeReport(nowhere, sampleReport())).rejects.toThrow(UserError);
  await expect(writeReport(nowhere, sampleReport())).rejects.toThrow('no such folder');
  await expect(writeReport(folder, sampleReport())).rejects.toThrow(UserError);
  await expect(writeReport(`${folder}/.`, sampleReport())).rejects.toThrow(
    'is a folder, expected a file',
  );
});
