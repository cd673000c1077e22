import { Command } from 'commander';
import { UserError } from '../problems.ts';
import { formatFields } from '../setup/describe-field.ts';
import { type FieldDoc, listFields } from '../setup/list-fields.ts';
import { jsonText } from './json-text.ts';
import { say } from './terminal.ts';

/** `axlewright fields`: the reference of every field of a garage's files. */
export function fieldsCommand(): Command {
  return new Command('fields')
    .description('list every field of vehicle.ts, surfaces.ts and setups/*.ts')
    .argument('[part]', 'only fields whose path holds this, such as split or motor')
    .option('--json', 'print JSON')
    .action((part: string | undefined, options: { json?: boolean }) => {
      const all = listFields();
      const fields = all.filter((field) => part === undefined || fullPath(field).includes(part));
      if (part !== undefined && fields.length === 0) throw noField(part, all);
      say(options.json ? jsonText(fields) : formatFields(fields));
    });
}

function fullPath({ record, path }: FieldDoc): string {
  return `${record}.${path}`;
}

function noField(part: string, all: readonly FieldDoc[]): UserError {
  const groups = new Set(all.map((field) => fullPath(field).split('.').slice(0, 2).join('.')));
  const message = `no field's path holds "${part}".`;
  const cure = `There are: ${[...groups].join(', ')}.`;
  return new UserError([{ file: 'command line', field: 'fields', message, cure }]);
}
