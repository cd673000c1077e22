import { MISSING } from '../../lib/signals.ts';
import { knownColumn } from './run-columns.ts';

/** The description of each column by "Metadata Vocabulary for Tabular Data", in their order. */
export function describeColumns(names: readonly string[]): object[] {
  return names.map((name) => {
    const known = knownColumn(name);
    // A text column may have any header; a property `name` may not, so it has titles alone.
    if (known === undefined) return { titles: name, datatype: 'string' };
    return {
      name,
      titles: name,
      datatype: 'int',
      // A clock may well show -32768 ms, so there it is no mark of a missing sample.
      ...(name === 'time_ms' ? { required: true } : { null: [String(MISSING), ''] }),
      'dc:description': known.meaning,
      ...(known.unit === '' ? {} : { 'schema:unitText': known.unit }),
    };
  });
}

/** How our runs are written, as a dialect description. */
export const DIALECT = {
  encoding: 'utf-8',
  lineTerminators: ['\r\n', '\n'],
  quoteChar: '"',
  doubleQuote: true,
  delimiter: ',',
  header: true,
  trim: false,
};
