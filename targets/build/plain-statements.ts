import { type AnyNode, type Expression, type Program, parse, type Statement } from 'acorn';
import { generate } from 'astring';
import { block, expressionStatement, ifStatement, mapTree, not, some } from '../specialise/tree.ts';
import { joinAlikeBranches } from './alike-branches.ts';

/**
 * Takes back some of esbuild's joining of statements in an ES5 script: in a body `a, b` becomes two
 * statements and `a && b` an `if`. The text is as long; but small engines keep the value of an
 * expression that nobody wants, and some parse no more than a few hundred joined ones.
 *
 * @param branches true = the same for `a ? b : c` and whatever else is a branch and no longer looks
 *   it: quicker on small engines, but longer
 * @param alike true = branches that give the same name a value are joined; see alike-branches.ts
 */
export function plainStatements(code: string, branches: boolean, alike = false): string {
  const parsed: Program = parse(code, { ecmaVersion: 5 });
  const program = alike ? mapTree(parsed, joinAlikeBranches) : parsed;
  const apart = branches ? branchesApart : joinedApart;
  const plain = mapTree(program, (node) => {
    if (node.type !== 'Program' && node.type !== 'BlockStatement') return node;
    return { ...node, body: (node.body as Statement[]).flatMap(apart) } as AnyNode;
  });
  return generate(plain);
}

/** The statements that a statement in a body is made of, each branch one of its own. */
function branchesApart(statement: Statement): Statement[] {
  return joinedApart(statement).flatMap((one): Statement[] => {
    if (one.type === 'ExpressionStatement') {
      const { expression } = one;
      if (expression.type === 'ConditionalExpression') {
        const { test, consequent, alternate } = expression;
        return branchesApart(branch(test, expressionStatement(consequent), alternate));
      }
      if (expression.type !== 'LogicalExpression') return [one];
      const { left, operator, right } = expression;
      const test = operator === '||' ? not(left) : left;
      return branchesApart(branch(test, expressionStatement(right), undefined));
    }
    if (one.type !== 'IfStatement') return [one];
    const { test, consequent, alternate } = one;
    if (!alternate && test.type === 'LogicalExpression' && test.operator === '&&') {
      const inner = { ...one, test: test.right };
      return branchesApart({ ...one, test: test.left, consequent: inner });
    }
    const then = bodyOf(consequent, !alternate);
    return [{ ...one, consequent: then, alternate: alternate ? bodyOf(alternate, true) : null }];
  });
}

function branch(test: Expression, then: Statement, otherwise: Expression | undefined): Statement {
  const alternate = otherwise === undefined ? null : expressionStatement(otherwise);
  return { type: 'IfStatement', test, consequent: then, alternate, start: 0, end: 0 };
}

/** A branch, as one statement if no `else` that follows can come to an `if` inside. */
function bodyOf(statement: Statement, isLast: boolean): Statement {
  const body = statement.type === 'BlockStatement' ? statement.body : [statement];
  const all = body.flatMap(branchesApart);
  const [only, another] = all;
  const isOne = only !== undefined && another === undefined;
  const isPlain = isLast || (isOne && !some(only, ({ type }) => type === 'IfStatement'));
  return isOne && isPlain ? only : block(all);
}

/** The statements that a statement in a body is made of. */
function joinedApart(statement: Statement): Statement[] {
  switch (statement.type) {
    case 'ExpressionStatement': {
      const { expression } = statement;
      if (expression.type === 'SequenceExpression') {
        return expression.expressions.flatMap((one) => joinedApart(expressionStatement(one)));
      }
      if (expression.type !== 'LogicalExpression' || expression.operator !== '&&') {
        return [statement];
      }
      const then = expressionStatement(expression.right);
      return [{ ...ifStatement(expression.left, [], []), consequent: then } as Statement];
    }
    case 'IfStatement': {
      const [before, test] = lastOf(statement.test);
      return [...before, { ...statement, test }];
    }
    case 'ReturnStatement': {
      if (!statement.argument) return [statement];
      const [before, argument] = lastOf(statement.argument);
      return [...before, { ...statement, argument }];
    }
    case 'ForStatement': {
      const { init } = statement;
      if (!init || init.type === 'VariableDeclaration') return [statement];
      const [before, last] = lastOf(init);
      return [...before, { ...statement, init: last }];
    }
    default:
      return [statement];
  }
}

/** What is evaluated before the last expression of a sequence, as statements; and the last. */
function lastOf(expression: Expression): [Statement[], Expression] {
  if (expression.type !== 'SequenceExpression') return [[], expression];
  const last = expression.expressions[expression.expressions.length - 1]!;
  const before = expression.expressions.slice(0, -1);
  return [before.flatMap((one) => joinedApart(expressionStatement(one))), last];
}
