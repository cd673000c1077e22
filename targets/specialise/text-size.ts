import type { AnyNode } from 'acorn';
import { generate } from 'astring';

/** About as many characters as an expression takes with short names and no white space. */
export function textSize(node: AnyNode, isLocal: (name: string) => boolean): number {
  return generate(node)
    .replace(/(?<!\.)\b[A-Za-z_$][\w$]*|(?<!\.)\$\d+/g, (name) =>
      /^(typeof|void)$/.test(name) ? name : isLocal(name) || /^\$\d/.test(name) ? 'a' : 'bb',
    )
    .replace(/typeof (?=\w)/g, 'typeof_')
    .replace(/ /g, '').length;
}
