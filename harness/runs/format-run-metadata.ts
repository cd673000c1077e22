import { basename } from 'node:path';
import { DIALECT, describeColumns } from './describe-columns.ts';
import { LAYOUT_NAMES } from './run-columns.ts';
import { CONTEXT, NAMESPACE, NOTE, type RunMetadata } from './run-metadata.ts';

/**
 * The metadata as a document by W3C "Metadata Vocabulary for Tabular Data".
 *
 * @param runPath the run that it lies beside
 * @param names the run's columns
 */
export function formatRunMetadata(
  runPath: string,
  names: readonly string[],
  metadata: RunMetadata,
): string {
  const { layout, setups, constants, notes, columns: _, other, ...plain } = metadata;
  const own: Record<string, unknown> = {
    ...(layout === undefined ? {} : { layout: LAYOUT_NAMES[layout] }),
    ...plain,
    ...(setups === undefined ? {} : { setups: setups.map(slotEntry) }),
    ...(constants === undefined ? {} : { constants: JSON.stringify(constants) }),
  };
  const document = {
    '@context': CONTEXT,
    url: encodeURIComponent(basename(runPath)),
    dialect: DIALECT,
    tableSchema: { columns: describeColumns(names) },
    ...(notes === undefined ? {} : { notes: notes.map((note) => ({ [NOTE]: note })) }),
    ...Object.fromEntries(Object.entries(own).map(([name, value]) => [NAMESPACE + name, value])),
    ...other,
  };
  return `${JSON.stringify(document, undefined, 2)}\n`;
}

function slotEntry(name: string, slot: number): object {
  return { 'schema:position': slot, 'schema:name': name };
}
