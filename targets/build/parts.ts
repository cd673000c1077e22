import { type Comment, type Program, parse, type Statement } from 'acorn';
import type { Es5Script } from './es5.ts';

/** A source module and its bytes in a script. */
export interface Part {
  /** Path of the module in the package, `constants`, or `wrapper` for what belongs to none. */
  name: string;
  bytes: number;
}

/**
 * Bytes of each source module in the minified script, in the script's order. Both forms are the
 * same program, so the short one, where esbuild still names each module in a comment, tells whose
 * each statement is.
 */
export function partsOf(script: Es5Script): Part[] {
  const comments: Comment[] = [];
  const short = moduleStatements(parse(script.short, { ecmaVersion: 5, onComment: comments }));
  const minified = moduleStatements(parse(script.minified, { ecmaVersion: 5 }));
  if (short.length !== minified.length) {
    throw new Error('the short and the minified form differ in their statements');
  }
  const bytes = new Map<string, number>();
  let rest = script.minified.length;
  short.forEach((statement, i) => {
    const { start, end } = minified[i]!;
    const name = moduleBefore(comments, statement.start);
    bytes.set(name, (bytes.get(name) ?? 0) + end - start);
    rest -= end - start;
  });
  bytes.set('wrapper', rest);
  return [...bytes].map(([name, count]) => ({ name, bytes: count }));
}

/** The statements inside the function that wraps the script. */
function moduleStatements(program: Program): Statement[] {
  const last = program.body[program.body.length - 1];
  if (
    last?.type !== 'ExpressionStatement' ||
    last.expression.type !== 'CallExpression' ||
    last.expression.callee.type !== 'FunctionExpression'
  ) {
    throw new Error('the script does not end in the function that wraps it');
  }
  return last.expression.callee.body.body;
}

function moduleBefore(comments: readonly Comment[], position: number): string {
  let name = 'wrapper';
  for (const comment of comments) {
    if (comment.start > position) break;
    const text = comment.value.trim();
    if (comment.type !== 'Line') continue;
    if (text.startsWith('<define:')) name = 'constants';
    else if (/^\S+\.[jt]s$/.test(text)) name = text;
  }
  return name;
}
