import { MISSING } from '../../lib/signals.ts';
import { type Problem, UserError } from '../problems.ts';
import { nearestName } from '../setup/nearest-name.ts';
import { foreignDelimiter } from './foreign-delimiter.ts';
import type { RowFault } from './gather-rows.ts';
import type { ColumnMapping, Mapping, SourceColumn } from './mapping-schema.ts';
import { createDecimalParser, type DecimalParser } from './parse-decimal.ts';
import { createTimeParser } from './parse-time.ts';
import { knownColumn, LAYOUT_NAMES, runColumns } from './run-columns.ts';
import { UNITS } from './units.ts';

/** A mapping applied to the header of one log. */
export interface ImportPlan {
  /** Columns of the run to be written, in order. */
  names: string[];
  /** Number of fields in a whole record of the log. */
  width: number;
  /** Time of a record in ms, not rounded; NaN = cannot be read. */
  time: (record: readonly string[]) => number;
  /** Indices of the fields it is read from. */
  timeAt: readonly number[];
  /** Columns whose values count from the first row's time. */
  fromStart: boolean;
  integers: IntegerPlan[];
  texts: { name: string; at: number }[];
}

/** How one integer column is filled. */
interface IntegerPlan {
  name: string;
  /** Index of the field in a record. */
  at: number;
  /** The integer, or what is wrong with the field. */
  convert: (cell: string) => number | RowFault;
}

/**
 * Finds the mapping's columns in a log.
 *
 * @param log and mappingPath names for the errors
 * @param header headers of the log; or, where it has none, only their number counts
 * @throws UserError naming every column that is not there, with the nearest header
 */
export function planImport(
  log: string,
  mappingPath: string,
  mapping: Mapping,
  header: readonly string[],
): ImportPlan {
  refuseDelimiter(log, mappingPath, mapping, header);
  const problems: Problem[] = [];
  const trimmed = header.map((name) => name.trim());
  const find: Finder = (from, field) => {
    const found = findColumn(from, trimmed);
    if (typeof found === 'number') return found;
    problems.push({ file: mappingPath, field, ...found, message: `${log} ${found.message}` });
    return 0;
  };
  const number = createDecimalParser(mapping.decimal, mapping.group);
  const integers = planIntegers(mapping, find, number);
  const time = planTime(mapping, find, number);
  const taken = new Set([...time.from, ...integers.map(({ at }) => at)]);
  const texts = planTexts(mapping, trimmed, taken, find);
  for (const { name, at } of texts) {
    const known = knownColumn(name) !== undefined;
    const twin = texts.some((other) => other.name === name && other.at !== at);
    if (!known && !twin) continue;
    const message = known ? 'is a column of the core.' : 'stands twice in the header.';
    const cure = 'Describe it under "columns", or list only other columns to keep.';
    problems.push({ file: mappingPath, field: 'keep', message: `"${name}" ${message}`, cure });
  }
  if (problems.length > 0) throw new UserError(problems);
  const names = ['time_ms', ...integers.map(({ name }) => name), ...texts.map(({ name }) => name)];
  return {
    names,
    width: header.length,
    time: time.read,
    timeAt: time.from,
    fromStart: mapping.time.fromStart,
    integers,
    texts,
  };
}

/** Else every column of the log would be told as missing. */
function refuseDelimiter(
  log: string,
  file: string,
  { delimiter }: Mapping,
  header: readonly string[],
): void {
  const found = foreignDelimiter(header);
  if (found === undefined) return;
  const message = `found ${JSON.stringify(delimiter)}, but ${found.name} stand in ${log}.`;
  const cure = `Write "delimiter": "${found.written}".`;
  throw new UserError([{ file, field: 'delimiter', message, cure }]);
}

type Finder = (from: SourceColumn, field: string) => number;

/** Index of a column in the log, or why there is none. */
function findColumn(
  from: SourceColumn,
  header: readonly string[],
): number | { message: string; cure: string } {
  if (typeof from === 'number') {
    if (from <= header.length) return from - 1;
    return { message: `has no column ${from}.`, cure: `It has ${header.length} columns.` };
  }
  const found = header.indexOf(from.trim());
  if (found >= 0 && header.indexOf(from.trim(), found + 1) < 0) return found;
  if (found >= 0) {
    return { message: `has two columns "${from}".`, cure: 'Give its number, from 1.' };
  }
  const near = nearestName(from, header);
  const cure = near === undefined ? `It has: ${header.join(', ')}.` : `Did you mean "${near}"?`;
  return { message: `has no column "${from}".`, cure };
}

function planIntegers(mapping: Mapping, find: Finder, number: DecimalParser): IntegerPlan[] {
  const order = columnOrder(mapping);
  return Object.entries(mapping.columns)
    .sort(([a], [b]) => order.indexOf(a) - order.indexOf(b))
    .map(([name, column]) => ({
      name,
      at: find(column.from, `columns.${name}.from`),
      convert: createConverter(name, column, number),
    }));
}

/**
 * Columns of the layout; or, where none is given, of the first one that has all that are mapped.
 */
function columnOrder({ run, columns }: Mapping): string[] {
  const wanted = run.layout === undefined ? LAYOUT_NAMES : [run.layout];
  const orders = wanted.map((name) =>
    runColumns(LAYOUT_NAMES.indexOf(name)).map((column) => column.name),
  );
  const mapped = Object.keys(columns);
  return orders.find((order) => mapped.every((name) => order.includes(name))) ?? orders.flat();
}

function createConverter(
  field: string,
  column: ColumnMapping,
  number: DecimalParser,
): IntegerPlan['convert'] {
  const own = UNITS[knownColumn(field)?.unit ?? ''];
  const factor = column.unit === undefined ? 1 : (own?.[column.unit] ?? 1);
  const scale = factor * column.scale * (column.negate ? -1 : 1);
  const missing = new Set(column.missing);
  return (cell) => {
    if (missing.has(cell.trim())) return MISSING;
    const raw = number(cell);
    const shown = JSON.stringify(cell);
    if (Number.isNaN(raw)) {
      const message = `found ${shown}, expected a number.`;
      const cure = decimalCure(cell);
      return { kind: 'not-a-number', field, message, ...(cure !== undefined && { cure }) };
    }
    const value = roundAway(raw * scale + column.offset);
    if ((value | 0) === value && value !== MISSING) return value;
    const why = value === MISSING ? 'would be taken for a missing sample' : 'does not fit 32 bits';
    return { kind: 'out-of-range', field, message: `${shown} gives ${value}, which ${why}.` };
  };
}

/** What a text that is no number may lack: its fraction begins with the other mark. */
export function decimalCure(text: string): string | undefined {
  const mark = /^[+-]?\d+([.,])\d+$/.exec(text.trim())?.[1];
  return mark === undefined ? undefined : `Is "decimal": "${mark}" meant in the mapping?`;
}

/** Nearest integer, halves away from zero, so that mirrored logs give mirrored runs. */
function roundAway(value: number): number {
  return value < 0 ? 0 - Math.round(-value) : Math.round(value);
}

function planTime({ time }: Mapping, find: Finder, number: DecimalParser) {
  const from = [time.from].flat().map((each) => find(each, 'time.from'));
  if (time.format === undefined) {
    const factor = UNITS.ms?.[time.unit ?? 'ms'] ?? 1;
    return { from, read: (record: readonly string[]) => number(record[from[0]!]!) * factor };
  }
  const parse = createTimeParser(time.format, time.zone);
  const read = (record: readonly string[]): number =>
    parse(from.map((at) => record[at]!.trim()).join(' '));
  return { from, read };
}

function planTexts(
  { keep }: Mapping,
  header: readonly string[],
  taken: ReadonlySet<number>,
  find: Finder,
): ImportPlan['texts'] {
  if (keep === 'all') {
    return header.map((name, at) => ({ name, at })).filter(({ at }) => !taken.has(at));
  }
  return keep.map((from) => {
    const at = find(from, 'keep');
    return { name: header[at] ?? '', at };
  });
}
