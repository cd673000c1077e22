import { escapePattern } from './escape-pattern.ts';
import type { RecordShape } from './record-shape.ts';
import type { IssueKind, RunIssue } from './run-issue.ts';

/** Longest record, in characters; a longer one is no record of a run. */
export const LONGEST = 65_536;

export const BLANK_LINE = 'Blank line, passed over.';
export const TORN_END = 'The file ends inside this row.';

export const TOO_LONG = `More than ${LONGEST} characters without a line break: no row of a run.`;

/** Lines of a text, put together to whole records. */
export interface Frames {
  /** Text of each record, without its line break. */
  texts: string[];
  /** Line each record begins in. */
  lines: number[];
  issues: RunIssue[];
  /** Characters and lines used up; 0 when the first record needs more text. */
  used: number;
  usedLines: number;
  /** true = the last record has no line break. */
  unterminated: boolean;
}

/**
 * Finds the records in a text by the grammar of RFC 4180. Where a line is no record it is told and
 * the line after is tried, so that one torn line or stray quote costs no whole row behind it.
 *
 * @param text begins with a record; ends with a line break unless `atEnd`
 * @param line number of its first line
 * @param atEnd true = nothing follows in the file
 * @param most stop after so many records and lines that are none
 */
export function frameLines(
  text: string,
  line: number,
  shape: RecordShape,
  atEnd: boolean,
  most: number,
): Frames {
  const grammar = recordGrammar(shape.delimiter);
  const out: Frames = {
    texts: [],
    lines: [],
    issues: [],
    used: 0,
    usedLines: 0,
    unterminated: false,
  };
  let found = 0;
  while (out.used < text.length && found < most) {
    const frame = nextFrame({ text, at: out.used, shape, atEnd, grammar });
    if (frame === undefined) break;
    const at = line + out.usedLines;
    if (frame.record !== undefined) {
      found++;
      out.texts.push(frame.record);
      out.lines.push(at);
      out.unterminated = frame.unterminated === true;
    } else if (frame.kind !== undefined) {
      if (frame.kind !== 'blank-line') found++;
      out.issues.push(issueOf(frame, at));
    }
    out.used = frame.end;
    out.usedLines += frame.lines;
  }
  return out;
}

/**
 * `record` of RFC 4180, section 2, for any delimiter. TEXTDATA is widened from ASCII to every
 * character but quotes, delimiter and line breaks, as media type text/csv has it for UTF-8.
 */
function recordGrammar(delimiter: string): Grammar {
  const mark = escapePattern(delimiter);
  const quoted = '"[^"]*(?:""[^"]*)*';
  const field = `(?:${quoted}"|[^"\\r\\n${mark}]*)`;
  return {
    record: new RegExp(`^${field}(?:${mark}${field})*$`),
    opening: new RegExp(`^(?:${field}${mark})*${quoted}$`),
  };
}

interface Grammar {
  /** A whole record. */
  record: RegExp;
  /** The first line of a record that goes on in the next. */
  opening: RegExp;
}

interface Place {
  text: string;
  at: number;
  shape: RecordShape;
  atEnd: boolean;
  grammar: Grammar;
}

interface Frame {
  /** Index behind its line break. */
  end: number;
  lines: number;
  record?: string;
  unterminated?: boolean;
  kind?: IssueKind;
  message?: string;
}

function nextFrame(place: Place): Frame | undefined {
  const { text, at, shape, grammar } = place;
  const eol = text.indexOf('\n', at);
  const content = lineContent(text, at, eol);
  const end = eol < 0 ? text.length : eol + 1;
  const one = { end, lines: 1 };
  if (shape.comment !== undefined && content.startsWith(shape.comment)) return one;
  const fault = lineFault(content);
  const whole = fault === undefined && grammar.record.test(content);
  if (eol < 0) return lastFrame(content, end, whole && content !== '', shape);
  if (content === '') return { ...one, kind: 'blank-line', message: BLANK_LINE };
  if (fault !== undefined) return { ...one, ...fault };
  if (whole) return { ...one, record: content };
  if (shape.multiline && grammar.opening.test(content)) return spanningFrame(place, end);
  return { ...one, kind: 'malformed', message: malformed(content) };
}

/** What stands behind the last line break of a file. */
function lastFrame(content: string, end: number, whole: boolean, shape: RecordShape): Frame {
  if (whole && !shape.breakDue) return { end, lines: 1, record: content, unterminated: true };
  return { end, lines: 1, kind: 'torn-end', message: TORN_END };
}

/** A record whose quoted field seems to go on over the lines that follow. */
function spanningFrame(place: Place, firstEnd: number): Frame | undefined {
  const { text, at, shape, atEnd, grammar } = place;
  let lines = 1;
  let open = true;
  let from = firstEnd;
  while (open && from - at <= LONGEST && from < text.length) {
    const eol = text.indexOf('\n', from);
    if (hasOpenQuote(lineContent(text, from, eol))) open = false;
    from = eol < 0 ? text.length : eol + 1;
    lines++;
  }
  const ended = from === text.length;
  if (open && ended && !atEnd && from - at <= LONGEST) return undefined;
  const terminated = text.charCodeAt(from - 1) === LINE_FEED;
  const record = lineContent(text, at, terminated ? from - 1 : -1, from);
  if (!open && isRecord(record, shape, grammar)) {
    if (terminated) return { end: from, lines, record };
    if (!shape.breakDue) return { end: from, lines, record, unterminated: true };
  }
  // Torn only if nothing behind the first line is whole: else its quote was a stray one.
  const cut = ended && atEnd && (open || !terminated);
  if (cut && !hasWholeLine(text.slice(firstEnd), shape, grammar)) {
    return { end: text.length, lines, kind: 'torn-end', message: TORN_END };
  }
  return { end: firstEnd, lines: 1, kind: 'malformed', message: BAD_QUOTES };
}

function isRecord(text: string, shape: RecordShape, grammar: Grammar): boolean {
  if (lineFault(text) !== undefined || !grammar.record.test(text)) return false;
  return shape.columns === 0 || countFields(text, shape.delimiter) === shape.columns;
}

/** Text of a line without its break; `eol` is the index of its line feed, -1 = none. */
function lineContent(text: string, at: number, eol: number, end = text.length): string {
  const stop = eol < 0 ? end : eol;
  return text.slice(
    at,
    stop > at && text.charCodeAt(stop - 1) === CARRIAGE_RETURN ? stop - 1 : stop,
  );
}

function lineFault(content: string): { kind: IssueKind; message: string } | undefined {
  if (content.length > LONGEST) {
    return { kind: 'too-long', message: TOO_LONG };
  }
  if (!/[\0\uFFFD]/.test(content)) return undefined;
  return { kind: 'not-text', message: 'Holds bytes that are no text in the encoding of the file.' };
}

function hasWholeLine(text: string, shape: RecordShape, grammar: Grammar): boolean {
  return text.split(/\r?\n/).some((line) => line !== '' && isRecord(line, shape, grammar));
}

/** Number of fields of a text that fits the grammar. */
export function countFields(record: string, delimiter: string): number {
  return record.replace(/"[^"]*"/g, '').split(delimiter).length;
}

function hasOpenQuote(text: string): boolean {
  let open = false;
  for (let at = text.indexOf('"'); at >= 0; at = text.indexOf('"', at + 1)) open = !open;
  return open;
}

function malformed(content: string): string {
  return content.includes('"')
    ? BAD_QUOTES
    : 'A carriage return stands inside a field that is not quoted.';
}

function issueOf(frame: Frame, line: number): RunIssue {
  const { kind = 'malformed', message = '' } = frame;
  return { kind, line, message, lost: kind !== 'blank-line' };
}

const BAD_QUOTES =
  'Quotes must enclose a whole field and be doubled inside it (RFC 4180, section 2).';
const LINE_FEED = 10;
const CARRIAGE_RETURN = 13;
