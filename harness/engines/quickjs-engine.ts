import variant from '@jitl/quickjs-wasmfile-release-sync';
import {
  newQuickJSWASMModuleFromVariant,
  type QuickJSContext,
  type QuickJSSyncVariant,
  type QuickJSWASMModule,
} from 'quickjs-emscripten-core';
import { type Engine, EngineError } from './engine.ts';

/** QuickJS as WebAssembly; it comes with the package and is there on every machine. */
export const quickjsEngine: Engine = {
  name: 'quickjs',
  available: () => null,
  async run(script) {
    const quickjs = await loadQuickJs();
    const lines: string[] = [];
    const context = quickjs.newContext();
    try {
      addPrint(context, (text) => lines.push(`${text}\n`));
      evaluate(context, script);
    } finally {
      context.dispose();
    }
    return lines.join('');
  },
};

let loading: Promise<QuickJSWASMModule> | undefined;

/** The WebAssembly module, loaded once. */
export function loadQuickJs(): Promise<QuickJSWASMModule> {
  // Its types describe the CommonJS form, one `default` deeper.
  loading ??= newQuickJSWASMModuleFromVariant(variant as unknown as QuickJSSyncVariant);
  return loading;
}

/** Gives the context its `print`. */
export function addPrint(context: QuickJSContext, print: (text: string) => void): void {
  const handle = context.newFunction('print', (text) => {
    print(context.getString(text));
  });
  context.setProp(context.global, 'print', handle);
  handle.dispose();
}

/**
 * Runs a script in the context.
 *
 * @throws EngineError if the script throws or does not parse
 */
export function evaluate(context: QuickJSContext, script: string): void {
  const result = context.evalCode(script, 'script.js', { type: 'global' });
  if (result.error) {
    const said: unknown = context.dump(result.error);
    result.error.dispose();
    throw new EngineError('quickjs', describe(said));
  }
  result.value.dispose();
}

function describe(said: unknown): string {
  if (typeof said !== 'object' || said === null) return String(said);
  const { name, message, stack } = said as { name?: string; message?: string; stack?: string };
  return `${name}: ${message} ${stack ?? ''}`;
}
