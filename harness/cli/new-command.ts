import { Command } from 'commander';
import { createGarage } from '../demo/create-garage.ts';
import { jsonText } from './json-text.ts';
import { paint, say } from './terminal.ts';

/** `axlewright new`: a starter garage. */
export function newCommand(): Command {
  return new Command('new')
    .description('copy a starter garage into a new folder')
    .argument('<dir>', 'folder to make; it must not hold anything')
    .option('--from <car>', 'which car of the demo club to start from', 'hatch')
    .option('--json', 'print JSON')
    .action((dir: string, options: { from: string; json?: boolean }) => {
      const files = createGarage(dir, options.from);
      if (options.json) {
        say(jsonText({ garage: dir, files }));
        return;
      }
      for (const file of files) say(`  ${file}`);
      say(
        `${paint.green('made')} ${dir}. Read vehicle.ts first; its comments say what to measure.`,
      );
      say(`Next: axlewright build --garage ${dir}`);
    });
}
