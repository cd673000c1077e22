import { createContext, runInContext } from 'node:vm';
import { type Engine, EngineError } from './engine.ts';

/** The engine of Node itself, in a context that holds nothing but the language and `print`. */
export const nodeEngine: Engine = {
  name: 'node',
  available: () => null,
  async run(script) {
    const lines: string[] = [];
    const context = createContext({ print: (text: unknown) => lines.push(`${text}\n`) });
    try {
      runInContext(script, context, { filename: 'script.js', timeout: RUN_LIMIT_MS });
    } catch (error) {
      // An error made in another context is no instance of this one's Error.
      throw new EngineError('node', String(error));
    }
    return lines.join('');
  },
};

/** A script that runs longer is taken for one that never ends, ms. */
const RUN_LIMIT_MS = 600_000;
