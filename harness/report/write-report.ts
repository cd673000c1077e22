import { existsSync, statSync } from 'node:fs';
import { rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { UserError } from '../problems.ts';
import { refuseForeign } from '../refuse-foreign.ts';
import { renderReport } from './render-report.ts';
import type { ReportData } from './report-data.ts';

/**
 * Before the work whose report is to be written: whether there is a place for it.
 *
 * @throws UserError when there is no such folder, or something else than a report
 */
export async function checkReportPlace(path: string): Promise<void> {
  if (!existsSync(dirname(path))) throw problemOf(path, 'ENOENT');
  if (statSync(path, { throwIfNoEntry: false })?.isDirectory()) throw problemOf(path, 'EISDIR');
  await refuseForeign(path, /^<!doctype html>/i, 'report');
}

/**
 * Writes the report as one HTML file. A reader of `path` sees the old file or the whole new
 * one, never a part.
 * @throws UserError when the file cannot be written there, or is something else than a report
 */
export async function writeReport(path: string, data: ReportData): Promise<void> {
  await checkReportPlace(path);
  const html = renderReport(data);
  const draft = join(dirname(path), `.${basename(path)}.${process.pid}.draft`);
  try {
    await writeFile(draft, html);
    await rename(draft, path);
  } catch (error) {
    await rm(draft, { force: true });
    throw asUserError(path, error);
  }
}

const CURES: Readonly<Record<string, string>> = {
  ENOENT: 'Make the folder first, or name one that exists.',
  ENOTDIR: 'Name a file inside a folder.',
  EISDIR: 'Name a file, not a folder.',
  EACCES: 'Name a folder you may write to.',
  EPERM: 'Name a folder you may write to.',
  EROFS: 'Name a folder you may write to.',
  ENOSPC: 'Free some space on the disk.',
};

function asUserError(path: string, error: unknown): unknown {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return code in CURES ? problemOf(path, code) : error;
}

function problemOf(path: string, code: string): UserError {
  const message = `The report cannot be written (${code}).`;
  return new UserError([{ file: path, message, cure: CURES[code]! }]);
}
