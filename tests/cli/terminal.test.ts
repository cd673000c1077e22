import { expect, test } from 'vitest';
import { columns } from '../../harness/cli/terminal.ts';

const ROWS = [
  ['', 'a', 'few words, and then a good many more of them'],
  ['', 'longer', 'two  spaces stay'],
];

test('columns stand under each other', () => {
  expect(columns(ROWS, undefined)).toEqual([
    '  a       few words, and then a good many more of them',
    '  longer  two  spaces stay',
  ]);
});

test('in a narrow terminal the last one goes on under itself', () => {
  expect(columns(ROWS, 40)).toEqual([
    '  a       few words, and then a good',
    '          many more of them',
    '  longer  two  spaces stay',
  ]);
  const [red] = columns(
    [['\u001b[31mone\u001b[39m', `\u001b[31m${'word '.repeat(9)}\u001b[39m`]],
    40,
  );
  expect(red).toBe(`\u001b[31mone\u001b[39m  \u001b[31m${'word '.repeat(7).trimEnd()}`);
});

test('where there is no room left, lines stay whole', () => {
  expect(columns(ROWS, 30)).toEqual(columns(ROWS, undefined));
});
