import { type AnyNode, type Expression, type Program, parse, type Statement } from 'acorn';
import { generate } from 'astring';
import { expressionStatement, ifStatement, mapTree } from '../specialise/tree.ts';

/**
 * Takes back some of esbuild's joining of statements in an ES5 script: in a body `a, b` becomes two
 * statements and `a && b` an `if`. The text is as long; but small engines keep the value of an
 * expression that nobody wants, and some parse no more than a few hundred joined ones.
 */
export function plainStatements(code: string): string {
  const program: Program = parse(code, { ecmaVersion: 5 });
  const plain = mapTree(program, (node) => {
    if (node.type !== 'Program' && node.type !== 'BlockStatement') return node;
    return { ...node, body: (node.body as Statement[]).flatMap(apart) } as AnyNode;
  });
  return generate(plain);
}

/** The statements that a statement in a body is made of. */
function apart(statement: Statement): Statement[] {
  switch (statement.type) {
    case 'ExpressionStatement': {
      const { expression } = statement;
      if (expression.type === 'SequenceExpression') {
        return expression.expressions.flatMap((one) => apart(expressionStatement(one)));
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
  return [before.flatMap((one) => apart(expressionStatement(one))), last];
}
