import type { AnyNode } from 'acorn';
import { generate } from 'astring';
import { type Leaves, matchShape, type Shape, sharedShape } from './shapes.ts';

/** The most that two expressions have in common, and how that is written. */
interface SharedShape extends Shape {
  text: string;
}

/** Answers about the same expressions, each found once: most stay from one look to the next. */
export interface ShapeMemory {
  /** As `sharedShape`, with no more than so many holes. */
  shared(a: AnyNode, b: AnyNode): SharedShape | undefined;
  /** As `matchShape`. */
  match(shape: Shape, expression: AnyNode): readonly AnyNode[] | undefined;
}

/**
 * Remembers what expressions have in common.
 *
 * @param leaves what holds for as long as it remembers
 * @param mostHoles a shape with more is none
 */
export function shapeMemory(leaves: Leaves, mostHoles: number): ShapeMemory {
  const shared = new Map<AnyNode, Map<AnyNode, SharedShape | undefined>>();
  const matches = new Map<Shape, Map<AnyNode, readonly AnyNode[] | undefined>>();
  const share = (a: AnyNode, b: AnyNode): SharedShape | undefined => {
    const shape = sharedShape(a, b, leaves);
    if (shape === undefined || shape.holes > mostHoles) return undefined;
    return { ...shape, text: generate(shape.node) };
  };
  return {
    shared: (a, b) => found(shared, a, b, share),
    match: (shape, expression) =>
      found(matches, shape, expression, () => matchShape(shape, expression, leaves)),
  };
}

function found<A, B, T>(known: Map<A, Map<B, T>>, a: A, b: B, find: (a: A, b: B) => T): T {
  let answers = known.get(a);
  if (answers === undefined) {
    answers = new Map();
    known.set(a, answers);
  }
  if (!answers.has(b)) answers.set(b, find(a, b));
  return answers.get(b) as T;
}
