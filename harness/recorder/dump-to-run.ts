import { Layout, V } from '../../lib/index.ts';
import { motorNames, runColumns } from '../runs/run-columns.ts';
import type { RunMetadata } from '../runs/run-metadata.ts';
import { createRunWriter } from '../runs/write-run.ts';
import type { PowerUp } from './gather-power-ups.ts';

/**
 * Writes what a recorder kept of a power-up as a run.
 *
 * @param path where to write it
 * @param metadata what is known of the drive; its constants decide the layout of the motors
 * @returns number of rows
 * @throws UserError if the file exists or cannot be written
 */
export async function dumpToRun(
  path: string,
  { motors, records, startsAtPowerUp }: PowerUp,
  metadata: RunMetadata,
): Promise<number> {
  const layout = metadata.constants?.vehicle[V.LAYOUT] ?? layoutOf(motors);
  const columns = runColumns(layout).map((column) => column.name);
  const readers = columns.map((name) => reader(name, motorNames(layout)));
  const writer = await createRunWriter(path, columns, {
    metadata: { ...metadata, layout, startsAtPowerUp },
  });
  for (const record of records) {
    const full = writer.writeRow(readers.map((read) => read(record)));
    if (full !== undefined) await full;
  }
  await writer.finish();
  return writer.rows;
}

/** A layout with that many motors, for a dump of which nothing else is known. */
function layoutOf(motors: number): Layout {
  return motors === 1 ? Layout.SINGLE : motors === 4 ? Layout.TWO_PAIRS : Layout.PAIR;
}

type FieldReader = (record: Int32Array) => number;

/** Where each column stands in a record; lib/SPEC.md. */
const FIELDS: Readonly<Record<string, FieldReader>> = {
  time_ms: (record) => record[0]!,
  throttle_us: (record) => upper(record, 1),
  steer_us: (record) => lower(record, 1),
  input_age_ms: (record) => upper(record, 2),
  battery_mv: (record) => lower(record, 2),
  yaw_rate_mrad_s: (record) => upper(record, 3),
  slot: (record) => lower(record, 3) >> 1,
  guest: (record) => lower(record, 3) & 1,
  steer_permille: (record) => upper(record, 4),
  flags: (record) => lower(record, 4),
  throttle_permille: (record) => upper(record, 5),
  demand_permille: (record) => lower(record, 5),
  cut_permille: (record) => upper(record, 6),
  limit_permille: (record) => lower(record, 6),
  state: (record) => upper(record, 7) >> 1,
  enable: (record) => upper(record, 7) & 1,
  cause: (record) => lower(record, 7),
  speed_mm_s: (record) => upper(record, 8),
  found: (record) => lower(record, 8),
  spin_permille: (record) => upper(record, 9),
  free_permille: (record) => upper(record, 10),
  jam_permille: (record) => lower(record, 10),
  assist_permille: (record) => lower(record, 9),
};

function reader(name: string, motors: readonly string[]): FieldReader {
  const field = FIELDS[name];
  if (field) return field;
  const current = motors.findIndex((motor) => name === `current_${motor}_ma`);
  const wheel = motors.findIndex((motor) => name === `wheel_${motor}_deg_s`);
  const drive = motors.findIndex((motor) => name === `drive_${motor}_permille`);
  const motor = Math.max(current, wheel, drive);
  if (motor < 0) throw new RangeError(`a record holds no ${name}`);
  const word = (motor < 2 ? 11 : 14) + (drive >= 0 ? 2 : wheel >= 0 ? 1 : 0);
  return motor % 2 === 0 ? (record) => upper(record, word) : (record) => lower(record, word);
}

function upper(record: Int32Array, word: number): number {
  return record[word]! >> 16;
}

function lower(record: Int32Array, word: number): number {
  return (record[word]! << 16) >> 16;
}
