import type { AnyNode, ForStatement, Program, Statement } from 'acorn';
import { knownValue } from './fold.ts';
import { isSimple, type Live, liveAfter } from './interference.ts';
import { isPure } from './is-pure.ts';
import { isOrderless } from './orderless.ts';
import { assign, type FunctionNode, identifier, isFunction, literal, mapChildren } from './tree.ts';
import { collectNames, type Name } from './uses.ts';
import { plainAssignment } from './variables.ts';

/**
 * Lets a loop count down, `for (i = 2; i--; )`, where it makes no difference in which order its
 * rounds are run: less text.
 */
export function countDown(program: Program): Program {
  const names = collectNames(program);
  const visit = (node: AnyNode, lives: Lives): AnyNode => {
    if (isFunction(node)) {
      const own = ownOf(node, names);
      const inner = isSimple(node) ? { own, after: liveAfter(node, own) } : NOWHERE;
      return mapChildren(node, (child) => visit(child, inner));
    }
    const turned =
      node.type === 'BlockStatement'
        ? turnedIn(node.body, lives, names)
        : new Map<AnyNode, never>();
    return mapChildren(node, (child) => turned.get(child) ?? visit(child, lives));
  };
  return visit(program, NOWHERE) as Program;
}

/** Names of a function, and which of them are still read after each statement. */
interface Lives {
  own: ReadonlySet<string>;
  after: ReadonlyMap<AnyNode, Live>;
}

const NOWHERE: Lives = { own: new Set(), after: new Map() };

function ownOf(node: FunctionNode, names: ReadonlyMap<string, Name>): Set<string> {
  const own = [...names.values()].filter(
    ({ owner, kind }) => owner === node && kind !== 'function',
  );
  return new Set(own.map(({ name }) => name));
}

/** What stands in place of loops that may count down, and of the steps before them. */
function turnedIn(
  body: readonly Statement[],
  lives: Lives,
  names: ReadonlyMap<string, Name>,
): Map<AnyNode, Statement> {
  const turned = new Map<AnyNode, Statement>();
  body.forEach((loop, i) => {
    const set = i > 0 ? plainAssignment(body[i - 1]!) : undefined;
    const after = lives.after.get(loop);
    if (set === undefined || after === undefined || loop.type !== 'ForStatement') return;
    const rounds = knownValue(set.value) === 0 ? roundsOf(loop, set.name) : undefined;
    // What a function around owns may be read at any time.
    if (rounds === undefined || !lives.own.has(set.name) || after.has(set.name)) return;
    const given = givenBefore(body.slice(0, i - 1));
    if (!isOrderless(loop.body, { counter: set.name, after, given, names })) return;
    turned.set(body[i - 1]!, assign(set.name, literal(rounds)));
    const argument = identifier(set.name);
    const down = { type: 'UpdateExpression', operator: '--', prefix: false, argument } as const;
    turned.set(loop, { ...loop, test: { ...down, start: 0, end: 0 }, update: null });
  });
  return turned;
}

/** How many rounds `for (; i < 2; i++)` has. */
function roundsOf({ init, test, update }: ForStatement, counter: string): number | undefined {
  const isCounter = (node: AnyNode) => node.type === 'Identifier' && node.name === counter;
  if (init || test?.type !== 'BinaryExpression' || update?.type !== 'UpdateExpression') return;
  if (test.operator !== '<' || !isCounter(test.left)) return;
  if (update.operator !== '++' || !isCounter(update.argument)) return;
  const rounds = knownValue(test.right);
  return typeof rounds === 'number' && Number.isInteger(rounds) && rounds > 0 ? rounds : undefined;
}

/** The numbers that the last steps of some give names. */
function givenBefore(body: readonly Statement[]): Map<string, number> {
  const given = new Map<string, number>();
  const set = new Set<string>();
  for (let i = body.length - 1; i >= 0; i--) {
    if (isElementStep(body[i]!)) continue;
    const step = plainAssignment(body[i]!);
    if (step === undefined || !isPure(step.value)) break;
    const value = knownValue(step.value);
    if (!set.has(step.name) && typeof value === 'number') given.set(step.name, value);
    set.add(step.name);
  }
  return given;
}

/** true for a step that gives an element of a list a value, and no name. */
function isElementStep(statement: Statement): boolean {
  const set = statement.type === 'ExpressionStatement' ? statement.expression : undefined;
  if (set?.type !== 'AssignmentExpression' || set.left.type !== 'MemberExpression') return false;
  return isPure(set.left) && isPure(set.right);
}
