import { type Problem, UserError } from '../problems.ts';
import { nearestName } from '../setup/nearest-name.ts';
import { foreignDelimiter } from './foreign-delimiter.ts';
import { countFields, frameLines, LONGEST } from './frame-lines.ts';
import { readFirstRecord } from './read-records.ts';
import type { RecordShape } from './record-shape.ts';
import { type RunHeader, runHeader } from './run-chunk.ts';
import { knownNames, REQUIRED_COLUMNS } from './run-columns.ts';
import type { RunIssue } from './run-issue.ts';
import type { RunMetadata } from './run-metadata.ts';
import type { TextSource } from './text-source.ts';

/**
 * Reads the header of a run. A damaged one is replaced from the metadata, if there are any of ours.
 *
 * @returns undefined when nothing but a torn header is left of the file, which is reported
 * @throws UserError when the file is no run
 */
export async function readHeader(
  path: string,
  source: TextSource,
  shape: RecordShape,
  metadata: RunMetadata | undefined,
  report: (issue: RunIssue) => void,
): Promise<RunHeader | undefined> {
  const { names, damage } = await firstNames(source, shape, report);
  refuseDelimiter(path, names);
  const described = metadata?.rows === undefined ? undefined : metadata.columns;
  const spare = described !== undefined && headerProblems(path, described).length === 0;
  if (damage?.kind === 'torn-end' && spare) {
    const message = `The file ends inside its header; all ${metadata?.rows} rows are lost.`;
    report({ ...damage, message });
    return undefined;
  }
  if (spare) {
    const why = damage?.message ?? (await headerDoubt(source, shape, names, described));
    if (why === undefined && names.length > described.length) report(UNDESCRIBED);
    if (why === undefined) return runHeader(names);
    const message = `${why} The header is taken from the metadata.`;
    report({ kind: 'header', line: damage?.line ?? 1, message, lost: true });
    return runHeader(described);
  }
  if (damage !== undefined) {
    const { line, message } = damage;
    throw new UserError([{ file: path, line, field: 'header', message, cure: CURE }]);
  }
  const problems = headerProblems(path, names);
  if (problems.length > 0) throw new UserError(problems);
  const header = runHeader(names);
  if (metadata === undefined) for (const hint of misspelt(header)) report(hint);
  return header;
}

/** Before the metadata get their say: a spreadsheet leaves them as they are, too. */
function refuseDelimiter(file: string, names: readonly string[]): void {
  const found = foreignDelimiter(names);
  if (found === undefined) return;
  const message = `${found.name} stand between the columns, expected commas.`;
  const cure =
    `Save it with commas, or "axlewright import" it by a mapping with "delimiter": ` +
    `"${found.written}"; harness/runs/SPEC.md describes both.`;
  throw new UserError([{ file, line: 1, field: 'header', message, cure }]);
}

/** Columns that are kept as text, but are called nearly as one that the core would read. */
function misspelt({ extra, columns }: RunHeader): RunIssue[] {
  const missing = knownNames().filter((name) => !columns.includes(name));
  return extra.flatMap((field): RunIssue[] => {
    const near = nearestName(field, missing);
    if (near === undefined) return [];
    const message = `is no column of the core, which leaves it aside; is it "${near}"?`;
    return [{ kind: 'header', line: 1, field, message, lost: false }];
  });
}

const UNDESCRIBED: RunIssue = {
  kind: 'metadata',
  line: 1,
  message: 'The header has columns that its metadata do not describe.',
  lost: false,
};

const CURE = 'A run begins with a line of column names; harness/runs/SPEC.md shows one.';

async function firstNames(
  source: TextSource,
  shape: RecordShape,
  report: (issue: RunIssue) => void,
): Promise<{ names: string[]; damage?: RunIssue }> {
  for (;;) {
    const batch = await readFirstRecord(source, shape);
    const damage = batch?.issues.find((issue) => issue.lost);
    for (const issue of batch?.issues ?? []) if (!issue.lost) report(issue);
    if (damage !== undefined) return { names: [], damage };
    let names: string[] | undefined;
    batch?.forEach((record) => {
      names = record;
    });
    if (names !== undefined) return { names };
    if (batch === undefined) {
      return {
        names: [],
        damage: { kind: 'torn-end', line: source.line, message: EMPTY, lost: true },
      };
    }
  }
}

const EMPTY = 'The file is empty.';

/** Numbers of fields in the rows that come next; nothing is used up. */
async function nextWidths(source: TextSource, shape: RecordShape): Promise<number[]> {
  while (!source.ended && source.text.length <= LONGEST) await source.fill();
  const text = source.text.slice(0, source.text.lastIndexOf('\n') + 1);
  const { texts } = frameLines(text, 1, { ...shape, columns: 0 }, true, PROBES);
  return texts.map((record) => countFields(record, shape.delimiter));
}

const PROBES = 5;

/** Why a header is less to be trusted than what the metadata describe; undefined = it is not. */
async function headerDoubt(
  source: TextSource,
  shape: RecordShape,
  names: readonly string[],
  described: readonly string[],
): Promise<string | undefined> {
  const absent = described.find((name) => !names.includes(name));
  if (absent !== undefined) return `It lacks "${absent}", which the metadata describe.`;
  if (names.length === described.length) return undefined;
  const widths = await nextWidths(source, shape);
  if (widths.includes(names.length) && new Set(names).size === names.length) return undefined;
  return 'It has columns that the rows have not.';
}

/** What keeps a header from being that of a run. */
function headerProblems(file: string, names: readonly string[]): Problem[] {
  const place = { file, line: 1, field: 'header' };
  const problems: Problem[] = REQUIRED_COLUMNS.filter((name) => !names.includes(name)).map(
    (name) => {
      const near = nearestName(name, names);
      const cure = near === undefined ? CURE : `Is it "${near}"? Rename it, or import the file.`;
      return { ...place, message: `no column "${name}".`, cure };
    },
  );
  for (const name of new Set(names.filter((each, at) => names.indexOf(each) !== at))) {
    problems.push({ ...place, message: `two columns "${name}".`, cure: 'Rename one of them.' });
  }
  return problems;
}
