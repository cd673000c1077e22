import type { AnyNode, CallExpression, NewExpression, Program } from 'acorn';
import { full } from 'acorn-walk';
import type { Finding } from './finding.ts';
import { isOwner, type Owner, type Reference, references } from './scopes.ts';

/**
 * Names a bundle may not lean on: everything but what it declares itself, the ports it is handed
 * and `push`. Also functions used above their declaration, and functions that call themselves.
 *
 * @param ports names of the functions the hub hands in
 */
export function nameFindings(program: Program, ports: readonly string[]): Finding[] {
  const uses = references(program);
  return [
    ...uses.filter((use) => use.owner === undefined).flatMap(unknownName),
    ...uses.filter(isHelper).map((use) => finding('helper', use.node, HELPER)),
    ...uses.filter(isUsedAbove).map((use) => finding('used-above', use.node, USED_ABOVE)),
    ...recursions(uses),
    ...foreignMethods(program, new Set([...ports, ...ownFields(program), 'push'])),
  ];
}

const HELPER =
  'a helper of the compiler: it needs what small engines lack; write no classes, ' +
  'spread or generators';
const USED_ABOVE =
  'a function used above its declaration: some engines define it only there; declare it first';
const RECURSION =
  'a function that calls itself: some engines stop at a depth of 30 calls; use a bounded loop';
const METHOD =
  'a method the bundle does not define: engines lack it or differ in it; write it out, or add it ' +
  'to the ports of the manifest';
const COMPUTED_CALL =
  'a call through a computed field: it cannot be checked; call the function by its name';

/** Names some engine has and another lacks: why not, what instead. */
const UNKNOWN: Record<string, string> = {
  Math:
    'its functions differ from engine to engine and cost more than arithmetic; use + - * /, ' +
    'comparison and baked tables',
  Date: 'time is a port and part of the log; read nowMs',
  JSON: 'small engines lack it; hand on integers',
  Object: 'its functions fail on small engines; assign plain fields',
  Array: 'a length gives holes; write a literal or push()',
  arguments: 'it allocates and is unlike an array on some engines; name the parameters',
  eval: 'a hub runs only code that was checked; write it out',
  Function: 'a hub runs only code that was checked; write it out',
  NaN: 'a name that can be missing; test x - x === 0 for a finite number',
  Infinity: 'a name that can be missing; test x - x === 0 for a finite number',
  isNaN: 'it converts its argument; test x - x === 0 for a finite number',
  isFinite: 'it converts its argument; test x - x === 0 for a finite number',
  parseInt: 'engines parse text differently; keep to integers',
  parseFloat: 'engines parse text differently; keep to integers',
  Number: 'engines parse text differently; test typeof x === "number"',
  String: 'numbers print differently from engine to engine; hand on integers',
  Error: 'the core never throws; set a cause',
  RegExp: 'small engines have none; compare numbers',
  console: 'a hub has none; hand it in as a port',
  print: 'not every hub has one; hand it in as a port',
  setTimeout: 'the hub owns the clock; count ticks',
  setInterval: 'the hub owns the clock; count ticks',
};

const TYPED_ARRAY =
  /^(?:[BU]?i?g?I?[Uu]?[Ii]nt\d+(?:Clamped)?Array|Float\d+Array|ArrayBuffer|DataView)$/;

function unknownName(use: Reference): Finding[] {
  const { name } = use.node;
  if (name === 'undefined') return [];
  const reason = TYPED_ARRAY.test(name)
    ? 'typed arrays are missing or slow on small engines; use an array of numbers'
    : Object.hasOwn(UNKNOWN, name)
      ? UNKNOWN[name]!
      : 'no engine promises this name; declare it, or hand it in as a port';
  return [finding('unknown-name', use.node, `\`${name}\`: ${reason}`)];
}

function isHelper({ node }: Reference): boolean {
  return node.name.startsWith('__');
}

/** true if the use runs before its function's declaration is reached, in the same body. */
function isUsedAbove(use: Reference): boolean {
  if (use.owner === undefined || use.owner !== use.user) return false;
  const declaration = bodyOf(use.owner).find((node) => declares(node, use.node.name));
  return declaration !== undefined && use.node.start < declaration.start;
}

function declares(node: AnyNode, name: string): boolean {
  return node.type === 'FunctionDeclaration' && node.id?.name === name;
}

function bodyOf(owner: Owner): AnyNode[] {
  return owner.type === 'Program' ? owner.body : owner.body.body;
}

/** Functions that reach themselves through calls by name. */
function recursions(uses: readonly Reference[]): Finding[] {
  const calls = new Map<Owner, Set<Owner>>();
  for (const use of uses) {
    const around = use.ancestors[use.ancestors.length - 2];
    if (around?.type !== 'CallExpression' || around.callee !== use.node) continue;
    if (use.owner === undefined) continue;
    const called =
      use.owner.type === 'FunctionExpression' && use.owner.id?.name === use.node.name
        ? use.owner
        : bodyOf(use.owner).find((node) => declares(node, use.node.name));
    if (called === undefined || !isOwner(called)) continue;
    calls.set(use.user, (calls.get(use.user) ?? new Set()).add(called));
  }
  const reaches = (from: Owner, to: Owner, seen: Set<Owner>): boolean =>
    [...(calls.get(from) ?? [])].some(
      (next) => next === to || (!seen.has(next) && reaches(next, to, seen.add(next))),
    );
  return [...calls.keys()]
    .filter((owner) => reaches(owner, owner, new Set()))
    .map((owner) => finding('recursion', owner, RECURSION));
}

/** Names of the fields this script itself gives to records. */
function ownFields(program: Program): string[] {
  const names: string[] = [];
  full(program, (node) => {
    if (node.type === 'Property' && node.key.type === 'Identifier') names.push(node.key.name);
    if (node.type !== 'AssignmentExpression' || node.left.type !== 'MemberExpression') return;
    const { computed, property } = node.left;
    if (!computed && property.type === 'Identifier') names.push(property.name);
  });
  return names;
}

function foreignMethods(program: Program, known: ReadonlySet<string>): Finding[] {
  const findings: Finding[] = [];
  const look = (call: CallExpression | NewExpression) => {
    const { callee } = call;
    if (callee.type !== 'MemberExpression') return;
    if (callee.computed) findings.push(finding('computed-call', call, COMPUTED_CALL));
    else if (callee.property.type === 'Identifier' && !known.has(callee.property.name)) {
      findings.push(finding('method', call, `\`${callee.property.name}()\`: ${METHOD}`));
    }
  };
  full(program, (node) => {
    if (node.type === 'CallExpression' || node.type === 'NewExpression') look(node);
  });
  return findings;
}

function finding(rule: string, node: AnyNode, message: string): Finding {
  const { line, column } = node.loc!.start;
  return { rule, line, column: column + 1, message };
}
