import { existsSync, readdirSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { type Problem, UserError } from '../problems.ts';
import { checkPair } from './check-pair.ts';
import { checkSetup, checkSurfaces, loadVehicle, unknownName } from './load-records.ts';
import type { LoadedSetup, LoadedVehicle, Surface } from './records.ts';

/** A garage: one vehicle, the floors it drives on, its setups and its recorded runs. */
export interface Garage {
  /** The folder, as the user named it. */
  dir: string;
  vehicle: LoadedVehicle;
  surfaces: Surface[];
  /** At least one, by file name. */
  setups: LoadedSetup[];
  /** Paths of the `.csv` files in `runs/`, by name; none if there is no such folder. */
  runs: string[];
}

/**
 * Loads and checks a whole garage: `vehicle.ts`, `surfaces.ts`, `setups/*.ts`, `runs/`; `.js` does
 * as well as `.ts`.
 *
 * @param dir path as the user named it
 * @throws UserError with every problem of every file, not only the first
 */
export async function loadGarage(dir: string): Promise<Garage> {
  refuseOthers(dir);
  const problems: Problem[] = [];
  const vehicle = await loadVehicle(sourceFile(dir, 'vehicle')).catch((error) => {
    if (!(error instanceof UserError)) throw error;
    problems.push(...error.problems);
    return undefined;
  });
  const {
    surfaces,
    names,
    problems: ofSurfaces,
  } = await checkSurfaces(sourceFile(dir, 'surfaces'));
  problems.push(...ofSurfaces);
  const files = setupFiles(join(dir, 'setups'));
  if (files.length === 0) {
    const cure = 'Write one with defineSetup, or copy one from a garage of "axlewright new".';
    problems.push({ file: join(dir, 'setups'), message: 'holds no setup.', cure });
  }
  const setups: LoadedSetup[] = [];
  const misplaced: Problem[] = [];
  for (const file of files) {
    const { setup, surface, problems: own } = await checkSetup(file);
    problems.push(...own);
    if (setup !== undefined) setups.push(setup);
    if (surface !== undefined && names !== undefined && !names.includes(surface))
      misplaced.push(unknownName(file, 'surface', surface, names));
    if (setup !== undefined && vehicle) misplaced.push(...checkPair(vehicle, setup));
  }
  problems.push(...doubledNames(setups), ...misplaced);
  if (problems.length > 0 || !vehicle || !surfaces) throw new UserError(problems);
  return { dir, vehicle, surfaces, setups, runs: listFiles(join(dir, 'runs'), /\.csv$/) };
}

/** @throws UserError if this is no folder, or holds nothing of a garage */
function refuseOthers(dir: string): void {
  const isThere = existsSync(dir);
  if (!isThere || !statSync(dir).isDirectory()) {
    const cure = isThere
      ? `Name the folder that holds vehicle.ts, such as ${dirname(dir)}.`
      : `"axlewright new ${dir}" makes one.`;
    throw new UserError([{ file: dir, message: 'is not a garage folder.', cure }]);
  }
  const parts = [sourceFile(dir, 'vehicle'), sourceFile(dir, 'surfaces'), join(dir, 'setups')];
  if (parts.some((part) => existsSync(part))) return;
  const message = 'is no garage: found neither vehicle.ts nor surfaces.ts nor setups.';
  const cure = 'Name the garage with --garage; "axlewright new DIR" makes one.';
  throw new UserError([{ file: dir === '.' ? process.cwd() : dir, message, cure }]);
}

/**
 * The setup of this name.
 *
 * @param field where it is named, such as an option
 * @throws UserError naming all setups, with a hint, if there is none
 */
export function findSetup(garage: Garage, name: string, field = 'setup'): LoadedSetup {
  const setup = garage.setups.find((each) => each.name === name);
  if (setup) return setup;
  const known = garage.setups.map((each) => each.name);
  const problem = unknownName(garage.dir, field, name, known);
  const cure = strayCure(garage, name, known);
  throw new UserError([cure === undefined ? problem : { ...problem, cure }]);
}

/** For several names in one word, and for the name of a file. */
function strayCure({ setups }: Garage, name: string, known: readonly string[]): string | undefined {
  const names = name.split(/[,\s]+/);
  if (names.length > 1 && names.every((each) => known.includes(each))) {
    return `Put spaces between names: ${names.map(shellWord).join(' ')}.`;
  }
  const named = basename(name).replace(/\.[tj]s$/, '');
  const own = setups.find(({ file }) => basename(file).replace(/\.[tj]s$/, '') === named);
  return own && `Its name is "${own.name}", as ${own.file} says.`;
}

/** A name as it is written on a command line. */
function shellWord(name: string): string {
  return name.includes(' ') ? `"${name}"` : name;
}

function sourceFile(dir: string, name: string): string {
  const script = join(dir, `${name}.js`);
  const typed = join(dir, `${name}.ts`);
  return existsSync(script) && !existsSync(typed) ? script : typed;
}

function setupFiles(dir: string): string[] {
  return listFiles(dir, /(?<!\.d)\.[tj]s$/);
}

function listFiles(dir: string, pattern: RegExp): string[] {
  if (!existsSync(dir)) return [];
  const names = readdirSync(dir).filter((name) => pattern.test(name));
  return names.sort().map((name) => join(dir, name));
}

function doubledNames(setups: readonly LoadedSetup[]): Problem[] {
  return setups.flatMap((setup, i) => {
    const first = setups.findIndex((each) => each.name === setup.name);
    const other = setups[first];
    if (first === i || other === undefined) return [];
    const message = `found "${setup.name}", the name of ${other.file}.`;
    return [{ file: setup.file, field: 'name', message, cure: 'Give each setup its own name.' }];
  });
}
