import { type Problem, UserError } from '../problems.ts';
import { nearestName } from '../setup/nearest-name.ts';
import { type RecordShape, readFirstRecord } from './read-records.ts';
import { type RunHeader, runHeader } from './run-chunk.ts';
import { REQUIRED_COLUMNS } from './run-columns.ts';
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
  const described = metadata?.rows === undefined ? undefined : metadata.columns;
  const spare = described !== undefined && headerProblems(path, described).length === 0;
  if (damage?.kind === 'torn-end' && spare) {
    const message = `The file ends inside its header; all ${metadata?.rows} rows are lost.`;
    report({ ...damage, message });
    return undefined;
  }
  if (spare) return mendedHeader(names, damage, described, report);
  if (damage !== undefined) {
    const { line, message } = damage;
    throw new UserError([{ file: path, line, field: 'header', message, cure: CURE }]);
  }
  const problems = headerProblems(path, names ?? []);
  if (problems.length > 0) throw new UserError(problems);
  return runHeader(names ?? []);
}

const CURE = 'A run begins with a line of column names; harness/runs/SPEC.md shows one.';

async function firstNames(
  source: TextSource,
  shape: RecordShape,
  report: (issue: RunIssue) => void,
): Promise<{ names?: string[]; damage?: RunIssue }> {
  for (;;) {
    const batch = await readFirstRecord(source, shape);
    const damage = batch?.issues.find((issue) => issue.lost);
    for (const issue of batch?.issues ?? []) if (!issue.lost) report(issue);
    if (damage !== undefined) return { damage };
    let names: string[] | undefined;
    batch?.forEach((record) => {
      names = record;
    });
    if (names !== undefined) return { names };
    if (batch === undefined) {
      return { damage: { kind: 'torn-end', line: source.line, message: EMPTY, lost: true } };
    }
  }
}

const EMPTY = 'The file is empty.';

/** The header, or the described one where a described column is not in it. */
function mendedHeader(
  names: string[] | undefined,
  damage: RunIssue | undefined,
  described: readonly string[],
  report: (issue: RunIssue) => void,
): RunHeader {
  const absent = described.find((name) => !names?.includes(name));
  if (names !== undefined && absent === undefined && !hasTwins(names)) {
    if (names.length !== described.length) {
      const message = 'The header has columns that its metadata do not describe.';
      report({ kind: 'metadata', line: 1, message, lost: false });
    }
    return runHeader(names);
  }
  const why = damage?.message ?? `It lacks "${absent}", which the metadata describe.`;
  const message = `${why} The header is taken from the metadata.`;
  report({ kind: 'header', line: damage?.line ?? 1, message, lost: true });
  return runHeader(described);
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

function hasTwins(names: readonly string[]): boolean {
  return new Set(names).size !== names.length;
}
