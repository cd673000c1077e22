import { Command, InvalidArgumentError, Option } from 'commander';
import type { ReplayEngine } from '../replay/core-runner.ts';
import { ExitCode, type SetExitCode } from './exit-code.ts';
import { jsonText } from './json-text.ts';
import { columns, paint, progress, say } from './terminal.ts';

interface SimulateFlags {
  garage: string;
  setup?: string[];
  surface?: string;
  manoeuvre?: string;
  fault?: string[];
  seed: number;
  engine: ReplayEngine;
  out?: string;
  overwrite?: boolean;
  report?: string;
  json?: boolean;
  list?: boolean;
}

/** `axlewright simulate`: how a car will drive on a floor before it is driven, or built. */
export function simulateCommand(setExitCode: SetExitCode): Command {
  return new Command('simulate')
    .description('drive a manoeuvre with a simulated car and the real core, and say how it handles')
    .option('--garage <dir>', 'the garage', '.')
    .option('--setup <names...>', 'up to three, each driven by itself; the first if left out')
    .option('--surface <name>', 'a floor of surfaces.ts, or "left / right"; else the setup’s own')
    .option('--manoeuvre <name>', 'what is driven; launch-circle if left out')
    .option('--fault <faults...>', 'kind@time:which: jammedWheel@1.5:rearLeft, linkLost@2+1.5')
    .option('--seed <n>', 'seed of noise, jitter and whatever a fault leaves open', readSeed, 1)
    .addOption(
      new Option('--engine <name>', 'engine in which the bundle repeats the drive')
        .choices(['node', 'quickjs'])
        .default('node'),
    )
    .option('--out <file>', 'write the run; of several setups each gets the name of its own')
    .option('--overwrite', 'replace a run of that name')
    .option('--report <file>', 'write the report, one HTML file')
    .option('--json', 'print JSON')
    .option('--list', 'list manoeuvres, faults, and what the garage holds')
    .addHelpText('after', '\nExit code 1 also if a drive had to end early; its data are kept.')
    .action(async (flags: SimulateFlags) => {
      if (flags.list) return list(flags);
      const { runSimulation } = await import('../simulate/run-simulation.ts');
      const { printSimulation, simulationJson } = await import('./print-simulation.ts');
      const outcome = await runSimulation({
        ...flags,
        overwrite: flags.overwrite === true,
        onDrive: (name) => progress(`driving with ${name}`),
      });
      progress('');
      if (flags.json) say(jsonText(simulationJson(outcome)));
      else printSimulation(outcome);
      if (!outcome.good) setExitCode(ExitCode.BREACH);
    });
}

function readSeed(text: string): number {
  const seed = Number(text);
  if (/^\d{1,10}$/.test(text) && seed <= 2 ** 31 - 1) return seed;
  throw new InvalidArgumentError('expected a whole number from 0 to 2147483647.');
}

async function list({ garage, json }: SimulateFlags): Promise<void> {
  const { loadGarage } = await import('../setup/load-garage.ts');
  const { MANOEUVRES } = await import('../manoeuvres/manoeuvres.ts');
  const { FAULT_KINDS } = await import('../simulate/parse-faults.ts');
  const { surfaces, setups } = await loadGarage(garage);
  const manoeuvres = MANOEUVRES.map(({ name, title, meaning, source }) => {
    return { name, title, meaning, source };
  });
  if (json) {
    const known = { manoeuvres, faults: FAULT_KINDS, surfaces, setups: setups.map((s) => s.name) };
    say(jsonText(known));
    return;
  }
  print('Manoeuvres', [...manoeuvres.map(({ name, meaning }) => [name, meaning])]);
  print('Faults', [...FAULT_KINDS.map(({ form, what }) => [form, what])]);
  print('Surfaces', [...surfaces.map(({ name, friction }) => [name, `friction ${friction}`])]);
  print('Setups', [...setups.map(({ name, surface }) => [name, `for ${surface}`])]);
}

function print(title: string, rows: readonly (readonly string[])[]): void {
  say(paint.bold(title));
  for (const line of columns(rows.map((row) => ['', ...row]))) say(line);
  say();
}
