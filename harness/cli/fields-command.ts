import { Command } from 'commander';
import { UserError } from '../problems.ts';
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
      if (part !== undefined && fields.length === 0) throw noField(part);
      say(options.json ? JSON.stringify(fields, null, 2) : formatFields(fields));
    });
}

function noField(part: string): UserError {
  const groups = new Set(listFields().map(({ record, path }) => `${record}.${path.split('.')[0]}`));
  const message = `no field's path holds "${part}".`;
  const cure = `There are: ${[...groups].join(', ')}.`;
  return new UserError([{ file: 'command line', field: 'fields', message, cure }]);
}
