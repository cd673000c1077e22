import type { AnyNode, CallExpression, Identifier, Program, Statement } from 'acorn';
import { knownValue } from './fold.ts';
import { block, type FunctionNode, identifier, mapReadable, some, targetOf } from './tree.ts';
import {
  assignedBy,
  collectNames,
  isOwnStatement,
  isStraight,
  type Name,
  type Use,
  writesOf,
} from './uses.ts';
import { plainAssignment } from './variables.ts';

/**
 * Leaves one of the records in which a function tells its callers something, each one of its own,
 * where all that it tells is read before it is called again.
 */
export function mergeRecords(program: Program): Program {
  const names = collectNames(program);
  for (const { declaration, uses } of names.values()) {
    if (declaration === undefined) continue;
    const fills = declaration.params.map((one) =>
      one.type === 'Identifier' ? filledIn(one, names) : undefined,
    );
    const place = fills.findIndex((field) => field !== undefined);
    const records = place < 0 ? [] : recordsFor(place, fills[place]!, uses, names);
    const isFilling = ({ node, ancestors }: Use) => {
      const call = ancestors[ancestors.length - 1]!;
      return isCallOf(call, declaration) && call.arguments[place] === node;
    };
    if (records.length > 1 && areReadInTime(records, declaration, isFilling)) {
      return withOne(program, records);
    }
  }
  return program;
}

/** The records of one field that the calls of a function hand over at a place, if all do. */
function recordsFor(
  place: number,
  field: string,
  calls: readonly Use[],
  names: ReadonlyMap<string, Name>,
): Name[] {
  const records = new Set<Name>();
  for (const { node, ancestors } of calls) {
    const call = ancestors[ancestors.length - 1];
    if (call?.type !== 'CallExpression' || call.callee !== node) return [];
    const given = call.arguments[place];
    const name = given?.type === 'Identifier' ? names.get(given.name) : undefined;
    if (name === undefined || !isRecord(name)) return [];
    records.add(name);
  }
  const [first] = records;
  const isLikeFirst = (one: Name) => one.owner === first!.owner && fieldOf(one) === field;
  return [...records].every(isLikeFirst) ? [...records] : [];
}

/** The field of a parameter that is used once, to give it a value, whatever else is done. */
function filledIn({ name }: Identifier, names: ReadonlyMap<string, Name>): string | undefined {
  const { owner, uses } = names.get(name)!;
  const [use, another] = uses;
  if (use === undefined || another !== undefined || use.within !== owner) return undefined;
  const [statement, set, field] = use.ancestors.slice(-3);
  if (statement?.type !== 'ExpressionStatement' || set?.type !== 'AssignmentExpression') return;
  if (set.operator !== '=' || set.left !== field || field.type !== 'MemberExpression') return;
  const isFirst = owner!.body.body.includes(statement as Statement);
  const leaves = owner!.body.body.slice(0, -1).some((one) => some(one, isReturn));
  if (!isFirst || leaves || field.computed || field.object !== use.node) return undefined;
  return (field.property as Identifier).name;
}

function isReturn({ type }: AnyNode): boolean {
  return type === 'ReturnStatement';
}

/** true for a name of a record with a single number in it, made once. */
function isRecord(name: Name): boolean {
  const [made, another] = writesOf(name);
  if (name.kind !== 'variable' || made === undefined || another !== undefined) return false;
  if (made.within !== name.owner || !isOwnStatement(made) || !isStraight(made)) return false;
  return fieldOf(name) !== undefined;
}

/** The one field of a record. */
function fieldOf(name: Name): string | undefined {
  const made = assignedBy(writesOf(name)[0]!);
  const [only, another] = made?.type === 'ObjectExpression' ? made.properties : [];
  if (only?.type !== 'Property' || another !== undefined || only.computed) return undefined;
  const isNumber = knownValue(only.value) !== undefined;
  return isNumber && only.key.type === 'Identifier' ? only.key.name : undefined;
}

/** true if each is read where it was the last that was filled in the same run of statements. */
function areReadInTime(
  records: readonly Name[],
  filler: FunctionNode,
  isFilling: (use: Use) => boolean,
): boolean {
  const uses = records.flatMap((name) =>
    name.uses.filter(({ kind }) => kind === 'read').map((use) => ({ name, use })),
  );
  uses.sort((a, b) => a.use.at - b.use.at);
  let last: Name | undefined;
  const [run] = uses.map(({ use }) => runAround(use));
  return uses.every(({ name, use }) => {
    if (run === undefined || runAround(use) !== run) return false;
    const around = use.ancestors[use.ancestors.length - 1]!;
    if (isFilling(use)) {
      last = name;
      const path = use.ancestors.slice(use.ancestors.indexOf(run) + 2, -1);
      return path.every(({ type }) => type === 'AssignmentExpression');
    }
    const isField = around.type === 'MemberExpression' && !around.computed;
    const isEarly = use.ancestors.some((one) => isCallOf(one, filler));
    const isWritten = use.ancestors.some((one) => targetOf(one) === around);
    return isField && last === name && !isEarly && !isWritten;
  });
}

/** The statements among which an expression that is one of them uses a name. */
function runAround({ ancestors }: Use): AnyNode | undefined {
  const at = ancestors.findLastIndex(({ type }) => /Statement$/.test(type));
  return ancestors[at]?.type === 'ExpressionStatement' ? ancestors[at - 1] : undefined;
}

function isCallOf(node: AnyNode, { id }: FunctionNode): node is CallExpression {
  if (node.type !== 'CallExpression' || node.callee.type !== 'Identifier') return false;
  return node.callee.name === id?.name;
}

/** The first of the records in place of all. */
function withOne(program: Program, [first, ...others]: readonly Name[]): Program {
  const gone = new Set(others.map(({ name }) => name));
  const visit = (node: AnyNode): AnyNode => {
    if (gone.has(plainAssignment(node)?.name ?? '')) return block([]);
    if (node.type === 'Identifier') return gone.has(node.name) ? identifier(first!.name) : node;
    return mapReadable(node, visit);
  };
  return visit(program) as Program;
}
