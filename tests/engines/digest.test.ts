import { expect, it } from 'vitest';
import { driveHere } from '../../harness/engines/drive-script.ts';
import { ROW_WIDTH } from '../../harness/engines/in-engine.ts';
import * as source from '../../lib/index.ts';
import { sampleConstants } from './sample-constants.ts';

const constants = sampleConstants({ layout: 'pair' });
const NAMES = ['throttle', 'demand', 'cut', 'limit', 'speed', 'spin', 'free', 'jam'] as const;
const CODES = ['enable', 'steer', 'state', 'cause', 'flags', 'slot', 'found'] as const;

/** What is printed of three ticks in which a core gives these outputs. */
function digestOf(change: (outputs: source.Outputs) => void): string {
  const step = (_inputs: source.Inputs, outputs: source.Outputs) => change(outputs);
  const core = { ...source, constants, createController: () => ({ step }) };
  const rows = Array<number>(3 * ROW_WIDTH).fill(0);
  return driveHere(core, { kind: 'digest', rows, every: 1, motors: 2 });
}

/** The next double away from 0. */
function nextOf(x: number): number {
  const bits = new DataView(new ArrayBuffer(8));
  bits.setFloat64(0, x);
  bits.setBigUint64(0, bits.getBigUint64(0) + 1n);
  return bits.getFloat64(0);
}

it.each([
  0,
  5e-324,
  1e-9,
  1 / 3,
  -1000 / 7,
  999 + 1 / 1024,
  2 ** 31 - 1,
  -(2 ** 31),
  2 ** 40 + 1 / 2,
  1e300,
])('the last bit of %d changes the digest, whichever output it is of', (x) => {
  for (const name of [...NAMES, 'assist'] as const) {
    const [one, next] = [x, nextOf(x)].map((value) =>
      digestOf((outputs) => {
        outputs[name] = value;
      }),
    );
    expect(one, name).not.toBe(next);
  }
});

it('a code, or a command, that is another one or no integer changes the digest', () => {
  for (const name of CODES) {
    const digests = [0, 1, 1 / 2, 0 / 0, 2 ** 32].map((value) =>
      digestOf((outputs) => {
        outputs[name] = value;
      }),
    );
    expect(new Set(digests.slice(0, 4)).size, name).toBeGreaterThanOrEqual(3);
    expect(digests[2], name).not.toBe(digests[0]);
    expect(digests[4], name).not.toBe(digests[0]);
  }
  const commands = [0, 1, 1 / 2].map((value) =>
    digestOf((outputs) => {
      outputs.drive[1] = value;
    }),
  );
  expect(new Set(commands).size).toBe(3);
});

it('values that are not finite, and whole ones, are told apart', () => {
  const digests = [0, 0 / 0, 1, 2 ** 32].map((value) =>
    digestOf((outputs) => {
      outputs.speed = value;
    }),
  );
  expect(new Set(digests).size).toBe(4);
});
