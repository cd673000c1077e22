import { dirname, join } from 'node:path';
import { Command, Option } from 'commander';
import type { Bundle } from '../../targets/build/bundle.ts';
import { hex32 } from '../../targets/build/header.ts';
import { generic } from '../../targets/generic/manifest.ts';
import { ENGINES, type EngineName, type Variant } from '../../targets/manifest.ts';
import { checkPlace, makeFolder } from '../file-error.ts';
import { formatProblem, UserError } from '../problems.ts';
import { refuseForeign } from '../refuse-foreign.ts';
import { bake } from '../setup/bake.ts';
import { chooseSetups } from '../setup/choose-setups.ts';
import { constantsHash } from '../setup/constants-hash.ts';
import { type Garage, loadGarage } from '../setup/load-garage.ts';
import { setupNotes } from '../setup/setup-notes.ts';
import { CAUTIONS } from '../words/cautions.ts';
import { headerName } from '../words/header-name.ts';
import { writeWhole } from '../write-whole.ts';
import { jsonText } from './json-text.ts';
import { columns, paint, say } from './terminal.ts';

interface BuildFlags {
  garage: string;
  setup?: string[];
  variant: Variant;
  engine: EngineName;
  smallest?: boolean;
  readable?: boolean;
  out?: string;
  json?: boolean;
}

/** `axlewright build`: one ES5 script for the hub. */
export function buildCommand(): Command {
  return new Command('build')
    .description('make the one script that goes on the hub, with the chosen setups')
    .option('--garage <dir>', 'the garage', '.')
    .option('--setup <names...>', 'setups to take on board, slot 0 first; all if left out')
    .addOption(
      new Option('--variant <kind>', 'core alone, or full: with recorder, loader and ports')
        .choices(['core', 'full'])
        .default('full'),
    )
    .addOption(
      new Option('--engine <name>', 'engine whose costs it is shaped by; it runs on all of them')
        .choices(ENGINES)
        .default(generic.engine),
    )
    .addOption(
      new Option('--smallest', 'as few bytes as can be, whatever that costs in time').conflicts([
        'readable',
        'engine',
      ]),
    )
    .addOption(
      new Option('--readable', 'keep long names and short docs instead of saving bytes').conflicts([
        'engine',
      ]),
    )
    .option('--out <file>', 'where to write it; <garage>/out/<vehicle>.js if left out')
    .option('--json', 'print JSON')
    .action(build);
}

async function build(flags: BuildFlags): Promise<void> {
  const garage = await loadGarage(flags.garage);
  const setups = flags.setup === undefined ? garage.setups : chooseSetups(garage, flags.setup);
  const constants = bake(garage.vehicle, setups);
  const out = flags.out ?? join(flags.garage, 'out', `${headerName(garage.vehicle.name)}.js`);
  await refusePlace(out);
  // Loaded where they are used: the compiler alone takes half a second.
  const { buildBundle } = await import('../../targets/build/bundle.ts');
  const { proveBundle } = await import('../engines/prove-bundle.ts');
  const bundle = await buildBundle({
    target: generic,
    variant: flags.variant,
    constants,
    setups: setups.map((setup) => headerName(setup.name)),
    minify: !flags.readable,
    fit: flags.variant === 'core' ? 'constants' : 'vehicle',
    shape: flags.smallest ? 'smallest' : flags.engine,
  });
  refuseFindings(garage, bundle);
  const proof = await proveBundle(bundle.code, flags.variant, constants);
  if (!proof.identical) {
    throw new Error('the script does not give the bits of its source; please report this garage');
  }
  await writeWhole(out, bundle.code);
  const facts = {
    file: out,
    bytes: bundle.bytes,
    setups: setups.map((setup) => setup.name),
    hash: constantsHash(constants),
    crc: hex32(constants.crc),
    provenTicks: proof.ticks,
    parts: bundle.parts,
    notes: setupNotes(garage, setups).map(formatProblem),
  };
  if (flags.json) say(jsonText(facts));
  else printFacts(facts);
}

/** Before the build, which takes seconds. */
async function refusePlace(out: string): Promise<void> {
  makeFolder(dirname(out));
  await checkPlace(out, '--out');
  await refuseForeign(out, /^\/\/ axlewright /, 'script of ours', '--out');
}

function refuseFindings(garage: Garage, bundle: Bundle): void {
  if (bundle.warnings.length === 0) return;
  throw new UserError(
    bundle.warnings.map((finding) => ({
      file: garage.dir,
      field: `bundle line ${finding.line}`,
      message: finding.message,
    })),
  );
}

function printFacts(facts: {
  file: string;
  bytes: number;
  setups: string[];
  hash: string;
  crc: string;
  provenTicks: number;
  parts: { name: string; bytes: number }[];
  notes: string[];
}): void {
  say(`${paint.green('built')} ${facts.file}: ${facts.bytes} bytes, ES5`);
  say(`setups on board: ${facts.setups.map((name, i) => `${i} = ${name}`).join(', ')}`);
  say(`constants ${facts.hash}, in the script and its recordings ${facts.crc}`);
  say(`gives the bits of its source in ${facts.provenTicks} ticks of random inputs`);
  for (const note of facts.notes) say(paint.yellow(`note ${note}`));
  say();
  for (const line of columns(facts.parts.map((part) => [part.name, `${part.bytes}`]))) {
    say(`  ${line}`);
  }
  say();
  say(paint.bold('Before it drives:'));
  for (const caution of CAUTIONS) say(`  - ${caution}`);
}
