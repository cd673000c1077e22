import { type Identifier, parse } from 'acorn';
import { describe, expect, it } from 'vitest';
import { mapTree } from '../../targets/specialise/tree.ts';

const PROGRAM = parse('function f(a) { return [a, , 2]; } f(1);', { ecmaVersion: 5 });

describe('A rewritten tree', () => {
  it('is the same one where nothing changes, so that a pass can say that it is done', () => {
    expect(mapTree(PROGRAM, (node) => node)).toBe(PROGRAM);
  });

  it('shares with the old one what does not change, and leaves that as it was', () => {
    const before = JSON.stringify(PROGRAM);
    const renamed = mapTree(PROGRAM, (node) =>
      node.type === 'Identifier' && node.name === 'a'
        ? ({ ...node, name: 'b' } as Identifier)
        : node,
    );
    expect(JSON.stringify(PROGRAM)).toBe(before);
    expect(JSON.stringify(renamed)).toBe(before.replaceAll('"name":"a"', '"name":"b"'));
    expect(renamed.body[1]).toBe(PROGRAM.body[1]);
  });
});
