import type { AnyNode, Program, Statement } from 'acorn';
import { generate } from 'astring';
import { countingLoop } from './loops.ts';
import { isFunction, mapChildren, withBody, withStatements } from './tree.ts';

/** Makes a loop of the same step written out several times, where that is less text. */
export function rollSteps(program: Program): Program {
  let count = 0;
  const visit = (node: AnyNode, added: string[]): AnyNode => {
    if (isFunction(node)) {
      const own: string[] = [];
      const copy = mapChildren(node, (child) => visit(child, own));
      return own.length === 0 ? copy : withBody(copy, [...(copy.names ?? []), ...own]);
    }
    const copy = mapChildren(node, (child) => visit(child, added));
    if (copy.type !== 'BlockStatement') return copy;
    const body: Statement[] = [];
    for (let i = 0; i < copy.body.length; ) {
      const step = copy.body[i]!;
      const times = timesFrom(copy.body, i);
      if (isWorth(step, times)) {
        const counter = `rolled$${count++}`;
        added.push(counter);
        body.push(...countingLoop(counter, times, [step]));
      } else body.push(...copy.body.slice(i, i + times));
      i += times;
    }
    return withStatements(copy, body);
  };
  return visit(program, []) as Program;
}

/** `for(a=0;a<4;a++)`, and the name. */
const LOOP = 20;

function isWorth(step: Statement, times: number): boolean {
  return times > 1 && (times - 1) * textOf(step).replace(/\w+/g, 'a').length > LOOP;
}

function timesFrom(body: readonly Statement[], from: number): number {
  const text = body[from]!.type === 'ExpressionStatement' ? textOf(body[from]!) : undefined;
  let end = from + 1;
  while (text !== undefined && end < body.length && textOf(body[end]!) === text) end++;
  return end - from;
}

function textOf(step: Statement): string {
  return generate(step).replace(/\s+/g, '');
}
