import type { AnyNode, Identifier, Literal, Program } from 'acorn';
import { fullAncestor } from 'acorn-walk';
import type { Finding } from './finding.ts';
import { isOwner } from './scopes.ts';

/** Constructs that are ES5 but fail, differ or cost too much on some small engine. */
export function syntaxFindings(program: Program): Finding[] {
  const findings: Finding[] = [];
  fullAncestor(program, (node, _state, ancestors) => {
    for (const [rule, test, message] of RULES) {
      if (!test(node, ancestors)) continue;
      const { line, column } = node.loc!.start;
      findings.push({ rule, line, column: column + 1, message });
    }
  });
  return findings;
}

type Test = (node: AnyNode, ancestors: readonly AnyNode[]) => boolean;

/** Name of the rule, what it finds, and: what it is, why not, what instead. */
const RULES: readonly (readonly [string, Test, string])[] = [
  [
    'decimal',
    (node) => isNumber(node) && !/^(\d+|0x[\da-f]+)$/i.test(node.raw ?? ''),
    'a decimal or exponent literal: engines parse them inexactly; write a ratio of integers, ' +
      '7 / 100',
  ],
  [
    'octal',
    (node) => isNumber(node) && /^0\d/.test(node.raw ?? ''),
    'an octal literal: engines read it as octal or decimal; write it without the leading 0',
  ],
  [
    'integer-range',
    (node) => isNumber(node) && !Number.isSafeInteger(node.value) && /^\d+$/.test(node.raw ?? ''),
    'an integer above 2^53: it is rounded; keep integers below that',
  ],
  [
    'regex',
    (node) => node.type === 'Literal' && (node as Literal).regex !== undefined,
    'a regular expression: small engines have none; compare numbers',
  ],
  [
    'array-hole',
    (node) => node.type === 'ArrayExpression' && node.elements.includes(null),
    'a hole in an array literal: engines differ in its length; write every element',
  ],
  [
    'write-past-end',
    (node) => node.type === 'AssignmentExpression' && isPastEnd(node.left),
    'a write past the end of an array: it fails or leaves holes on some engines; use push()',
  ],
  [
    'accessor',
    (node) => node.type === 'Property' && node.kind !== 'init',
    'a getter or setter: some engines have none; use a plain field or a function',
  ],
  [
    'for-in',
    (node) => node.type === 'ForInStatement',
    'for-in: its order differs and it allocates; count over an array of integers',
  ],
  [
    'delete',
    (node) => node.type === 'UnaryExpression' && node.operator === 'delete',
    'delete: it changes the shape of a record and costs heap; set the field to 0',
  ],
  [
    'with',
    (node) => node.type === 'WithStatement',
    'with: strict engines refuse it; name the record',
  ],
  [
    'debugger',
    (node) => node.type === 'DebuggerStatement',
    'a debugger statement: an engine may stop the vehicle there; take it out',
  ],
  [
    'this',
    (node) => node.type === 'ThisExpression',
    '`this`: strict and sloppy engines give it different values; capture a variable in a closure',
  ],
  [
    'labelled-continue',
    (node) => node.type === 'ContinueStatement' && node.label != null,
    'a labelled continue: one engine jumps wrongly; use a flag or a function',
  ],
  [
    'function-in-block',
    (node, ancestors) => node.type === 'FunctionDeclaration' && !standsInBody(ancestors),
    'a function declared in a block: engines differ in when it exists; ' +
      'move it to the top of the function',
  ],
  [
    'catch-name',
    (node, ancestors) => node.type === 'CatchClause' && isRepeatedCatch(ancestors),
    'a second catch of the same name in one function: one engine mixes them up (minifying gives ' +
      'them the same name); one try a function',
  ],
  [
    'loose-equality',
    (node) => node.type === 'BinaryExpression' && /^[=!]=$/.test(node.operator),
    '== or != converts its sides; use === or !==',
  ],
  [
    'text',
    (node) =>
      (node.type === 'BinaryExpression' || node.type === 'AssignmentExpression') &&
      /^\+=?$/.test(node.operator) &&
      (isText(node.left) || isText(node.right)),
    'building text: numbers print differently from engine to engine; hand on integers',
  ],
  [
    'to-number',
    (node) =>
      (node.type === 'UnaryExpression' && node.operator === '+') ||
      (node.type === 'BinaryExpression' &&
        /^[-*/%|&^<>]+=?$/.test(node.operator) &&
        (isText(node.left) || isText(node.right))),
    "a conversion to a number: engines parse text differently; test typeof x === 'number'",
  ],
];

function isNumber(node: AnyNode): node is Literal {
  return node.type === 'Literal' && typeof node.value === 'number';
}

function isText(node: AnyNode): boolean {
  return node.type === 'Literal' && typeof node.value === 'string';
}

/** `a[a.length]` */
function isPastEnd(node: AnyNode): boolean {
  return (
    node.type === 'MemberExpression' &&
    node.computed &&
    node.object.type === 'Identifier' &&
    node.property.type === 'MemberExpression' &&
    node.property.object.type === 'Identifier' &&
    node.property.object.name === node.object.name &&
    node.property.property.type === 'Identifier' &&
    node.property.property.name === 'length'
  );
}

function standsInBody(ancestors: readonly AnyNode[]): boolean {
  const around = ancestors[ancestors.length - 2]!;
  if (around.type === 'Program') return true;
  const owner = ancestors[ancestors.length - 3];
  return around.type === 'BlockStatement' && owner !== undefined && isOwner(owner);
}

function isRepeatedCatch(ancestors: readonly AnyNode[]): boolean {
  const clause = ancestors[ancestors.length - 1]!;
  const owner = [...ancestors].reverse().find(isOwner)!;
  let repeated = false;
  fullAncestor(owner, (node, _state, inner) => {
    if (node.type !== 'CatchClause' || clause.type !== 'CatchClause') return;
    if (inner.filter(isOwner).pop() !== owner || node.start >= clause.start) return;
    repeated ||= (node.param as Identifier).name === (clause.param as Identifier).name;
  });
  return repeated;
}
