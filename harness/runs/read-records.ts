import Papa from 'papaparse';
import { BLANK_LINE, frameLines, LONGEST, TOO_LONG, TORN_END } from './frame-lines.ts';
import type { RecordShape } from './record-shape.ts';
import type { RunIssue } from './run-issue.ts';
import type { TextSource } from './text-source.ts';

/** Records that follow each other in a file. */
export interface RecordBatch {
  /** At most so many records. */
  room: number;
  /** Hands out each record with the line it begins in; once only, as nothing is kept. */
  forEach(take: (record: string[], line: number) => void): void;
  /** What was found wrong between them, in the order of lines; complete after `forEach`. */
  issues: RunIssue[];
  /** true = the last record has no line break. */
  unterminated: boolean;
  /** The text of the records, where it is that simple. */
  even?: EvenText;
}

/** Lines without quotes and comments whose breaks are all alike. */
export interface EvenText {
  text: string;
  delimiter: string;
  newline: '\n' | '\r\n';
  /** How many lines, each with its break; the number of the first one. */
  lines: number;
  line: number;
}

/**
 * Reads the records of a CSV text by RFC 4180, batch by batch, with flat memory. A line that is no
 * record is told and skipped, and reading goes on with the line after it.
 *
 * @param source where it goes on reading; what it gave is used up
 * @param shape looked at anew before each batch
 */
export async function* readRecords(
  source: TextSource,
  shape: RecordShape,
): AsyncGenerator<RecordBatch> {
  for (;;) {
    const batch = await nextBatch(source, shape, Number.POSITIVE_INFINITY);
    if (batch === undefined) return;
    yield batch;
  }
}

/** Reads no further than the first record; undefined = the text ends before one. */
export async function readFirstRecord(
  source: TextSource,
  shape: RecordShape,
): Promise<RecordBatch | undefined> {
  return nextBatch(source, shape, 1);
}

async function nextBatch(
  source: TextSource,
  shape: RecordShape,
  most: number,
): Promise<RecordBatch | undefined> {
  for (;;) {
    if (source.ended && source.text === '') return undefined;
    const end = source.text.lastIndexOf('\n') + 1;
    if (end > 0 || source.ended) {
      const even = most > 1 && end > 0 ? splitEvenly(source, end, shape) : undefined;
      const batch = even ?? splitByGrammar(source, source.ended ? undefined : end, shape, most);
      if (batch !== undefined) return batch;
    } else if (source.text.length > LONGEST) {
      return skipLongLine(source);
    }
    await source.fill();
  }
}

/** The quick way, for text without quotes whose line breaks are all alike. */
function splitEvenly(source: TextSource, end: number, shape: RecordShape): RecordBatch | undefined {
  const block = source.text.slice(0, end);
  if (block.includes('"') || block.includes('\0') || block.includes(LOST_CHARACTER))
    return undefined;
  const breaks = lineBreaks(block);
  if (breaks === undefined) return undefined;
  const { newline, lines } = breaks;
  const { delimiter, comment } = shape;
  const issues: RunIssue[] = [];
  let line = source.line;
  const even = { text: block, delimiter, newline, lines, line };
  source.use(end, lines);
  const forEach: RecordBatch['forEach'] = (take) => {
    const sort = (record: string[]): void => {
      const first = record[0] ?? '';
      if (record.length === 1 && first === '') {
        issues.push({ kind: 'blank-line', line, message: BLANK_LINE, lost: false });
      } else if (comment === undefined || !first.startsWith(comment)) {
        take(record, line);
      }
      line++;
    };
    const text = block.slice(0, block.length - newline.length);
    if (text === '') sort(['']);
    else parse(text, delimiter, newline, sort);
  };
  const batch = { room: lines, forEach, issues, unterminated: false };
  return comment === undefined ? { ...batch, even } : batch;
}

/** The thorough way, line by line; undefined = the first record needs more text. */
function splitByGrammar(
  source: TextSource,
  end: number | undefined,
  shape: RecordShape,
  most: number,
): RecordBatch | undefined {
  const frames = frameLines(source.text.slice(0, end), source.line, shape, source.ended, most);
  if (frames.used === 0) return undefined;
  const { texts, lines, issues, unterminated } = frames;
  source.use(frames.used, frames.usedLines);
  const forEach: RecordBatch['forEach'] = (take) => {
    let at = 0;
    if (texts.length === 0) return;
    parse(texts.join('\n'), shape.delimiter, '\n', (record) => take(record, lines[at++]!));
  };
  return { room: texts.length, forEach, issues, unterminated };
}

async function skipLongLine(source: TextSource): Promise<RecordBatch> {
  const { line } = source;
  while (!source.ended && !source.text.includes('\n')) {
    source.use(source.text.length, 0);
    await source.fill();
  }
  const end = source.text.indexOf('\n') + 1;
  const issue: RunIssue =
    end === 0
      ? { kind: 'torn-end', line, message: TORN_END, lost: true }
      : { kind: 'too-long', line, message: TOO_LONG, lost: true };
  source.use(end === 0 ? source.text.length : end, 1);
  return { room: 0, forEach: () => {}, issues: [issue], unterminated: false };
}

/** Number of lines, and their one kind of break; undefined where the text needs a closer look. */
function lineBreaks(block: string): { newline: '\n' | '\r\n'; lines: number } | undefined {
  let lines = 0;
  let pairs = 0;
  let at = 0;
  for (let end = block.indexOf('\n'); end >= 0; end = block.indexOf('\n', at)) {
    if (end - at > LONGEST) return undefined;
    if (block.charCodeAt(end - 1) === CARRIAGE_RETURN) pairs++;
    lines++;
    at = end + 1;
  }
  let returns = 0;
  for (let i = block.indexOf('\r'); i >= 0; i = block.indexOf('\r', i + 1)) returns++;
  if (returns !== pairs || (pairs > 0 && pairs < lines)) return undefined;
  return { newline: pairs > 0 ? '\r\n' : '\n', lines };
}

function parse(
  text: string,
  delimiter: string,
  newline: '\n' | '\r\n',
  take: (record: string[]) => void,
): void {
  // The parser takes one byte order mark away; this one would be data.
  const input = text.startsWith(BYTE_ORDER_MARK) ? BYTE_ORDER_MARK + text : text;
  // Row by row, as the parser's own gathering of rows costs twice the time.
  Papa.parse<string[]>(input, { delimiter, newline, step: ({ data }) => take(data) });
}

const LOST_CHARACTER = '\uFFFD';
const BYTE_ORDER_MARK = '\uFEFF';
const CARRIAGE_RETURN = 13;
