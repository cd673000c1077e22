import { UserError } from '../problems.ts';
import { duktapeEngine, mujsEngine } from './command-engine.ts';
import type { Engine } from './engine.ts';
import { nodeEngine } from './node-engine.ts';
import { quickjsEngine } from './quickjs-engine.ts';

/** Every engine a bundle is tried on; the first two are there on every machine. */
export const engines: readonly Engine[] = [nodeEngine, quickjsEngine, duktapeEngine, mujsEngine];

/**
 * The engine of that name.
 *
 * @throws UserError if there is none, or it cannot be used here
 */
export function engineByName(name: string): Engine {
  const engine = engines.find((one) => one.name === name);
  if (engine === undefined) {
    const names = engines.map((one) => one.name).join(', ');
    throw new UserError([
      {
        file: '--engine',
        message: `no engine is called ${name}.`,
        cure: `Choose one of ${names}.`,
      },
    ]);
  }
  const reason = engine.available();
  if (reason !== null) throw new UserError([{ file: '--engine', field: name, message: reason }]);
  return engine;
}
