import coupe from '../../harness/demo/garages/coupe/vehicle.ts';
import forwarder from '../../harness/demo/garages/forwarder/vehicle.ts';
import hatch from '../../harness/demo/garages/hatch/vehicle.ts';
import { checkRecord } from '../../harness/setup/check-record.ts';
import type { LoadedSetup, LoadedVehicle } from '../../harness/setup/records.ts';
import { setupRules } from '../../harness/setup/setup-rules.ts';
import { setupSchema } from '../../harness/setup/setup-schema.ts';
import { vehicleRules } from '../../harness/setup/vehicle-rules.ts';
import { vehicleSchema } from '../../harness/setup/vehicle-schema.ts';

/** The demo vehicles as their files write them, before any check. */
export const SAMPLES: Record<'hatch' | 'coupe' | 'forwarder', object> = { hatch, coupe, forwarder };

/** A checked vehicle; throws its problems if there are any. */
export function vehicleOf(value: unknown): LoadedVehicle {
  const place = { file: 'vehicle.ts', prefix: '' };
  const { record, problems } = checkRecord(vehicleSchema, vehicleRules, value, place);
  if (record === undefined) throw new Error(JSON.stringify(problems, null, 2));
  return { ...record, file: place.file };
}

/** A checked setup; throws its problems if there are any. */
export function setupOf(value: unknown): LoadedSetup {
  const place = { file: 'setups/a.ts', prefix: '' };
  const { record, problems } = checkRecord(setupSchema, setupRules, value, place);
  if (record === undefined) throw new Error(JSON.stringify(problems, null, 2));
  return { ...record, file: place.file };
}

/** A copy with some fields, named by path, set to other values; undefined removes a field. */
export function changed<T extends object>(record: T, changes: Record<string, unknown>): T {
  let copy = structuredClone(record);
  for (const [path, value] of Object.entries(changes))
    copy = put(copy, path.split('.'), value) as T;
  return copy;
}

/** The value at a path, undefined if there is none. */
export function valueAt(record: unknown, path: string): unknown {
  return path
    .split('.')
    .reduce<unknown>((at, name) => new Map(Object.entries(at ?? {})).get(name), record);
}

function put(record: object, [name = '', ...rest]: string[], value: unknown): object {
  const entries = new Map<string, unknown>(Object.entries(record));
  const inner = entries.get(name);
  if (rest.length > 0) entries.set(name, put(Object(inner ?? {}), rest, value));
  else if (value === undefined) entries.delete(name);
  else entries.set(name, value);
  return Object.fromEntries(entries);
}
