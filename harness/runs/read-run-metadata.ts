import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import * as v from 'valibot';
import type { Layout } from '../../lib/codes.ts';
import { readError } from '../file-error.ts';
import { UserError } from '../problems.ts';
import { checkJson, parseJson } from './check-json.ts';
import { LAYOUT_NAMES } from './run-columns.ts';
import { CONTEXT, metadataPath, NAMESPACE, NOTE, type RunMetadata } from './run-metadata.ts';

/**
 * Reads the metadata beside a run.
 *
 * @param runPath path of the run itself
 * @returns undefined if there are none
 * @throws UserError naming file and field where they cannot be used
 */
export async function readRunMetadata(runPath: string): Promise<RunMetadata | undefined> {
  const path = metadataPath(runPath);
  let text: string;
  try {
    text = await readFile(path, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT') return undefined;
    throw readError(path, error);
  }
  const document = checkJson(path, documentSchema, parseJson(path, text));
  checkUrl(runPath, path, document);
  return fromDocument(path, document);
}

/** The Recommendation: metadata that do not name the file beside them are not its metadata. */
function checkUrl(runPath: string, path: string, document: MetadataDocument): void {
  const context = document['@context'];
  const base = typeof context === 'string' ? '' : (context[1]['@base'] ?? '');
  const home = new URL(base, pathToFileURL(path));
  const named = URL.canParse(document.url, home) ? new URL(document.url, home) : undefined;
  if (named?.protocol === 'file:' && fileURLToPath(named) === resolve(runPath)) return;
  const cure = 'If the run was renamed, write its new name there.';
  const message = `names "${document.url}", not the run it lies beside.`;
  throw new UserError([{ file: path, field: 'url', message, cure }]);
}

function fromDocument(path: string, document: MetadataDocument): RunMetadata {
  const ours = Object.entries(document).filter(([name]) => name.startsWith(NAMESPACE));
  const own = checkJson(
    path,
    ownSchema,
    Object.fromEntries(ours.map(([name, value]) => [name.slice(NAMESPACE.length), value])),
  );
  const { layout, setups, constants, ...rest } = own;
  const plain = Object.entries(rest).filter(([name]) => name in ownSchema.entries);
  const other = Object.entries(document).filter(([name]) => !isTaken(name));
  const { notes, tableSchema } = document;
  return {
    ...Object.fromEntries(plain),
    ...(layout === undefined ? {} : { layout: LAYOUT_NAMES.indexOf(layout) as Layout }),
    ...(setups === undefined ? {} : { setups: setupNames(setups) }),
    ...(constants === undefined ? {} : { constants: readConstants(path, constants) }),
    ...(notes === undefined ? {} : { notes: notes.flatMap((note) => note[NOTE] ?? []) }),
    ...(tableSchema === undefined ? {} : { columns: tableSchema.columns.map(headerOf) }),
    ...(other.length === 0 ? {} : { other: Object.fromEntries(other) }),
  };
}

function isTaken(name: string): boolean {
  if (name === 'dialect' || name in documentSchema.entries) return true;
  return name.startsWith(NAMESPACE) && name.slice(NAMESPACE.length) in ownSchema.entries;
}

function setupNames(setups: { 'schema:position': number; 'schema:name': string }[]): string[] {
  const bySlot = [...setups].sort((a, b) => a['schema:position'] - b['schema:position']);
  return bySlot.map((setup) => setup['schema:name']);
}

function readConstants(path: string, text: string): v.InferOutput<typeof constantsSchema> {
  return checkJson(path, constantsSchema, parseJson(path, text, 'constants'), {
    under: 'constants',
  });
}

function headerOf(column: v.InferOutput<typeof columnSchema>): string {
  const { titles = column.name ?? '' } = column;
  if (typeof titles === 'string') return titles;
  const first = Array.isArray(titles) ? titles[0] : Object.values(titles)[0];
  return String(Array.isArray(first) ? first[0] : (first ?? ''));
}

const columnSchema = v.looseObject({
  name: v.optional(v.string()),
  titles: v.optional(v.union([v.string(), v.array(v.string()), v.looseObject({})])),
});

const documentSchema = v.looseObject({
  '@context': v.union([
    v.literal(CONTEXT),
    v.tuple([v.literal(CONTEXT), v.looseObject({ '@base': v.optional(v.string()) })]),
  ]),
  url: v.string(),
  tableSchema: v.optional(v.looseObject({ columns: v.array(columnSchema) })),
  notes: v.optional(v.array(v.looseObject({ [NOTE]: v.optional(v.string()) }))),
});

type MetadataDocument = v.InferOutput<typeof documentSchema>;

const count = v.pipe(v.number(), v.integer(), v.minValue(0));

const ownSchema = v.looseObject({
  layout: v.optional(v.picklist(LAYOUT_NAMES)),
  vehicle: v.optional(v.string()),
  setups: v.optional(v.array(v.object({ 'schema:position': count, 'schema:name': v.string() }))),
  setupHash: v.optional(v.string()),
  constants: v.optional(v.string()),
  coreVersion: v.optional(v.string()),
  surface: v.optional(v.string()),
  seed: v.optional(v.string()),
  origin: v.optional(v.string()),
  startsAtPowerUp: v.optional(v.boolean()),
  rows: v.optional(count),
});

const constantsSchema = v.object({
  vehicle: v.array(v.pipe(v.number(), v.integer())),
  setups: v.array(v.array(v.pipe(v.number(), v.integer()))),
  crc: v.pipe(v.number(), v.integer()),
});
