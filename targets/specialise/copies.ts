import type { Expression, Identifier, Program } from 'acorn';
import { effectsOf } from './effects.ts';
import { substitute } from './substitute.ts';
import { type FunctionNode, some } from './tree.ts';
import {
  assignedBy,
  collectNames,
  isOwnStatement,
  loopsAround,
  type Name,
  readsOf,
  type Use,
  writesOf,
} from './uses.ts';
import { isWrittenFirst } from './written-first.ts';

/**
 * Reads what functions around own in place of a copy of it that is not read often, where it stays
 * the same as long: less text, but slower to read.
 */
export function dropCopies(program: Program): Program {
  const names = collectNames(program);
  const copies = copiesIn(names, new Map(), (source, copy, name) => {
    if (readsOf(name).length > MOST_READS || !isOwnStatement(copy)) return undefined;
    return changesTo(source, copy.within!, names);
  });
  return copies.size === 0 ? program : dropCopies(substitute(program, copies, names));
}

/** As often as a name of two letters in place of one takes less than the copy does. */
const MOST_READS = 4;

/**
 * Names that are a copy of another one as long as they are read, which changes later on. None is
 * copied in turn, nor copies what is itself replaced: what holds for each need not for a chain.
 *
 * @param changes where a name that a function around owns may change in the function of its copy;
 *   undefined = anywhere
 */
export function copiesIn(
  names: ReadonlyMap<string, Name>,
  known: ReadonlyMap<string, Expression>,
  changes: (source: Name, copy: Use, name: Name) => Use[] | undefined = () => undefined,
): Map<string, Identifier> {
  const copies = new Map<string, Identifier>();
  const taken = new Set<string>();
  for (const value of known.values()) if (value.type === 'Identifier') taken.add(value.name);
  for (const name of names.values()) {
    const [copy, another] = writesOf(name);
    if (name.kind !== 'variable' || copy === undefined || another !== undefined) continue;
    const value = assignedBy(copy);
    if (value?.type !== 'Identifier' || known.has(name.name) || known.has(value.name)) continue;
    if (taken.has(name.name) || copies.has(value.name)) continue;
    const source = names.get(value.name);
    if (source === undefined || source === name || source.kind === 'function') continue;
    const { within } = copy;
    if (within === undefined || name.owner !== within || readsOf(name).length === 0) continue;
    if (name.uses.some((use) => use.within !== within)) continue;
    const isOwn = source.owner === within && source.uses.every((use) => use.within === within);
    const written = isOwn ? writesOf(source) : changes(source, copy, name);
    if (written === undefined || !staysWhile(written, copy, name, within)) continue;
    copies.set(name.name, value);
    taken.add(value.name);
  }
  return copies;
}

/** true if nothing writes the source from the copy to the last read of it in the same round. */
function staysWhile(written: readonly Use[], copy: Use, name: Name, within: FunctionNode): boolean {
  const around = loopsAround(copy);
  const loop = around[around.length - 1];
  const reads = readsOf(name);
  if (reads.some(({ at, ancestors }) => at < copy.at || (loop && !ancestors.includes(loop)))) {
    return false;
  }
  if (!isWrittenFirst(loop ?? within.body, name.name)) return false;
  const last = Math.max(...reads.map(({ at }) => at));
  const inner = new Set(reads.flatMap(loopsAround).filter((one) => !around.includes(one)));
  return written.every(
    ({ at, ancestors }) => (at < copy.at || at > last) && !ancestors.some((one) => inner.has(one)),
  );
}

/** Where a function writes a name, or calls what may; undefined = anywhere. */
function changesTo(
  source: Name,
  within: FunctionNode,
  names: ReadonlyMap<string, Name>,
): Use[] | undefined {
  const isUnknown = some(within.body, (node) => {
    if (node.type === 'NewExpression') return true;
    if (node.type !== 'CallExpression') return false;
    return node.callee.type !== 'Identifier' || !names.get(node.callee.name)?.declaration;
  });
  if (isUnknown) return undefined;
  const changes = writesOf(source).filter((write) => write.within === within);
  for (const { declaration, uses } of names.values()) {
    const calls = declaration ? uses.filter((use) => use.within === within) : [];
    if (calls.length === 0) continue;
    const effects = effectsOf(declaration!.body, names);
    if (effects === undefined || effects.names.has(source.name)) changes.push(...calls);
  }
  return changes;
}
