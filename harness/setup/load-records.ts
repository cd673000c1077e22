import { type Problem, UserError } from '../problems.ts';
import { checkRecord } from './check-record.ts';
import { evaluateFile } from './evaluate-file.ts';
import { nearestName } from './nearest-name.ts';
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
  const value = await evaluateFile(file);
  const { record, problems } = checkRecord(setupSchema, setupRules, value, { file, prefix: '' });
  if (record === undefined) throw new UserError(problems);
  return { ...record, file };
}

/** Loads and checks a list of surfaces, at least one, no two of the same name. As loadVehicle. */
export async function loadSurfaces(file: string): Promise<Surface[]> {
  const value = await evaluateFile(file);
  if (!Array.isArray(value) || value.length === 0) {
    const message = 'the default export is not a list of surfaces.';
    const cure = 'Write "export default [defineSurface({ ... }), ...]".';
    throw new UserError([{ file, message, cure }]);
  }
  const problems: Problem[] = [];
  const surfaces: Surface[] = [];
  value.forEach((each: unknown, i) => {
    const place = { file, prefix: `[${i}]` };
    const checked = checkRecord(surfaceSchema, surfaceRules, each, place);
    problems.push(...checked.problems);
    if (checked.record === undefined) return;
    const { name } = checked.record;
    if (surfaces.some((other) => other.name === name)) {
      const message = `found "${name}" a second time.`;
      problems.push({
        file,
        field: `[${i}].name`,
        message,
        cure: 'Give each surface its own name.',
      });
    }
    surfaces.push(checked.record);
  });
  if (problems.length > 0) throw new UserError(problems);
  return surfaces;
}

/** The problem of a name that is none of `known`, with a hint. */
export function unknownName(
  file: string,
  field: string,
  name: string,
  known: readonly string[],
): Problem {
  const near = nearestName(name, known);
  const listed = known.map((each) => `"${each}"`).join(', ');
  const cure = near === undefined ? 'Choose one of them.' : `Did you mean "${near}"?`;
  return { file, field, message: `found "${name}", expected ${listed}.`, cure };
}
