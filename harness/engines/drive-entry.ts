import { driveRows, driveStream, printRows } from './in-engine.ts';

/** The record a script of `driveScript` finds the driver in. */
declare const axlewrightDrive: Record<string, unknown>;

axlewrightDrive.stream = driveStream;
axlewrightDrive.rows = driveRows;
axlewrightDrive.print = printRows;
