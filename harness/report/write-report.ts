import { checkPlace } from '../file-error.ts';
import { refuseForeign } from '../refuse-foreign.ts';
import { writeWhole } from '../write-whole.ts';
import { renderReport } from './render-report.ts';
import type { ReportData } from './report-data.ts';

/** As each command calls it. */
const OPTION = '--report';

/**
 * Before the work whose report is to be written: whether there is a place for it.
 *
 * @throws UserError when there is no such folder, or something else than a report
 */
export async function checkReportPlace(path: string): Promise<void> {
  await checkPlace(path, OPTION);
  await refuseForeign(path, /^<!doctype html>/i, 'report', OPTION);
}

/**
 * Writes the report as one HTML file.
 *
 * @throws UserError when the file cannot be written there, or is something else than a report
 */
export async function writeReport(path: string, data: ReportData): Promise<void> {
  await checkReportPlace(path);
  await writeWhole(path, renderReport(data));
}
