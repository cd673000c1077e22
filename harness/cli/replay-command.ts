import { Command, Option } from 'commander';
import { UserError } from '../problems.ts';
import type { ReplayEngine } from '../replay/core-runner.ts';
import type { ClockRepair } from '../runs/run-issue.ts';
import { ExitCode, type SetExitCode } from './exit-code.ts';
import { repairOption } from './import-command.ts';
import { jsonText } from './json-text.ts';
import { progress, say } from './terminal.ts';

interface ReplayFlags {
  garage?: string;
  setup?: string[];
  against?: string;
  verify?: boolean;
  strict?: boolean;
  lenient?: boolean;
  repair?: ClockRepair[];
  engine: ReplayEngine;
  report?: string;
  save?: string;
  json?: boolean;
}

/** `axlewright replay`: what the core did in a run, or would have done. */
export function replayCommand(setExitCode: SetExitCode): Command {
  return new Command('replay')
    .description('feed a recorded run to the core and judge every safety limit')
    .argument('<run>', 'run.csv; a garage that holds it in runs/ is found by itself')
    .option('--garage <dir>', 'the garage whose vehicle and setups are used')
    .option('--setup <names...>', 'drive with these on board, slot 0 first; else as recorded')
    .option('--against <name>', 'compare with a second setup over the same inputs')
    .option('--verify', 'insist that the laptop recomputes the recorded outputs bit for bit')
    .addOption(new Option('--strict', 'refuse a run with bad rows (default)').conflicts('lenient'))
    .option('--lenient', 'leave bad rows out and list them')
    .addOption(repairOption())
    .addOption(
      new Option('--engine <name>', 'engine the bundle runs in')
        .choices(['node', 'quickjs'])
        .default('node'),
    )
    .option('--report <file>', 'write the report, one HTML file')
    .option('--save <file>', 'write the run with what the core made of it')
    .option('--json', 'print JSON')
    .action(async (run: string, flags: ReplayFlags) => {
      if (flags.verify && flags.setup !== undefined) {
        const cure = 'Leave one of the two out.';
        const message = 'verification drives as recorded, so it cannot take another setup.';
        throw new UserError([{ file: run, field: '--verify', message, cure }]);
      }
      const { replayRun } = await import('../replay/replay-run.ts');
      const { printReplay, replayJson } = await import('./print-replay.ts');
      const outcome = await replayRun(run, {
        ...flags,
        mode: flags.lenient ? 'lenient' : 'strict',
        repairs: flags.repair ?? [],
        onProgress: (ticks) => progress(`${ticks} ticks`),
      });
      progress('');
      if (flags.json) say(jsonText(replayJson(outcome)));
      else printReplay(outcome);
      if (!outcome.good) setExitCode(ExitCode.BREACH);
    });
}
