import { readFileSync } from 'node:fs';
import { quickjsEngine } from '../engines/quickjs-engine.ts';

// The smallest program that runs a script file in QuickJS, to be measured from outside.
process.stdout.write(await quickjsEngine.run(readFileSync(process.argv[2]!, 'utf8')));
