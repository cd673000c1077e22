import { Command, Option } from 'commander';
import { formatProblem } from '../problems.ts';
import type { ClockRepair } from '../runs/run-issue.ts';
import { jsonText } from './json-text.ts';
import { paint, say } from './terminal.ts';

interface ImportFlags {
  strict?: boolean;
  lenient?: boolean;
  repair?: ClockRepair[];
  overwrite?: boolean;
  json?: boolean;
}

/** `axlewright import`: a foreign CSV log becomes a run. */
export function importCommand(): Command {
  return new Command('import')
    .description('make a run of a CSV log that another program wrote')
    .argument('<log>', 'the log')
    .argument('<mapping>', 'which of its columns means what: JSON, see harness/runs/SPEC.md')
    .argument('<run>', 'run.csv to write')
    .addOption(new Option('--strict', 'refuse a log with bad rows (default)').conflicts('lenient'))
    .option('--lenient', 'leave bad rows out and list them')
    .addOption(repairOption())
    .option('--overwrite', 'replace a run of that name')
    .option('--json', 'print JSON')
    .action(async (log: string, mapping: string, run: string, flags: ImportFlags) => {
      const { importRun } = await import('../runs/import-run.ts');
      const { issueProblem } = await import('../runs/run-issue.ts');
      const report = await importRun(log, mapping, run, {
        mode: flags.lenient ? 'lenient' : 'strict',
        repairs: flags.repair ?? [],
        overwrite: flags.overwrite === true,
      });
      if (flags.json) {
        say(jsonText(report));
        return;
      }
      for (const issue of report.told) say(paint.yellow(formatProblem(issueProblem(log, issue))));
      for (const note of report.notes) say(paint.yellow(`note ${formatProblem(note)}`));
      const { rowsIn, rowsOut, losses } = report;
      say(`${paint.green('wrote')} ${run}: ${rowsOut} rows of ${rowsIn}, ${losses} lost`);
      say(`Next: axlewright replay ${run} --garage <dir>`);
    });
}

/** `--repair`: the mendings of time stamps there are. */
export function repairOption(): Option {
  const kinds = ['drop', 'sort', 'rebase', 'close'];
  return new Option(
    '--repair <kinds...>',
    'mend time stamps; never done without being asked',
  ).choices(kinds);
}
