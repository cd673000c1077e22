import type { Expression, Statement } from 'acorn';
import { assign, block, identifier, literal } from './tree.ts';

/** `for (counter = 0; counter < count; counter++) body`, the first step before the loop. */
export function countingLoop(counter: string, count: number, body: Statement[]): Statement[] {
  const nowhere = { start: 0, end: 0 };
  const left: Expression = identifier(counter);
  return [
    assign(counter, literal(0)),
    {
      type: 'ForStatement',
      init: null,
      test: { type: 'BinaryExpression', operator: '<', left, right: literal(count), ...nowhere },
      update: {
        type: 'UpdateExpression',
        operator: '++',
        prefix: false,
        argument: identifier(counter),
        ...nowhere,
      },
      body: block(body),
      ...nowhere,
    },
  ];
}
