import { type FileHandle, open, rm, writeFile } from 'node:fs/promises';
import { checkRunPlaces } from './check-run-places.ts';
import { formatRunMetadata } from './format-run-metadata.ts';
import { LONGEST } from './frame-lines.ts';
import { publishFile, writeRunError } from './publish-file.ts';
import { type RunChunk, type RunHeader, runHeader } from './run-chunk.ts';
import { REQUIRED_COLUMNS } from './run-columns.ts';
import { metadataPath, type RunMetadata } from './run-metadata.ts';

/** How a run is written. */
export interface WriteOptions {
  /** What is to be known of the run beside its rows; the rows are counted for you. */
  metadata?: RunMetadata;
  /** true = replace a run of that name; default: an existing file is an error. */
  overwrite?: boolean;
}

/** A run that is being written; nothing of that name exists until it is finished. */
export interface RunWriter {
  header: RunHeader;
  /** Rows so far. */
  readonly rows: number;
  /**
   * Adds a row. Wait for what it returns before the next one, so that memory stays flat.
   *
   * @param values one 32-bit integer for each of `header.columns`
   * @param extra one text for each of `header.extra`
   * @throws RangeError for a value that a run cannot hold
   */
  writeRow(values: ArrayLike<number>, extra?: readonly string[]): Promise<void> | undefined;
  /** Adds the rows of a chunk; its columns may stand in any order. */
  writeChunk(chunk: RunChunk): Promise<void>;
  /** Gives the run its name and puts the metadata beside it. */
  finish(): Promise<void>;
  /** Takes back all that was written. */
  abort(): Promise<void>;
}

/**
 * Begins a run under a temporary name (`path` + `.partial`).
 *
 * @param path name it gets when it is finished
 * @param names its columns in their order; the ones the core does not know hold text
 * @throws UserError when there is such a file, or one that is no run, or it cannot be written
 * @throws RangeError when the columns are none of a run
 */
export async function createRunWriter(
  path: string,
  names: readonly string[],
  options: WriteOptions = {},
): Promise<RunWriter> {
  const overwrite = options.overwrite === true;
  const headerText = `${checkNames(names).map(quoted).join(',')}\r\n`;
  const partial = `${path}.partial`;
  const beside = metadataPath(path);
  const partialBeside = `${beside}.partial`;
  await checkRunPlaces([path], overwrite);
  const file = await open(partial, overwrite ? 'w' : 'wx').catch((error) => {
    throw writeRunError(partial, error);
  });
  const out = createOutput(partial, file);
  const header = runHeader(names);
  const rowText = createRowText(header);
  out.add(headerText);

  const writer = { header, rows: 0, writeRow, writeChunk, finish, abort };

  function writeRow(values: ArrayLike<number>, extra: readonly string[] = []) {
    out.add(rowText(values, extra, writer.rows));
    writer.rows++;
    return out.flushIfFull();
  }

  async function writeChunk(chunk: RunChunk): Promise<void> {
    const integers = header.columns.map((name) => columnOf(chunk.columns, name));
    const texts = header.extra.map((name) => columnOf(chunk.extra, name));
    for (let row = 0; row < chunk.rows; row++) {
      const full = writeRow(
        integers.map((column) => column[row]!),
        texts.map((column) => column[row]!),
      );
      if (full !== undefined) await full;
    }
  }

  async function finish(): Promise<void> {
    await out.close();
    const metadata = { ...options.metadata, rows: writer.rows };
    await writeFile(partialBeside, formatRunMetadata(path, names, metadata)).catch((error) => {
      throw writeRunError(partialBeside, error);
    });
    // At no moment does a run lie beside the metadata of another one.
    if (overwrite) await rm(beside, { force: true });
    await publishFile(partial, path, overwrite);
    await publishFile(partialBeside, beside, overwrite);
  }

  async function abort(): Promise<void> {
    await out.close().catch(() => undefined);
    await rm(partial, { force: true });
    await rm(partialBeside, { force: true });
  }

  return writer;
}

/**
 * Writes a whole run, no faster than the disk takes it; leaves nothing behind if it fails.
 *
 * @returns number of rows
 */
export async function writeRun(
  path: string,
  names: readonly string[],
  chunks: AsyncIterable<RunChunk> | Iterable<RunChunk>,
  options: WriteOptions = {},
): Promise<number> {
  const writer = await createRunWriter(path, names, options);
  try {
    for await (const chunk of chunks) await writer.writeChunk(chunk);
    await writer.finish();
  } catch (error) {
    await writer.abort();
    throw error;
  }
  return writer.rows;
}

const BUFFERED = 262_144;

function createOutput(path: string, file: FileHandle) {
  let pending: string[] = [];
  let length = 0;
  let written: Promise<void> = Promise.resolve();
  let failure: unknown;

  function add(text: string): void {
    pending.push(text);
    length += text.length;
  }

  function flush(): Promise<void> {
    const text = pending.join('');
    pending = [];
    length = 0;
    // One after the other, and never rejected where nobody waits: `close` tells the failure.
    written = written
      .then(() => file.appendFile(text))
      .catch((error) => {
        failure ??= error;
      });
    return written;
  }

  async function close(): Promise<void> {
    await flush();
    if (failure === undefined) await file.sync();
    await file.close();
    if (failure !== undefined) throw writeRunError(path, failure);
  }

  return { add, flushIfFull: () => (length < BUFFERED ? undefined : flush()), close };
}

function checkNames(names: readonly string[]): readonly string[] {
  const absent = REQUIRED_COLUMNS.find((name) => !names.includes(name));
  if (absent !== undefined) throw new RangeError(`a run needs a column "${absent}"`);
  if (new Set(names).size !== names.length) throw new RangeError('a column is named twice');
  return names;
}

/** Makes the line of a row, with its columns in the order of the header. */
function createRowText({ names, columns, extra }: RunHeader) {
  const integerAt = names.map((name) => columns.indexOf(name));
  const textAt = names.map((name) => extra.indexOf(name));
  const cells: (number | string)[] = [];
  return (values: ArrayLike<number>, texts: readonly string[], row: number): string => {
    if (values.length !== columns.length || texts.length !== extra.length) {
      throw new RangeError(
        `row ${row}: ${values.length} integers and ${texts.length} texts, ` +
          `expected ${columns.length} and ${extra.length}`,
      );
    }
    for (let at = 0; at < names.length; at++) {
      const integer = integerAt[at]!;
      if (integer < 0) {
        cells[at] = quoted(texts[textAt[at]!]!);
        continue;
      }
      const value = values[integer]!;
      if ((value | 0) !== value) {
        throw new RangeError(`row ${row}, ${names[at]}: ${value} is no 32-bit integer`);
      }
      cells[at] = value;
    }
    const line = cells.join(',');
    if (line.length > LONGEST) throw new RangeError(`row ${row}: over ${LONGEST} characters`);
    return `${line}\r\n`;
  };
}

/** A text as a field by RFC 4180, section 2, rules 5 to 7. */
function quoted(text: string): string {
  if (/[\0\uFFFD\p{Surrogate}]/u.test(text)) {
    throw new RangeError(`a run cannot hold the text ${JSON.stringify(text)}`);
  }
  return /[",\r\n\uFEFF]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function columnOf<Values>(columns: ReadonlyMap<string, Values>, name: string): Values {
  const values = columns.get(name);
  if (values === undefined) throw new RangeError(`the chunk has no column "${name}"`);
  return values;
}
