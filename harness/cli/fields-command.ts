import { Command } from 'commander';
import { formatFields } from '../setup/describe-field.ts';
import { listFields } from '../setup/list-fields.ts';
import { say } from './terminal.ts';

/** `axlewright fields`: the reference of every field of a garage's files. */
export function fieldsCommand(): Command {
  return new Command('fields')
    .description('list every field of vehicle.ts, surfaces.ts and setups/*.ts')
    .argument('[part]', 'only fields whose path holds this, such as split or motor')
    .option('--json', 'print JSON')
    .action((part: string | undefined, options: { json?: boolean }) => {
      const fields = listFields().filter(
        (field) => part === undefined || `${field.record}.${field.path}`.includes(part),
      );
      say(options.json ? JSON.stringify(fields, null, 2) : formatFields(fields));
    });
}
