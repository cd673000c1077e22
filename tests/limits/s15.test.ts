import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { limitSuite } from './limit-suite.ts';
import { wrapped } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM } from './scripted.ts';

limitSuite(15, {
  exercised: 95,
  mutants: [
    {
      core: wrapped('a core that throws on text', (core) => ({
        step(inputs, outputs) {
          if (typeof inputs.throttleUs !== 'number') throw new TypeError('no number');
          core.step(inputs, outputs);
        },
        offerSetup: core.offerSetup,
      })),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 2, raw: { throttleUs: '1500' } }],
      // The last tick before it.
      atMs: 300,
    },
  ],
});

/** How far a loop in a tick may run: fixed when the controller is made, never by what arrives. */
const FIXED_BOUNDS = [
  'motors',
  'stages.motors',
  '4',
  'count',
  'S.COUNT',
  'end',
  'from + count',
  'windings.length',
  'measured',
  'KINDS',
  'twos',
  'NUMBERS.length',
];

/** What makes an object, a string or a function, and so could allocate, or what could throw. */
const FORBIDDEN = new Set([
  ts.SyntaxKind.ArrayLiteralExpression,
  ts.SyntaxKind.ObjectLiteralExpression,
  ts.SyntaxKind.NewExpression,
  ts.SyntaxKind.ArrowFunction,
  ts.SyntaxKind.FunctionExpression,
  ts.SyntaxKind.FunctionDeclaration,
  ts.SyntaxKind.ClassExpression,
  ts.SyntaxKind.TemplateExpression,
  ts.SyntaxKind.SpreadElement,
  ts.SyntaxKind.RegularExpressionLiteral,
  ts.SyntaxKind.ThrowStatement,
  ts.SyntaxKind.WhileStatement,
  ts.SyntaxKind.DoStatement,
  ts.SyntaxKind.ForInStatement,
  ts.SyntaxKind.ForOfStatement,
]);

const lib = join(import.meta.dirname, '../../lib');
const sources = readdirSync(lib)
  .filter((name) => name.endsWith('.ts'))
  .map((name) => parse(name, readFileSync(join(lib, name), 'utf8')));

describe('S15 on the source: what a tick and a record can reach', () => {
  const functions = functionsOf(sources);
  const reached = reach(functions, ['step', 'put']);

  it('is most of the core', () => {
    const names = [...reached].map((one) => one.name!.text);
    expect(names).toEqual(
      expect.arrayContaining([
        'takeIn',
        'decide',
        'act',
        'lower',
        'countStall',
        'warm',
        'store',
        'pair',
      ]),
    );
    expect(reached.size).toBeGreaterThan(45);
  });

  it('makes no object, no string, no function, throws nothing, and calls no foreign name', () => {
    expect([...reached].flatMap((one) => offences(one, functions))).toEqual([]);
  });

  it('loops only up to bounds that are fixed when the controller is made', () => {
    const bounds = [...reached].flatMap((one) => loopBounds(one));
    expect(bounds.length).toBeGreaterThan(10);
    expect(bounds.filter((bound) => !FIXED_BOUNDS.includes(bound))).toEqual([]);
  });

  it('sees each of these faults in a function that has it', () => {
    const bad = `
      function runTick(inputs: Inputs) {
        while (inputs.timeMs > 0) inputs.timeMs--;
        for (let i = 0; i < inputs.timeMs; i++) inputs.list.push([i]);
        throw later('x' + 1);
      }
      function later() { return Math.max(1, 2); }`;
    const few = functionsOf([parse('bad.ts', bad)]);
    const all = [...reach(few, ['runTick'])];
    expect(all.flatMap((one) => offences(one, few))).toEqual([
      'bad.ts runTick: WhileStatement',
      'bad.ts runTick: call of push',
      'bad.ts runTick: ArrayLiteralExpression',
      'bad.ts runTick: ThrowStatement',
      'bad.ts runTick: text',
      'bad.ts later: call of max',
    ]);
    expect(all.flatMap(loopBounds)).toEqual(['inputs.timeMs']);
  });
});

type Functions = ReadonlyMap<string, readonly ts.FunctionDeclaration[]>;

function parse(name: string, text: string): ts.SourceFile {
  return ts.createSourceFile(name, text, ts.ScriptTarget.ES2022, true);
}

/** Every function by its name; stages share names such as `step`. */
function functionsOf(files: readonly ts.SourceFile[]): Functions {
  const found = new Map<string, ts.FunctionDeclaration[]>();
  const visit = (node: ts.Node): void => {
    if (ts.isFunctionDeclaration(node) && node.name) {
      found.set(node.name.text, [...(found.get(node.name.text) ?? []), node]);
    }
    node.forEachChild(visit);
  };
  for (const file of files) visit(file);
  return found;
}

function reach(functions: Functions, from: readonly string[]): Set<ts.FunctionDeclaration> {
  const reached = new Set<ts.FunctionDeclaration>();
  const todo = [...from];
  for (let name = todo.pop(); name !== undefined; name = todo.pop()) {
    for (const one of functions.get(name) ?? []) {
      if (reached.has(one)) continue;
      reached.add(one);
      walk(one, (node) => {
        if (ts.isCallExpression(node)) todo.push(calledName(node));
      });
    }
  }
  return reached;
}

function offences(one: ts.FunctionDeclaration, functions: Functions): string[] {
  const place = `${one.getSourceFile().fileName} ${one.name!.text}`;
  const found: string[] = [];
  walk(one, (node) => {
    if (FORBIDDEN.has(node.kind)) found.push(`${place}: ${ts.SyntaxKind[node.kind]}`);
    if (ts.isCallExpression(node) && !functions.has(calledName(node))) {
      found.push(`${place}: call of ${calledName(node)}`);
    }
    // Text may only be compared with, as in `typeof value === 'number'`.
    if (ts.isStringLiteral(node) && !comparesType(node.parent)) found.push(`${place}: text`);
  });
  return found;
}

function comparesType(node: ts.Node): boolean {
  return ts.isBinaryExpression(node) && ts.isTypeOfExpression(node.left);
}

function loopBounds(one: ts.FunctionDeclaration): string[] {
  const bounds: string[] = [];
  walk(one, (node) => {
    if (!ts.isForStatement(node)) return;
    const { condition } = node;
    const less =
      condition !== undefined &&
      ts.isBinaryExpression(condition) &&
      condition.operatorToken.kind === ts.SyntaxKind.LessThanToken;
    bounds.push(less ? condition.right.getText() : node.getText());
  });
  return bounds;
}

/** The last name of what is called: `step` in `core.clock.step(...)`. */
function calledName({ expression }: ts.CallExpression): string {
  return ts.isPropertyAccessExpression(expression) ? expression.name.text : expression.getText();
}

/** Visits what lies inside a function. */
function walk(one: ts.FunctionDeclaration, visit: (node: ts.Node) => void): void {
  const inner = (node: ts.Node): void => {
    visit(node);
    node.forEachChild(inner);
  };
  one.body?.forEachChild(inner);
}
