import { readFile } from 'node:fs/promises';
import { readError } from '../file-error.ts';
import { type Problem, UserError } from '../problems.ts';
import { nearestName } from '../setup/nearest-name.ts';
import { checkJson, parseJson } from './check-json.ts';
import {
  columnSchema,
  type Mapping,
  mappingSchema,
  runSchema,
  type TimeMapping,
  timeSchema,
} from './mapping-schema.ts';
import { isZone, timeFormatProblem } from './parse-time.ts';
import { knownColumn, LAYOUT_NAMES, REQUIRED_COLUMNS, runColumns } from './run-columns.ts';
import { UNITS } from './units.ts';

/**
 * Reads a mapping file.
 *
 * @throws UserError with every problem in it
 */
export async function readMapping(path: string): Promise<Mapping> {
  const text = await readFile(path, 'utf8').catch((error) => {
    throw readError(path, error);
  });
  const mapping = checkJson(path, mappingSchema, parseJson(path, text), { fields: FIELDS });
  const problems = [
    ...columnProblems(mapping),
    ...timeProblems(mapping.time),
    ...textProblems(mapping),
  ];
  if (problems.length > 0) throw new UserError(problems.map((each) => ({ file: path, ...each })));
  return mapping;
}

type FieldProblem = Omit<Problem, 'file'>;

function columnProblems({ columns, run, header }: Mapping): FieldProblem[] {
  const problems: FieldProblem[] = [];
  const layout = run.layout === undefined ? undefined : LAYOUT_NAMES.indexOf(run.layout);
  const fit = layout === undefined ? undefined : runColumns(layout).map(({ name }) => name);
  for (const [name, { from, unit }] of Object.entries(columns)) {
    const field = `columns.${name}`;
    const known = knownColumn(name);
    if (name === 'time_ms') {
      problems.push({ field, message: 'has no place here.', cure: 'Describe it under "time".' });
    } else if (known === undefined) {
      problems.push({ field, message: 'no column of the core.', cure: nearCure(name, fit) });
    } else if (fit !== undefined && !fit.includes(name)) {
      const message = `no column of the layout "${run.layout}".`;
      problems.push({ field, message, cure: nearCure(name, fit) });
    } else if (unit !== undefined && UNITS[known.unit]?.[unit] === undefined) {
      const units = Object.keys(UNITS[known.unit] ?? {});
      const cure = 'Or leave the unit out and give "scale" and "offset".';
      const expected = units.length === 0 ? 'none' : units.join(', ');
      const message = `found "${unit}", expected ${expected}.`;
      problems.push({ field: `${field}.unit`, message, cure });
    }
    if (!header && typeof from === 'string') problems.push(noHeader(`${field}.from`));
  }
  for (const name of REQUIRED_COLUMNS) {
    if (name === 'time_ms' || columns[name] !== undefined) continue;
    const cure = 'A run cannot be replayed without it.';
    problems.push({ field: `columns.${name}`, message: 'missing.', cure });
  }
  return problems;
}

function timeProblems({ from, unit, format, zone }: TimeMapping): FieldProblem[] {
  const problems: FieldProblem[] = [];
  if (format === undefined) {
    const cure = 'Give a "unit" for a number, or a "format" for a written time.';
    if (Array.isArray(from)) {
      problems.push({ field: 'time.format', message: 'missing for two columns.', cure });
    } else if (unit === undefined) {
      problems.push({ field: 'time', message: 'neither "unit" nor "format".', cure });
    }
    return problems;
  }
  if (unit !== undefined) {
    problems.push({ field: 'time.unit', message: 'has no meaning beside a format.' });
  }
  const problem = timeFormatProblem(format);
  if (problem !== undefined) problems.push({ field: 'time.format', message: problem });
  if (!isZone(zone)) {
    const message = `found "${zone}", expected an IANA name such as "Europe/London", or "utc".`;
    problems.push({ field: 'time.zone', message });
  }
  return problems;
}

function textProblems({ decimal, group, header, time, keep }: Mapping): FieldProblem[] {
  const problems: FieldProblem[] = [];
  if (decimal === group) {
    problems.push({ field: 'group', message: 'is the decimal mark as well.' });
  }
  if (header) return problems;
  if ([time.from].flat().some((from) => typeof from === 'string')) {
    problems.push(noHeader('time.from'));
  }
  if (keep === 'all' || keep.length > 0) {
    const cure = 'Kept columns need a name.';
    problems.push({ field: 'keep', message: 'the log has no header.', cure });
  }
  return problems;
}

function noHeader(field: string): FieldProblem {
  const cure = 'Give the column by its number, from 1.';
  return { field, message: 'the log has no header.', cure };
}

function nearCure(name: string, fit: readonly string[] = ALL_COLUMNS): string {
  const near = nearestName(name, fit);
  return near === undefined ? `Known: ${fit.join(', ')}.` : `Did you mean "${near}"?`;
}

const ALL_COLUMNS = LAYOUT_NAMES.flatMap((_, layout) => runColumns(layout))
  .map(({ name }) => name)
  .filter((name, at, all) => all.indexOf(name) === at);

const FIELDS = [mappingSchema, timeSchema, columnSchema, runSchema].flatMap((schema) =>
  Object.keys(schema.entries),
);
