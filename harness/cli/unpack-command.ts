import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { Command } from 'commander';
import { packageVersion } from '../../targets/package-version.ts';
import { UserError } from '../problems.ts';
import { decodeDump } from '../recorder/decode-dump.ts';
import { dumpToRun } from '../recorder/dump-to-run.ts';
import type { RunMetadata } from '../runs/run-metadata.ts';
import { bake } from '../setup/bake.ts';
import { constantsHash } from '../setup/constants-hash.ts';
import { loadGarage } from '../setup/load-garage.ts';
import { chosenSetups } from './build-command.ts';
import { paint, say } from './terminal.ts';

interface UnpackFlags {
  garage?: string;
  setup?: string[];
}

/** `axlewright unpack`: from the bytes a hub's recorder left to a run. */
export function unpackCommand(): Command {
  return new Command('unpack')
    .description("turn what the hub's recorder wrote into a run")
    .argument('<dump>', 'the bytes, as copied from the hub')
    .argument('<run>', 'run.csv to write')
    .option('--garage <dir>', 'the garage the hub was built from; without it a run cannot verify')
    .option('--setup <names...>', 'the setups on board, as given to build; all if left out')
    .action(async (dump: string, run: string, flags: UnpackFlags) => {
      if (!existsSync(dump)) {
        const message = 'there is no such file.';
        throw new UserError([{ file: dump, message, cure: 'Check the path.' }]);
      }
      const decoded = decodeDump(await readFile(dump));
      if (decoded.records.length === 0) {
        const message = 'it holds no whole block of a recorder (lib/SPEC.md).';
        const cure = 'Copy the file from the hub again, as bytes.';
        throw new UserError([{ file: dump, message, cure }]);
      }
      const metadata =
        flags.garage === undefined ? {} : await metadataOf(flags.garage, flags.setup);
      const rows = await dumpToRun(run, decoded, metadata);
      for (const loss of decoded.losses) say(paint.yellow(`lost: ${loss}`));
      say(`${paint.green('wrote')} ${run}: ${rows} ticks`);
    });
}

async function metadataOf(dir: string, names: string[] | undefined): Promise<RunMetadata> {
  const garage = await loadGarage(dir);
  const setups = chosenSetups(garage, names);
  const constants = bake(garage.vehicle, setups);
  return {
    vehicle: garage.vehicle.name,
    setups: setups.map((setup) => setup.name),
    setupHash: constantsHash(constants),
    constants,
    coreVersion: packageVersion(),
    origin: "Unpacked from the hub's recorder.",
  };
}
