import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readableEs5 } from '../../targets/build/es5.ts';
import { packageRoot } from '../../targets/package-root.ts';
import { type CoreApi, driveRows, driveStream, printRows, ROW_WIDTH } from './in-engine.ts';

/** How to drive a core inside an engine. */
export type DrivePlan =
  | {
      kind: 'stream';
      /** Name of the seed; the same name gives the same inputs. */
      seed: string;
      /** Number of ticks, a multiple of `every`. */
      ticks: number;
      /** A digest is printed after every so many ticks. */
      every: number;
      /** Number of the vehicle's motors. */
      motors: number;
      /** CRC-32 of each setup on board, signed 32-bit. */
      crcs: readonly number[];
    }
  | {
      kind: 'digest';
      /** ROW_WIDTH integers a tick: see `ROW_WIDTH`. */
      rows: readonly number[];
      every: number;
      motors: number;
    }
  | { kind: 'ticks'; rows: readonly number[] };

/**
 * One ES5 script that holds a bundle, the inputs and the loop; it needs `print` alone.
 *
 * @param bundle code from `buildBundle`
 */
export async function driveScript(bundle: string, plan: DrivePlan): Promise<string> {
  const readable = await driver();
  const call =
    plan.kind === 'stream'
      ? `stream(axlewright,${streamArguments(plan)},[${plan.crcs}],print)`
      : plan.kind === 'digest'
        ? `rows(axlewright,inputRows,${plan.every},${plan.motors},print)`
        : `print(axlewright,inputRows,print)`;
  const rows = plan.kind === 'stream' ? '' : rowLiterals(plan.rows);
  return `${bundle}\n${readable}\n${rows}axlewrightDrive.${call};\n`;
}

/**
 * What the script of the same plan would print, from a core that lives in this process: the
 * TypeScript source on Node.
 */
export function driveHere(core: CoreApi, plan: DrivePlan): string {
  const lines: string[] = [];
  const print = (text: string) => lines.push(`${text}\n`);
  if (plan.kind === 'stream') {
    const { seed, ticks, every, motors, crcs } = plan;
    driveStream(core, seedOf(seed), ticks, every, motors, [...crcs], print);
  } else {
    const chunks = [() => [...plan.rows]];
    if (plan.kind === 'digest') driveRows(core, chunks, plan.every, plan.motors, print);
    else printRows(core, chunks, print);
  }
  return lines.join('');
}

function streamArguments(plan: DrivePlan & { kind: 'stream' }): string {
  return [seedOf(plan.seed), plan.ticks, plan.every, plan.motors].join(',');
}

let compiling: Promise<string> | undefined;

/** The driver as ES5, from source or from compiled modules, whichever this one is. */
function driver(): Promise<string> {
  const here = fileURLToPath(import.meta.url);
  compiling ??= readableEs5({
    entry: join(here, '..', `drive-entry${extname(here)}`),
    root: packageRoot(),
    global: 'axlewrightDrive',
  });
  return compiling;
}

/** A 32-bit integer other than 0 for a name: FNV-1a over its UTF-16 units. */
function seedOf(name: string): number {
  let hash = 0x811c9dc5 | 0;
  for (let i = 0; i < name.length; i++) {
    hash = Math.imul(hash ^ name.charCodeAt(i), 0x01000193);
  }
  return hash === 0 ? 1 : hash;
}

/** Rows in functions of their own: an engine may limit the size of one function. */
function rowLiterals(rows: readonly number[]): string {
  if (rows.length % ROW_WIDTH !== 0) throw new RangeError('a row of inputs is not whole');
  if (!rows.every(Number.isInteger)) throw new RangeError('an input is not an integer');
  const chunks: string[] = [];
  for (let at = 0; at < rows.length; at += ROW_WIDTH * ROWS_A_CHUNK) {
    chunks.push(`function(){return[${rows.slice(at, at + ROW_WIDTH * ROWS_A_CHUNK)}]}`);
  }
  return `var inputRows=[];\n${chunks.map((chunk) => `inputRows.push(${chunk});\n`).join('')}`;
}

const ROWS_A_CHUNK = 100;
