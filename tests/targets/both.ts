import { expect } from 'vitest';
import { nodeEngine } from '../../harness/engines/node-engine.ts';
import { type Room, specialise } from '../../targets/specialise/specialise.ts';

/** Wraps code as a bundle is wrapped; `make` returns a function that is called each tick. */
export function script(code: string): string {
  return `var demo = {};\n(function () {\n// lib/part.ts\n${code}\ndemo.make = make;\n})();\n`;
}

const RUN =
  'var t = demo.make(3), u = demo.make(2); for (var n = 0; n < 12; n++) ' +
  'print(t(n % 5 - 2, n) + " " + u(n, 1));';

/** Runs a script before and after it is specialised; prints must agree. @returns it afterwards */
export async function both(
  code: string,
  known: Record<string, number[]> = {},
  room: Partial<Room> = {},
  fields?: readonly string[],
): Promise<string> {
  const { code: after } = specialise(script(code), {
    known,
    room: { loop: 0, places: 3, ...room },
    globals: ['demo'],
    fields,
  });
  const [before, now] = [
    await nodeEngine.run(script(code) + RUN),
    await nodeEngine.run(after + RUN),
  ];
  expect(now).toBe(before);
  return after;
}
