import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';
import { type ReadOptions, readRun } from '../../harness/runs/read-run.ts';
import type { RunIssue } from '../../harness/runs/run-issue.ts';

/** A folder that is gone after the test file. */
export function createScratch() {
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-runs-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const path = (name: string): string => join(folder, name);
  return {
    folder,
    path,
    /** Writes a file and gives its path. */
    put(name: string, content: string | Uint8Array): string {
      writeFileSync(path(name), content);
      return path(name);
    },
    text: (name: string): string => readFileSync(path(name), 'utf8'),
  };
}

/** A run as rows, for comparing. */
export interface ReadOut {
  /** Integers of each row, in the order of the header's known columns. */
  rows: number[][];
  /** Texts of each row, in the order of its other columns. */
  texts: string[][];
  lines: number[];
  issues: RunIssue[];
  names: readonly string[];
}

/** Reads a whole run; leniently, unless asked otherwise. */
export async function readOut(path: string, options: ReadOptions = {}): Promise<ReadOut> {
  const out: ReadOut = { rows: [], texts: [], lines: [], issues: [], names: [] };
  const onIssue = (issue: RunIssue): void => void out.issues.push(issue);
  for await (const chunk of readRun(path, { mode: 'lenient', onIssue, ...options })) {
    const { header, columns, extra, lines } = chunk;
    out.names = header.names;
    for (let row = 0; row < chunk.rows; row++) {
      out.rows.push(header.columns.map((name) => columns.get(name)![row]!));
      out.texts.push(header.extra.map((name) => extra.get(name)![row]!));
      out.lines.push(lines[row]!);
    }
  }
  return out;
}

/** `line: kind: field: message` of each issue. */
export function told(issues: readonly RunIssue[]): string[] {
  return issues.map(({ line, kind, field, message }) =>
    [line, kind, ...(field === undefined ? [] : [field]), message].join(': '),
  );
}

/** The error a promise is rejected with; fails if it is not. */
export async function rejection(promise: Promise<unknown>): Promise<Error> {
  try {
    await promise;
  } catch (error) {
    return error as Error;
  }
  throw new Error('expected a rejection');
}
