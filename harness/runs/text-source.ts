import { open } from 'node:fs/promises';
import { readError } from '../file-error.ts';
import { UserError } from '../problems.ts';

/** Encodings a file may have; `utf-16` obeys its byte order mark and is little-endian without. */
export const ENCODINGS = ['utf-8', 'utf-16', 'latin1'] as const;
export type Encoding = (typeof ENCODINGS)[number];

/** The part of a text file that was read and not yet used up. */
export interface TextSource {
  /** Text that was read and not yet used up. */
  readonly text: string;
  /** Number of the line that `text` begins in, from 1. */
  readonly line: number;
  /** true = nothing is left in the file behind `text`. */
  readonly ended: boolean;
  /** Reads on; afterwards `text` is longer or `ended` is true. */
  fill(): Promise<void>;
  /** Uses up the first `length` characters, which hold `lines` line breaks. */
  use(length: number, lines: number): void;
  close(): Promise<void>;
}

/**
 * Opens a text file to be read piece by piece. A byte order mark is taken away; bytes that do not
 * fit the encoding become U+FFFD, so that they can be told.
 *
 * @param path file to read
 * @throws UserError when there is no such file, it cannot be read, or it says that it is in UTF-16
 * where UTF-8 is due
 */
export async function openText(path: string, encoding: Encoding): Promise<TextSource> {
  const file = await open(path, 'r').catch((error) => {
    throw readError(path, error);
  });
  const buffer = Buffer.allocUnsafe(PIECE);
  let decoder: TextDecoder | undefined;
  const source = { text: '', line: 1, ended: false, fill, use, close: () => file.close() };

  async function fill(): Promise<void> {
    const { bytesRead } = await file.read(buffer, 0, PIECE).catch((error) => {
      throw readError(path, error);
    });
    const bytes = buffer.subarray(0, bytesRead);
    if (decoder === undefined && encoding === 'utf-8' && isMarkedUtf16(bytes)) throw isUtf16(path);
    decoder ??= new TextDecoder(labelOf(encoding, bytes));
    source.text += decoder.decode(bytes, { stream: bytesRead > 0 });
    source.ended = bytesRead === 0;
  }

  function use(length: number, lines: number): void {
    source.text = source.text.slice(length);
    source.line += lines;
  }

  return source;
}

/** Uses up so many lines, or the whole text if there are fewer. */
export async function skipLines(source: TextSource, lines: number): Promise<void> {
  for (let left = lines; left > 0; ) {
    const end = source.text.indexOf('\n') + 1;
    source.use(end === 0 ? source.text.length : end, end === 0 ? 0 : 1);
    if (end > 0) left--;
    else if (source.ended) return;
    else await source.fill();
  }
}

const PIECE = 262_144;

/** true if the text begins with the byte order mark of UTF-16. */
function isMarkedUtf16([first, second]: Buffer): boolean {
  return (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
}

function isUtf16(path: string): UserError {
  const cure = 'Save it as UTF-8; a mapping for `axlewright import` may say "encoding": "utf-16".';
  return new UserError([{ file: path, message: 'Is text in UTF-16, expected UTF-8.', cure }]);
}

function labelOf(encoding: Encoding, start: Buffer): string {
  if (encoding !== 'utf-16') return encoding;
  return start[0] === 0xfe && start[1] === 0xff ? 'utf-16be' : 'utf-16le';
}
