import { rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { checkPlace, writeError } from '../file-error.ts';
import { refuseForeign } from '../refuse-foreign.ts';
import { renderReport } from './render-report.ts';
import type { ReportData } from './report-data.ts';

/**
 * Before the work whose report is to be written: whether there is a place for it.
 *
 * @throws UserError when there is no such folder, or something else than a report
 */
export async function checkReportPlace(path: string): Promise<void> {
  await checkPlace(path);
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
    throw writeError(path, error);
  }
}
