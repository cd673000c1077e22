#!/usr/bin/env node
import { ExitCode } from './exit-code.ts';
import { runCli } from './run-cli.ts';

// Whoever reads the output may stop reading, as `head` does; that is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit();
  process.stderr.write(`error the output cannot be written (${error.code}).\n`);
  process.exit(ExitCode.INTERNAL);
});
// Nobody reads what is wrong; the exit code tells it all the same.
process.stderr.on('error', () => {});

process.exitCode = await runCli(process.argv.slice(2));
