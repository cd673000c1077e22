import type { AnyNode, CallExpression, Expression, Program, Statement } from 'acorn';
import { type Effects, effectsOf, isUntouched } from './effects.ts';
import { inTail } from './in-tail.ts';
import {
  assign,
  block,
  type FunctionNode,
  identifier,
  isFunction,
  literal,
  mapChildren,
  some,
  statementsOf,
  withBody,
  withStatements,
} from './tree.ts';
import { collectNames, isLoop, type Name, nodesAround, type Use, writesOf } from './uses.ts';
import { plainAssignment } from './variables.ts';

/**
 * Puts the body of a function that is called at one place alone in that place: as many of them as
 * have nothing to do with each other. Gives back the same program if there is none.
 */
export function inlineCalls(program: Program): Program {
  const names = collectNames(program);
  const sites: Site[] = [];
  for (const name of names.values()) {
    const site = siteOf(name, names);
    if (site !== undefined && sites.every((other) => areApart(site, other))) sites.push(site);
  }
  return moveBodies(program, sites);
}

/** Where a body is to go. */
interface Site {
  use: Use;
  call: CallExpression;
  statement: Statement;
  host: FunctionNode;
  moved: FunctionNode;
  /** The functions around the host, itself included, and those around the moved one. */
  around: ReadonlySet<AnyNode>;
}

/** true if neither moves code that the other changes. */
function areApart(a: Site, b: Site): boolean {
  if (a.moved === b.moved || a.around.has(b.statement) || b.around.has(a.statement)) return false;
  return !b.around.has(a.moved) && !a.around.has(b.moved);
}

function siteOf(name: Name, names: ReadonlyMap<string, Name>): Site | undefined {
  const [use] = name.uses;
  return use === undefined || name.uses.length !== 1 ? undefined : siteAt(use, name, names);
}

/** Where the body would go in place of the call that the use is, if it can go there. */
export function siteAt(use: Use, name: Name, names: ReadonlyMap<string, Name>): Site | undefined {
  const { declaration } = name;
  if (declaration === undefined) return undefined;
  const host = use.within;
  const { ancestors } = use;
  const call = ancestors[ancestors.length - 1];
  if (host === undefined || ancestors.includes(declaration)) return undefined;
  if (call?.type !== 'CallExpression' || call.callee !== use.node) return undefined;
  const at = ancestors.findLastIndex(({ type }) => /Statement$/.test(type));
  const statement = ancestors[at] as Statement;
  const inside = ancestors.slice(at + 1);
  if (!isFirst(statement, [...inside, use.node], host, declaration, names)) return undefined;
  const loops = ancestors.slice(ancestors.lastIndexOf(host)).some(isLoop);
  if (loops && some(declaration.body, isFunction)) return undefined;
  // Around a `try` some engines keep every variable by its name, made anew in each call.
  if (tries(declaration) || tries(host)) return undefined;
  const body = (declaration.body.body as Statement[]).filter((one) => !isFunction(one));
  return inTail(body, () => []) === undefined
    ? undefined
    : {
        use,
        call,
        statement,
        host,
        moved: declaration,
        around: new Set([...ancestors, ...name.around]),
      };
}

function tries(node: FunctionNode): boolean {
  return some(node.body, ({ type }) => type === 'TryStatement', false);
}

/** true if nothing that the call could change is evaluated in the statement before the call. */
function isFirst(
  statement: Statement,
  path: readonly AnyNode[],
  host: FunctionNode,
  called: FunctionNode,
  names: ReadonlyMap<string, Name>,
): boolean {
  if (!/^(Expression|Return|If)Statement$/.test(statement.type)) return false;
  let effects: Effects | undefined | null = null;
  const untouched = (node: AnyNode): boolean => {
    effects = effects === null ? effectsOf(called.body, names) : effects;
    return isUntouched(node, effects);
  };
  const stable = (node: AnyNode): boolean => {
    if (node.type === 'Literal') return true;
    if (node.type !== 'Identifier') return untouched(node);
    const name = names.get(node.name);
    return (
      name !== undefined &&
      (name.kind === 'function' ||
        (name.owner === host && writesOf(name).every((write) => write.within === host)) ||
        writesOf(name).length <= 1 ||
        untouched(node))
    );
  };
  return path.slice(0, -2).every((node, i) => {
    const next = path[i + 1]!;
    if (node.type === 'BinaryExpression') return node.left === next || stable(node.left);
    if (node.type === 'LogicalExpression') return node.left === next;
    if (node.type === 'ConditionalExpression') return node.test === next;
    if (node.type === 'UnaryExpression') return true;
    if (node.type === 'AssignmentExpression') {
      const { left, operator, right } = node;
      if (right !== next) return false;
      if (operator !== '=') return left.type === 'Identifier' && untouched(left);
      if (left.type === 'MemberExpression' && left.computed) {
        return stable(left.object) && stable(left.property);
      }
      return left.type === 'Identifier' || isPlainField(left);
    }
    if (node.type === 'CallExpression') {
      const before = node.arguments.slice(0, node.arguments.indexOf(next as Expression));
      return stable(node.callee) && node.callee !== next && before.every(stable);
    }
    return false;
  });
}

function isPlainField(node: AnyNode): boolean {
  return node.type === 'MemberExpression' && !node.computed && node.object.type === 'Identifier';
}

/** What stands at a site when the body has come. */
interface Arrival {
  statements: Statement[];
  functions: FunctionNode[];
  names: string[];
}

function arrivalAt({ call, statement, moved }: Site): Arrival {
  const inner = moved.body.body.filter((one) => isFunction(one)) as FunctionNode[];
  const body = (moved.body.body as Statement[]).filter((one) => !isFunction(one));
  const parameters = moved.params.map((param) => (param.type === 'Identifier' ? param.name : ''));
  const result = `result$${parameters.length}$${moved.id!.name}`;
  const given = parameters.map((name, i) =>
    assign(name, (call.arguments[i] as Expression | undefined) ?? literal(0)),
  );
  const set = plainAssignment(statement);
  const alone = statement.type === 'ExpressionStatement' && statement.expression === call;
  const direct = set?.value === call ? set.name : undefined;
  const target = direct ?? result;
  const told = (value: Expression | null): Statement[] => {
    if (!alone) return [assign(target, value ?? literal(0))];
    return value === null
      ? []
      : [{ type: 'ExpressionStatement', expression: value, start: 0, end: 0 }];
  };
  const run = inTail(body, told)!;
  const rest = alone || direct !== undefined ? [] : [replaceCall(statement, call, result)];
  const names = [...parameters, ...(moved.names ?? []), ...(alone || direct ? [] : [result])];
  const statements = [...given, ...run, ...rest] as Statement[];
  return { statements, functions: inner, names };
}

function moveBodies(program: Program, sites: readonly Site[]): Program {
  if (sites.length === 0) return program;
  const moved = new Set<AnyNode>(sites.map((site) => site.moved));
  const arrivals = new Map<AnyNode, Arrival>();
  const hosts = new Map<AnyNode, Arrival[]>();
  for (const site of sites) {
    const arrival = arrivalAt(site);
    arrivals.set(site.statement, arrival);
    hosts.set(site.host, [...(hosts.get(site.host) ?? []), arrival]);
  }
  const touched = nodesAround(sites.map(({ use }) => use));
  const rewrite = (node: AnyNode): AnyNode => {
    if (moved.has(node)) return block([]);
    if (!touched.has(node)) return node;
    const arrival = arrivals.get(node);
    if (arrival !== undefined) return block(arrival.statements);
    const copy = mapChildren(node, rewrite);
    if (copy.type === 'BlockStatement') {
      return withStatements(copy, copy.body.flatMap(statementsOf));
    }
    const come = hosts.get(node);
    if (come === undefined || !isFunction(copy)) return copy;
    const names = [...(copy.names ?? []), ...come.flatMap((one) => one.names)];
    return withBody(copy, names, [...come.flatMap((one) => one.functions), ...copy.body.body]);
  };
  return rewrite(program) as Program;
}

function replaceCall(statement: Statement, call: CallExpression, result: string): AnyNode {
  const visit = (node: AnyNode): AnyNode =>
    node === call ? identifier(result) : mapChildren(node, visit);
  return visit(statement);
}
