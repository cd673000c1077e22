#!/usr/bin/env node
import { runCli } from './run-cli.ts';

// Whoever reads the output may stop reading, as `head` does; that is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit();
});

process.exitCode = await runCli(process.argv.slice(2));
