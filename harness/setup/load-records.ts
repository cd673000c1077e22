import { type Problem, UserError } from '../problems.ts';
import { checkRecord } from './check-record.ts';
import { evaluateFile } from './evaluate-file.ts';
import { nearestName } from './nearest-name.ts';
import { fieldName } from './place.ts';
import type { LoadedSetup, LoadedVehicle, Surface } from './records.ts';
import { setupRules } from './setup-rules.ts';
import { setupSchema } from './setup-schema.ts';
import { surfaceRules } from './surface-rules.ts';
import { surfaceSchema } from './surface-schema.ts';
import { vehicleRules } from './vehicle-rules.ts';
import { vehicleSchema } from './vehicle-schema.ts';

/**
 * Loads and checks a vehicle from a `.ts` or `.js` file.
 *
 * @param file path as the user named it
 * @throws UserError with every problem found
 */
export async function loadVehicle(file: string): Promise<LoadedVehicle> {
  const value = await evaluateFile(file);
  const { record, problems } = checkRecord(vehicleSchema, vehicleRules, value, {
    file,
    prefix: '',
  });
  if (record === undefined) throw new UserError(problems);
  return { ...record, file };
}

/** Loads and checks a setup, by itself; `checkPair` checks it against a vehicle. As loadVehicle. */
export async function loadSetup(file: string): Promise<LoadedSetup> {
  const { setup, problems } = await checkSetup(file);
  if (setup === undefined) throw new UserError(problems);
  return setup;
}

/** A setup file as far as it is right. */
export interface CheckedSetup {
  file: string;
  /** Only if there is no problem. */
  setup?: LoadedSetup;
  /** What it names as its surface, if that is a name, whatever else is wrong. */
  surface?: string;
  problems: Problem[];
}

/** As loadSetup, but gives the problems. */
export async function checkSetup(file: string): Promise<CheckedSetup> {
  const { value, problems: unread } = await evaluated(file);
  if (unread !== undefined) return { file, problems: unread };
  const { record, problems } = checkRecord(setupSchema, setupRules, value, { file, prefix: '' });
  const surface = textAt(value, 'surface');
  const isNamed = surface !== undefined && !problems.some(({ field }) => field === 'surface');
  return {
    file,
    ...(record && { setup: { ...record, file } }),
    ...(isNamed && { surface }),
    problems,
  };
}

/** Loads and checks a list of surfaces, at least one, no two of the same name. As loadVehicle. */
export async function loadSurfaces(file: string): Promise<Surface[]> {
  const { surfaces, problems } = await checkSurfaces(file);
  if (surfaces === undefined) throw new UserError(problems);
  return surfaces;
}

/** A file of surfaces as far as it is right. */
export interface CheckedSurfaces {
  /** Only if there is no problem. */
  surfaces?: Surface[];
  /** Names of all surfaces, whatever else is wrong; undefined if one of them is wrong itself. */
  names?: string[];
  problems: Problem[];
}

/** As loadSurfaces, but gives the problems. */
export async function checkSurfaces(file: string): Promise<CheckedSurfaces> {
  const { value, problems: unread } = await evaluated(file);
  if (unread !== undefined) return { problems: unread };
  if (!Array.isArray(value) || value.length === 0) {
    const message = 'the default export is not a list of surfaces.';
    const cure = 'Write "export default [defineSurface({ ... }), ...]".';
    return { problems: [{ file, message, cure }] };
  }
  const problems: Problem[] = [];
  const surfaces: Surface[] = [];
  const names: string[] = [];
  value.forEach((each: unknown, i) => {
    const name = textAt(each, 'name');
    const doubled = name !== undefined && names.includes(name);
    const prefix = `surface ${name === undefined || name === '' || doubled ? i + 1 : `"${name}"`}`;
    const place = { file, prefix };
    const { record, problems: own } = checkRecord(surfaceSchema, surfaceRules, each, place);
    problems.push(...own);
    if (doubled) {
      const message = `found "${name}" a second time.`;
      const cure = 'Give each surface its own name.';
      problems.push({ file, field: fieldName(place, 'name'), message, cure });
    } else if (name !== undefined) names.push(name);
    if (record !== undefined) surfaces.push(record);
  });
  if (problems.length === 0) return { surfaces, names, problems };
  return names.length < value.length ? { problems } : { names, problems };
}

async function evaluated(file: string): Promise<{ value?: unknown; problems?: Problem[] }> {
  try {
    return { value: await evaluateFile(file) };
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return { problems: [...error.problems] };
  }
}

/** The text that a record of the user's holds in a field. */
function textAt(value: unknown, field: string): string | undefined {
  const found = new Map<string, unknown>(Object.entries(value ?? {})).get(field);
  return typeof found === 'string' ? found : undefined;
}

/** The problem of a name that is none of `known`, with a hint. */
export function unknownName(
  file: string,
  field: string,
  name: string,
  known: readonly string[],
): Problem {
  const held = known.filter((each) => each.toLowerCase().includes(name.toLowerCase()));
  const near = nearestName(name, known) ?? (held.length === 1 ? held[0] : undefined);
  const listed = known.map((each) => `"${each}"`).join(', ');
  const cure = near === undefined ? 'Choose one of them.' : `Did you mean "${near}"?`;
  return { file, field, message: `found "${name}", expected ${listed}.`, cure };
}
