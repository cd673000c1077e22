import type ts from 'typescript';
import { compiler } from './compiler.ts';

/**
 * Arranges the body of every function, with the same meaning by ES5: functions declared in it come
 * first, since some small engines define a function only when they come to it, and neighbouring
 * `var` statements become one, since each costs bytes.
 */
export function arrangeBodies(
  context: ts.TransformationContext,
): (file: ts.SourceFile) => ts.SourceFile {
  let depth = 0;
  const visit = (node: ts.Node): ts.Node => {
    if (!compiler.isFunctionDeclaration(node) && !compiler.isFunctionExpression(node)) {
      return compiler.visitEachChild(node, visit, context);
    }
    depth++;
    const inner = compiler.visitEachChild(node, visit, context);
    depth--;
    // The outermost function wraps the whole script; its modules are in order already.
    return depth === 0 || inner.body === undefined
      ? inner
      : withBody(context.factory, inner, arrange(context.factory, inner.body));
  };
  return (file) => compiler.visitEachChild(file, visit, context);
}

function arrange(factory: ts.NodeFactory, body: ts.Block): ts.Block {
  const arranged: ts.Statement[] = body.statements.filter(compiler.isFunctionDeclaration);
  for (const statement of body.statements) {
    if (compiler.isFunctionDeclaration(statement)) continue;
    const last = arranged[arranged.length - 1];
    if (last && compiler.isVariableStatement(last) && compiler.isVariableStatement(statement)) {
      arranged[arranged.length - 1] = factory.createVariableStatement(undefined, [
        ...last.declarationList.declarations,
        ...statement.declarationList.declarations,
      ]);
    } else {
      arranged.push(statement);
    }
  }
  return factory.updateBlock(body, arranged);
}

function withBody(
  factory: ts.NodeFactory,
  node: ts.FunctionDeclaration | ts.FunctionExpression,
  body: ts.Block,
): ts.Node {
  const { asteriskToken, name, parameters } = node;
  return compiler.isFunctionDeclaration(node)
    ? factory.updateFunctionDeclaration(
        node,
        undefined,
        asteriskToken,
        name,
        undefined,
        parameters,
        undefined,
        body,
      )
    : factory.updateFunctionExpression(
        node,
        undefined,
        asteriskToken,
        name,
        undefined,
        parameters,
        undefined,
        body,
      );
}
