import type { AnyNode, Expression, Statement } from 'acorn';
import { ifStatement, some, statementsOf } from './tree.ts';

/** What ends a run of statements before its last one. */
type Leave = 'ReturnStatement' | 'ContinueStatement';

/**
 * Statements that do the same without `return`, or without `continue`; undefined if that cannot be.
 *
 * @param told what stands for the return of a value, or for the `continue`
 */
export function inTail(
  body: readonly Statement[],
  told: (value: Expression | null) => Statement[],
  leave: Leave = 'ReturnStatement',
): Statement[] | undefined {
  const done: Statement[] = [];
  for (const [i, statement] of body.entries()) {
    if (statement.type === leave) {
      const value = statement.type === 'ReturnStatement' ? statement.argument : null;
      return [...done, ...told(value ?? null)];
    }
    if (!mayLeave(statement, leave)) {
      done.push(statement);
      continue;
    }
    if (statement.type !== 'IfStatement') return undefined;
    const rest = body.slice(i + 1);
    const [then, otherwise] = [statement.consequent, statement.alternate].map(statementsOf);
    const ends = (branch: readonly Statement[]) => alwaysLeaves(branch, leave);
    const first = ends(then!) ? then! : [...then!, ...rest];
    const second = ends(otherwise!) ? otherwise! : [...otherwise!, ...rest];
    if (!ends(then!) && !ends(otherwise!) && rest.length > 0) return undefined;
    const [a, b] = [inTail(first, told, leave), inTail(second, told, leave)];
    if (a === undefined || b === undefined) return undefined;
    return [...done, ifStatement(statement.test, a, b)];
  }
  return done;
}

function mayLeave(statement: AnyNode, leave: Leave): boolean {
  return some(statement, ({ type }) => type === leave, false);
}

function alwaysLeaves(body: readonly Statement[], leave: Leave): boolean {
  return body.some(
    (one) =>
      one.type === leave ||
      (one.type === 'IfStatement' &&
        alwaysLeaves(statementsOf(one.consequent), leave) &&
        alwaysLeaves(statementsOf(one.alternate), leave)),
  );
}
