import { type TransformFailure, transformSync } from 'esbuild';
import * as v from 'valibot';
import { type Problem, UserError } from '../problems.ts';
import { nearestName } from '../setup/nearest-name.ts';

/**
 * Checks a document against a schema.
 *
 * @param file name to put before each problem
 * @returns the document as the schema has it
 * @throws UserError with every problem, each with its field and what was expected
 */
export function checkJson<Schema extends v.GenericSchema>(
  file: string,
  schema: Schema,
  document: unknown,
  options: CheckOptions = {},
): v.InferOutput<Schema> {
  const result = v.safeParse(schema, document);
  if (result.success) return result.output;
  throw new UserError(result.issues.map((issue) => problemOf(file, issue, options)));
}

/** What makes the problems clearer. */
export interface CheckOptions {
  /** Field that the document is the content of. */
  under?: string;
  /** Names that an unknown field may have meant. */
  fields?: readonly string[];
}

/**
 * Reads JSON.
 *
 * @param field field that the text is the content of
 * @throws UserError with the line, where the text is no JSON
 */
export function parseJson(file: string, text: string, field?: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const problem: Problem = { file, message: `is no JSON: ${(error as Error).message}.` };
    if (field !== undefined) throw new UserError([{ ...problem, field }]);
    throw new UserError([jsonProblem(file, text) ?? problem]);
  }
}

/** The engine's own message often lacks the place; the bundler's parser always has it. */
function jsonProblem(file: string, text: string): Problem | undefined {
  try {
    transformSync(text, { loader: 'json', logLevel: 'silent' });
    return undefined;
  } catch (error) {
    const first = (error as TransformFailure).errors[0];
    if (first === undefined) return undefined;
    const line = first.location?.line ?? 1;
    return { file, line, message: `is no JSON: ${first.text}.` };
  }
}

function problemOf(file: string, issue: v.BaseIssue<unknown>, options: CheckOptions): Problem {
  const path = v.getDotPath(issue) ?? '';
  const field = [options.under ?? '', path].filter((part) => part !== '').join('.');
  const place = field === '' ? { file } : { file, field };
  if (issue.expected === 'never') {
    const near = nearestName(path.slice(path.lastIndexOf('.') + 1), options.fields ?? []);
    const cure = near === undefined ? 'Take it out.' : `Did you mean "${near}"?`;
    return { ...place, message: 'unknown field.', cure };
  }
  if (issue.kind === 'validation') return { ...place, message: issue.message };
  const found = issue.received === 'undefined' ? 'missing' : `found ${issue.received}`;
  return { ...place, message: `${found}, expected ${EXPECTED[issue.type] ?? issue.expected}.` };
}

/** Where the checker's own word is a type's name. */
const EXPECTED: Record<string, string> = {
  string: 'a text',
  number: 'a number',
  boolean: 'true or false',
  array: 'a list in [ ]',
  object: 'fields in { }',
  strict_object: 'fields in { }',
  loose_object: 'fields in { }',
  record: 'fields in { }',
};
