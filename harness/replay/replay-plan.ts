import { existsSync, readdirSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { type Constants, constantsCrc, S, V } from '../../lib/index.ts';
import { createProblemGatherer } from '../gather-problems.ts';
import { type Problem, UserError } from '../problems.ts';
import { readRunMetadata } from '../runs/read-run-metadata.ts';
import { metadataPath, type RunMetadata } from '../runs/run-metadata.ts';
import { bake } from '../setup/bake.ts';
import { chooseSetups } from '../setup/choose-setups.ts';
import { type Garage, loadGarage } from '../setup/load-garage.ts';

/** What a replay drives with. */
export interface ReplayPlan {
  metadata: RunMetadata | undefined;
  /** Names of the setups on board, slot 0 first. */
  setups: string[];
  constants: Constants;
  /** Name and constants of a second setup. */
  against?: { name: string; constants: Constants };
  vehicle: string;
  /** true = the constants are those the run was recorded with, so outputs can be verified. */
  asRecorded: boolean;
  /** true = neither user nor run names a setup, so the garage’s first is taken. */
  isGuess: boolean;
  /** Setups that the run names and the garage lacks, where those of the run were wanted. */
  lacking: string[];
}

/** Wishes of the user; all may be left out. */
export interface PlanWishes {
  garage?: string;
  /** Setups to take on board, slot 0 first. */
  setup?: string[];
  against?: string;
  verify?: boolean;
}

/**
 * Decides what to drive with: the setup that is named; else the constants the run carries; else
 * the setup it names, or the first, of the garage it lies in.
 *
 * @throws UserError if none of that is to be had
 */
export async function planReplay(run: string, wishes: PlanWishes): Promise<ReplayPlan> {
  if (!existsSync(run)) {
    throw new UserError([
      { file: run, message: 'there is no such file.', cure: 'Check the path.' },
    ]);
  }
  if (statSync(run).isDirectory()) throw new UserError([folderProblem(run)]);
  const metadata = await readRunMetadata(run);
  const dir = wishes.garage ?? garageAround(run);
  const constants = metadata?.constants;
  const recorded = wishes.setup === undefined && constants !== undefined;
  if (wishes.verify) demandVerifiable(run, metadata);
  if (recorded && wishes.garage !== undefined && wishes.against === undefined) {
    const message = 'names a garage, but the run is replayed with the constants it carries.';
    const cure = 'Add --setup NAME to drive with that garage, or leave --garage out.';
    throw new UserError([{ file: run, field: `--garage ${wishes.garage}`, message, cure }]);
  }
  const chooses = wishes.setup !== undefined || wishes.against !== undefined;
  const garage =
    recorded && wishes.against === undefined ? undefined : await garageFor(run, dir, chooses);
  if (recorded) {
    checkConstants(run, constants);
    const against = wishes.against === undefined ? {} : againstOf(garage!, wishes.against);
    const setups = metadata?.setups ?? constants.setups.map((_, slot) => `slot ${slot}`);
    const vehicle = metadata?.vehicle ?? garage?.vehicle.name ?? 'not named';
    const sure = { asRecorded: true, isGuess: false, lacking: [] };
    return { metadata, setups, constants, vehicle, ...sure, ...against };
  }
  return { metadata, asRecorded: false, ...planInGarage(garage!, metadata?.setups, wishes) };
}

/** With the setups that are named, by the user or by the run, or with the garage's first. */
function planInGarage(
  garage: Garage,
  recorded: readonly string[] | undefined,
  wishes: PlanWishes,
): Omit<ReplayPlan, 'metadata' | 'asRecorded'> {
  const known = garage.setups.map((setup) => setup.name);
  const named = recorded?.filter((name) => known.includes(name)) ?? [];
  const setups = wishes.setup ?? (named.length > 0 ? named : known.slice(0, 1));
  const gatherer = createProblemGatherer();
  const constants = gatherer.take(() => bakeNamed(garage, setups));
  const { against: name } = wishes;
  const against = name === undefined ? {} : gatherer.take(() => againstOf(garage, name));
  gatherer.tell();
  const isGuess = wishes.setup === undefined && named.length === 0;
  const lacking =
    wishes.setup === undefined ? (recorded?.filter((name) => !known.includes(name)) ?? []) : [];
  const vehicle = garage.vehicle.name;
  return { setups, constants: constants!, vehicle, isGuess, lacking, ...against };
}

/** What to give in place of a folder: a run in it, or in its runs/. */
function folderProblem(folder: string): Problem {
  const runs = ['', 'runs'].flatMap((part) => {
    const dir = join(folder, part);
    const names = existsSync(dir) ? readdirSync(dir) : [];
    return names.filter((name) => name.endsWith('.csv')).map((name) => join(dir, name));
  });
  const cure =
    runs.length === 0
      ? 'Give the run itself.'
      : `Give a run in it: ${runs.slice(0, 3).join(', ')}${runs.length > 3 ? ', ...' : ''}.`;
  return { file: folder, message: 'is a folder, expected a run, a file NAME.csv.', cure };
}

function againstOf(garage: Garage, name: string): Pick<ReplayPlan, 'against'> {
  return { against: { name, constants: bakeNamed(garage, [name], '--against') } };
}

function bakeNamed(garage: Garage, names: readonly string[], field?: string): Constants {
  return bake(garage.vehicle, chooseSetups(garage, names, field));
}

/** @throws UserError if a description holds other constants than it was written with */
function checkConstants(run: string, constants: Constants): void {
  const { vehicle, setups, crc } = constants;
  const isWhole =
    vehicle.length === V.COUNT &&
    setups.length > 0 &&
    setups.every((setup) => setup.length === S.COUNT) &&
    constantsCrc(constants) === crc;
  if (isWhole) return;
  const message = 'are damaged, or of another version of axlewright: their checksum is another.';
  const cure = 'Name a garage and --setup to replay the run with constants of theirs.';
  throw new UserError([{ file: metadataPath(run), field: 'constants', message, cure }]);
}

function garageAround(run: string): string | undefined {
  const folder = dirname(run);
  // As the path goes on beyond the folder that the command is given in.
  if (basename(resolve(folder)) !== 'runs') return undefined;
  const dir = join(folder, '..');
  return existsSync(join(dir, 'setups')) ? dir : undefined;
}

async function garageFor(run: string, dir: string | undefined, chooses: boolean): Promise<Garage> {
  if (dir !== undefined) return loadGarage(dir);
  const message = chooses
    ? 'the run lies in no garage, so there are no setups to choose from.'
    : 'the run does not say what it was driven with, and lies in no garage.';
  const cure = 'Name a garage with --garage, or make one with "axlewright new".';
  throw new UserError([{ file: run, message, cure }]);
}

function demandVerifiable(run: string, metadata: RunMetadata | undefined): void {
  const problem =
    metadata?.constants === undefined
      ? 'its metadata hold no constants, so nobody can tell what it was driven with'
      : metadata.startsAtPowerUp !== true
        ? 'it does not begin at power-up, so the state it began in is not known'
        : undefined;
  if (problem === undefined) return;
  const cure = 'Only a run recorded by this core from its first tick on can be verified.';
  throw new UserError([{ file: run, field: '--verify', message: `${problem}.`, cure }]);
}
