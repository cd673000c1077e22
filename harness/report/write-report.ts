import { checkPlace } from '../file-error.ts';
import { refuseForeign } from '../refuse-foreign.ts';
import { writeWhole } from '../write-whole.ts';
import { REPORT_MARK, renderReport } from './render-report.ts';
import type { ReportData } from './report-data.ts';

/** As most commands call it. */
const OPTION = '--report';
const BEGINS = new RegExp(`^<!doctype html>[^]*${REPORT_MARK}`);

/**
 * Before the work whose report is to be written: whether there is a place for it.
 *
 * @param option that names it
 * @throws UserError when there is no such folder, or something else than a report
 */
export async function checkReportPlace(path: string, option = OPTION): Promise<void> {
  await checkPlace(path, option);
  await refuseForeign(path, BEGINS, 'report', option);
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
