import type { IssueKind, RunIssue } from './run-issue.ts';

/** So many issues of a kind are told one by one; more of them as one. */
const FEW = 3;
/** Spans of lines that are named of a kind. */
const MOST_SPANS = 8;

/** What a clock in another unit does row by row: told once, of the whole run. */
const OF_UNIT: readonly IssueKind[] = ['clock-duplicate', 'clock-gap'];

interface Group {
  first: RunIssue[];
  count: number;
  /** Lines from and to, both included. */
  spans: { from: number; to: number }[];
  lastLine: number;
}

/** Folds like issues into one with its count; memory stays flat however many there are. */
export class IssueFold {
  readonly #groups = new Map<string, Group>();

  /** Takes in an issue. */
  add(issue: RunIssue): void {
    const { kind, field, lost, repair, line } = issue;
    const key = [kind, field, lost, repair?.name, repair?.done].join();
    const known = this.#groups.get(key);
    const group = known ?? { first: [], count: 0, spans: [], lastLine: 0 };
    if (known === undefined) this.#groups.set(key, group);
    if (group.first.length < FEW) group.first.push(issue);
    group.count++;
    group.lastLine = Math.max(group.lastLine, line);
    const span = group.spans.at(-1);
    if (span !== undefined && line === span.to + 1) span.to = line;
    else if (group.spans.length < MOST_SPANS) group.spans.push({ from: line, to: line });
  }

  /** What was found, by line; of a kind and column that came often the first, with all lines. */
  told(): RunIssue[] {
    const groups = [...this.#groups.values()];
    const hasUnit = groups.some(({ first }) => first[0]!.kind === 'clock-unit');
    return groups
      .filter(({ first: [issue] }) => !hasUnit || !OF_UNIT.includes(issue!.kind) || isDone(issue!))
      .flatMap((group) => (group.count > FEW ? [toldOnce(group)] : group.first))
      .sort((a, b) => a.line - b.line);
  }
}

/** What was done to the run is told, whatever it was done for. */
function isDone({ repair }: RunIssue): boolean {
  return repair?.done === true;
}

function toldOnce({ first, count, spans, lastLine }: Group): RunIssue {
  const [issue] = first;
  const named = spans.map(({ from, to }) => (from === to ? `${from}` : `${from} to ${to}`));
  const more = lastLine > spans.at(-1)!.to ? `, ... ${lastLine}` : '';
  const message = `${issue!.message} ${count} such lines: ${named.join(', ')}${more}.`;
  return { ...issue!, message };
}
