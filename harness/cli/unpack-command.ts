import { Command, InvalidArgumentError } from 'commander';
import type { Unpacked, UnpackWishes } from '../recorder/unpack-dump.ts';
import { jsonText } from './json-text.ts';
import { paint, say } from './terminal.ts';

interface UnpackFlags extends UnpackWishes {
  json?: boolean;
}

/** `axlewright unpack`: from the bytes a hub's recorder left to a run. */
export function unpackCommand(): Command {
  return new Command('unpack')
    .description("turn what the hub's recorder wrote into a run")
    .argument('<dump>', 'the bytes, as copied from the hub')
    .argument('<run>', 'run.csv to write')
    .option('--garage <dir>', 'the garage the hub was built from; without it a run cannot verify')
    .option('--setup <names...>', 'the setups on board; found by the dump if left out')
    .option('--power-up <n>', 'which one, if the dump holds several; else the last', readNumber)
    .option('--json', 'print JSON')
    .action(async (dump: string, run: string, flags: UnpackFlags) => {
      const { unpackDump } = await import('../recorder/unpack-dump.ts');
      const unpacked = await unpackDump(dump, run, flags);
      if (flags.json) say(jsonText(unpacked));
      else print(unpacked);
    });
}

function readNumber(text: string): number {
  if (/^[1-9]\d{0,5}$/.test(text)) return Number(text);
  throw new InvalidArgumentError('expected a whole number from 1.');
}

function print(unpacked: Unpacked): void {
  const { run, ticks, powerUp, powerUps, setups, losses } = unpacked;
  for (const loss of losses) say(paint.yellow(`lost: ${loss}`));
  if (powerUps.length > 1) {
    say(`it holds ${powerUps.length} power-ups; --power-up chooses another:`);
    powerUps.forEach((each, i) => {
      const times = `${each.fromS.toFixed(2)} to ${each.toS.toFixed(2)} s`;
      const mark = i === powerUp - 1 ? ', this one' : '';
      say(`  ${i + 1}: ${each.ticks} ticks, ${times}, constants ${each.constants}${mark}`);
    });
  }
  if (setups !== undefined) {
    say(`setups on board: ${setups.map((name, i) => `${i} = ${name}`).join(', ')}`);
  }
  say(`${paint.green('wrote')} ${run}: ${ticks} ticks`);
  // Past a hole the laptop knows less than the hub did.
  const verify = unpacked.startsAtPowerUp && losses.length === 0 ? ' --verify' : '';
  const how = setups === undefined ? ' --garage <dir> --setup <name>' : verify;
  say(`Next: axlewright replay ${run}${how}`);
}
