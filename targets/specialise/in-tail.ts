import type { AnyNode, Expression, Statement } from 'acorn';
import { ifStatement, some, statementsOf } from './tree.ts';

/**
 * Statements that do the same without `return`; undefined if that cannot be.
 *
 * @param told what stands for the return of a value
 */
export function inTail(
  body: readonly Statement[],
  told: (value: Expression | null) => Statement[],
): Statement[] | undefined {
  const done: Statement[] = [];
  for (const [i, statement] of body.entries()) {
    if (statement.type === 'ReturnStatement') return [...done, ...told(statement.argument ?? null)];
    if (!mayReturn(statement)) {
      done.push(statement);
      continue;
    }
    if (statement.type !== 'IfStatement') return undefined;
    const rest = body.slice(i + 1);
    const [then, otherwise] = [statement.consequent, statement.alternate].map(statementsOf);
    const first = alwaysReturns(then!) ? then! : [...then!, ...rest];
    const second = alwaysReturns(otherwise!) ? otherwise! : [...otherwise!, ...rest];
    if (!alwaysReturns(then!) && !alwaysReturns(otherwise!) && rest.length > 0) return undefined;
    const [a, b] = [inTail(first, told), inTail(second, told)];
    if (a === undefined || b === undefined) return undefined;
    return [...done, ifStatement(statement.test, a, b)];
  }
  return [...done];
}

function mayReturn(statement: AnyNode): boolean {
  return some(statement, ({ type }) => type === 'ReturnStatement', false);
}

function alwaysReturns(body: readonly Statement[]): boolean {
  return body.some(
    (one) =>
      one.type === 'ReturnStatement' ||
      (one.type === 'IfStatement' &&
        alwaysReturns(statementsOf(one.consequent)) &&
        alwaysReturns(statementsOf(one.alternate))),
  );
}
