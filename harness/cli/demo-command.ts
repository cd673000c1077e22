import { dirname, join } from 'node:path';
import { Command } from 'commander';
import { packageRoot } from '../../targets/package-root.ts';
import { makeFolder } from '../file-error.ts';
import { CAUTIONS } from '../words/cautions.ts';
import { ExitCode, type SetExitCode } from './exit-code.ts';
import { jsonText } from './json-text.ts';
import { paint, say } from './terminal.ts';

/** `axlewright demo`: the main job on the club's own car. */
export function demoCommand(setExitCode: SetExitCode): Command {
  return new Command('demo')
    .description("replay the demo club's run in a small engine and write its report")
    .option('--out <file>', 'where to write the report', join('out', 'demo-report.html'))
    .option('--json', 'print JSON')
    .action(async (flags: { out: string; json?: boolean }) => {
      const { replayRun } = await import('../replay/replay-run.ts');
      const { checkReportPlace } = await import('../report/write-report.ts');
      const { printReplay, replayJson } = await import('./print-replay.ts');
      const run = join(packageRoot(), 'harness/demo/garages/hatch/runs/hall-evening.csv');
      makeFolder(dirname(flags.out));
      await checkReportPlace(flags.out, '--out');
      const outcome = await replayRun(run, {
        mode: 'strict',
        repairs: [],
        engine: 'quickjs',
        report: flags.out,
      });
      if (flags.json) say(jsonText(replayJson(outcome)));
      else {
        printReplay(outcome);
        printNext();
      }
      if (!outcome.good) setExitCode(ExitCode.BREACH);
    });
}

function printNext(): void {
  say();
  say(paint.bold('Before you drive a car of your own:'));
  for (const caution of CAUTIONS) say(`  - ${caution}`);
  say();
  say('Next: axlewright new my-garage (in a clone: node dist/harness/cli/main.js new my-garage)');
}
