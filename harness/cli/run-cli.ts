import { Command, CommanderError } from 'commander';
import { packageVersion } from '../../targets/package-version.ts';
import { formatProblem, type Problem, UserError } from '../problems.ts';
import { buildCommand } from './build-command.ts';
import { demoCommand } from './demo-command.ts';
import { ExitCode, type SetExitCode } from './exit-code.ts';
import { fieldsCommand } from './fields-command.ts';
import { importCommand } from './import-command.ts';
import { jsonText } from './json-text.ts';
import { newCommand } from './new-command.ts';
import { replayCommand } from './replay-command.ts';
import { simulateCommand } from './simulate-command.ts';
import { paint, say } from './terminal.ts';
import { unpackCommand } from './unpack-command.ts';

/**
 * Runs one command of `axlewright`.
 *
 * @param args words after the program's name
 * @returns the exit code, see ExitCode
 */
export async function runCli(args: readonly string[]): Promise<number> {
  let exitCode: number = ExitCode.OK;
  const program = createProgram((code) => {
    exitCode = code;
  });
  try {
    await program.parseAsync(args, { from: 'user' });
    return exitCode;
  } catch (error) {
    const isHelp = error instanceof CommanderError && error.exitCode === 0;
    if (args.includes('--json') && !isHelp) say(jsonText({ problems: problemsOf(error) }));
    if (error instanceof CommanderError) return isHelp ? ExitCode.OK : ExitCode.BAD_INPUT;
    if (args.includes('--debug')) {
      process.stderr.write(`${error instanceof Error ? error.stack : String(error)}\n`);
    } else if (error instanceof UserError) {
      for (const problem of error.problems) {
        process.stderr.write(`${paint.red('error')} ${formatProblem(problem)}\n`);
      }
    } else {
      const text = error instanceof Error ? error.message : String(error);
      process.stderr.write(`${paint.red('error')} ${text}\nThis is a fault of axlewright`);
      process.stderr.write(
        ' itself; run the command again with --debug and report what it says.\n',
      );
    }
    return error instanceof UserError ? ExitCode.BAD_INPUT : ExitCode.INTERNAL;
  }
}

/** What a machine is told of an error; one that lies in no file names none. */
function problemsOf(error: unknown): readonly Partial<Problem>[] {
  if (error instanceof UserError) return error.problems;
  const message = error instanceof Error ? error.message : String(error);
  return [{ message: message.replace(/^error: /, '') }];
}

function createProgram(setExitCode: SetExitCode): Command {
  const program = new Command('axlewright')
    .description('Control core for motorised scale models: set up, build, replay, prove.')
    .version(packageVersion())
    .option('--debug', 'show where in the program an error arose')
    .exitOverride()
    .showHelpAfterError('(axlewright --help lists the commands)')
    .addHelpText('after', EXIT_CODES);
  // All are made before one of them is chosen: what a command works with is loaded by its action.
  const commands = [
    newCommand(),
    fieldsCommand(),
    buildCommand(),
    simulateCommand(setExitCode),
    replayCommand(setExitCode),
    importCommand(),
    unpackCommand(),
    demoCommand(setExitCode),
  ];
  for (const command of commands) {
    command.copyInheritedSettings(program).option('--debug', 'show where an error arose');
    program.addCommand(command);
  }
  return program;
}

const EXIT_CODES = `
Exit codes: 0 all went well; 1 a safety limit was broken or a run did not verify;
2 the input was wrong; 3 axlewright itself failed.`;
