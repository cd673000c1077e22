import { readFile } from 'node:fs/promises';
import { hex32 } from '../../targets/build/header.ts';
import { packageVersion } from '../../targets/package-version.ts';
import { readError } from '../file-error.ts';
import { type Problem, UserError } from '../problems.ts';
import type { RunMetadata } from '../runs/run-metadata.ts';
import { bake } from '../setup/bake.ts';
import { chooseSetups } from '../setup/choose-setups.ts';
import { constantsHash } from '../setup/constants-hash.ts';
import { loadGarage } from '../setup/load-garage.ts';
import type { LoadedSetup } from '../setup/records.ts';
import { decodeDump } from './decode-dump.ts';
import { dumpToRun } from './dump-to-run.ts';
import { findSetups, MOST_SETUPS } from './find-setups.ts';
import type { PowerUp } from './gather-power-ups.ts';

/** Wishes of the user; all may be left out. */
export interface UnpackWishes {
  /** Folder of the garage that the hub was built from. */
  garage?: string;
  /** Setups on board, slot 0 first; found by the dump's CRC if left out. */
  setup?: string[];
  /** Which power-up of the dump, from 1; the last if left out. */
  powerUp?: number;
}

/** What became of a dump. */
export interface Unpacked {
  /** The run written, and its rows. */
  run: string;
  ticks: number;
  /** Which power-up it is, from 1, and all that there are. */
  powerUp: number;
  powerUps: PowerUpFacts[];
  /** Whether it begins with the first tick after power-up, as a verification asks for. */
  startsAtPowerUp: boolean;
  /** Names of the setups on board, where a garage was given. */
  setups?: string[];
  /** What could not be read, in the reader's words. */
  losses: string[];
}

/** One power-up of a dump. */
interface PowerUpFacts {
  ticks: number;
  /** Time of its first and last tick, s. */
  fromS: number;
  toS: number;
  /** CRC-32 of the constants it was driven with, as in the script's first line. */
  constants: string;
}

/**
 * Writes a power-up of a recorder's dump as a run.
 *
 * @param dump path of the bytes, as copied from the hub
 * @param run path of the run to write
 * @throws UserError if the dump holds nothing, or the garage does not give the constants it was
 *   driven with, or the run is there already
 */
export async function unpackDump(
  dump: string,
  run: string,
  wishes: UnpackWishes,
): Promise<Unpacked> {
  const bytes = await readFile(dump).catch((error) => {
    throw readError(dump, error);
  });
  const { powerUps, strayBytes } = decodeDump(bytes);
  const number = wishes.powerUp ?? powerUps.length;
  const chosen = powerUps[number - 1];
  if (chosen === undefined) throw new UserError([noneSuch(dump, powerUps, number)]);
  if (wishes.setup !== undefined && wishes.garage === undefined) {
    const message = 'names setups, but no garage that holds them.';
    const cure = 'Add --garage; the setups are then found by the dump, too.';
    throw new UserError([{ file: dump, field: '--setup', message, cure }]);
  }
  const metadata = await metadataOf(dump, chosen, wishes);
  const ticks = await dumpToRun(run, chosen, {
    ...metadata,
    ...(chosen.losses.length > 0 && { notes: chosen.losses.map((loss) => `In the dump ${loss}.`) }),
  });
  return {
    run,
    ticks,
    powerUp: number,
    powerUps: powerUps.map(factsOf),
    startsAtPowerUp: chosen.startsAtPowerUp,
    ...(metadata.setups !== undefined && { setups: metadata.setups }),
    losses: [
      ...(strayBytes > 0 ? [`${strayBytes} bytes belong to no whole block`] : []),
      ...chosen.losses,
    ],
  };
}

/** What is known of a run by the garage its hub was built from. */
async function metadataOf(
  dump: string,
  { constants: crc }: PowerUp,
  { garage: dir, setup }: UnpackWishes,
): Promise<RunMetadata> {
  if (dir === undefined) return {};
  const garage = await loadGarage(dir);
  const chosen = setup === undefined ? findSetups(garage, crc) : chooseSetups(garage, setup);
  const constants = chosen && bake(garage.vehicle, chosen);
  if (chosen === undefined || constants?.crc !== crc) {
    const found = chosen && findSetups(garage, crc);
    const areAllTried = setup !== undefined || garage.setups.length <= MOST_SETUPS;
    throw new UserError([otherConstants(dump, dir, crc, setup, found, areAllTried)]);
  }
  return {
    vehicle: garage.vehicle.name,
    setups: chosen.map(({ name }) => name),
    setupHash: constantsHash(constants),
    constants,
    coreVersion: packageVersion(),
    origin: "Unpacked from the hub's recorder.",
  };
}

function otherConstants(
  dump: string,
  dir: string,
  crc: number,
  setup: readonly string[] | undefined,
  found: readonly LoadedSetup[] | undefined,
  areAllTried: boolean,
): Problem {
  const how = setup === undefined ? 'with any of its setups' : `with --setup ${setup.join(' ')}`;
  const which = `was recorded with the constants ${hex32(crc)}, which ${dir} does not give`;
  const first = areAllTried ? '' : 'Not all choices were tried: name yours with --setup. Or else: ';
  const cure =
    found === undefined
      ? `${first}Take the garage as it was when the hub was flashed; without --garage the run ` +
        'is written all the same, but nothing can be recomputed as it was.'
      : `They are those of --setup ${found.map(({ name }) => `"${name}"`).join(' ')}.`;
  return { file: dump, field: '--garage', message: `${which} ${how}.`, cure };
}

function noneSuch(dump: string, powerUps: readonly PowerUp[], number: number): Problem {
  if (powerUps.length === 0) {
    const message = 'it holds no whole block of a recorder (lib/SPEC.md).';
    return { file: dump, message, cure: 'Copy the file from the hub again, as bytes.' };
  }
  const message = `found ${number}, expected 1 to ${powerUps.length}: so many the dump holds.`;
  return { file: dump, field: '--power-up', message, cure: 'Choose one of them.' };
}

function factsOf({ records, constants }: PowerUp): PowerUpFacts {
  return {
    ticks: records.length,
    fromS: records[0]![0]! / 1000,
    toS: records.at(-1)![0]! / 1000,
    constants: hex32(constants),
  };
}
