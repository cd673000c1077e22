import { type Constants, createController, createCore, V } from '../../lib/index.ts';
import { createInputs, createOutputs } from '../../lib/signals.ts';
import type { Variant } from '../../targets/manifest.ts';
import { setupCrc } from '../check/mirror.ts';
import { type DrivePlan, driveHere, driveScript } from './drive-script.ts';
import type { CoreApi } from './in-engine.ts';
import { nodeEngine } from './node-engine.ts';
import { quickjsEngine } from './quickjs-engine.ts';

/** What a script was driven through to prove it. */
export interface BundleProof {
  /** Ticks of random inputs in Node's engine and in a small one. */
  ticks: number;
  /** Whether every output of every tick had the bits that the source gives. */
  identical: boolean;
}

/** Ticks between two digests, and digests in each engine. */
const EVERY = 1000;
const TICKS = 4000;

/**
 * Drives a script for the hub and the source it was made of through the same random inputs, garbage
 * among them, in Node and in QuickJS. A script that was made smaller and quicker on the way must
 * give the same bits, or it does not go on a hub.
 *
 * @param code script from `buildBundle`
 */
export async function proveBundle(
  code: string,
  variant: Variant,
  constants: Constants,
): Promise<BundleProof> {
  const crcs = constants.setups.map(setupCrc);
  const motors = constants.vehicle[V.MOTORS]!;
  const range = { ticks: TICKS, every: EVERY };
  const plan: DrivePlan = { kind: 'stream', seed: 'build', ...range, motors, crcs };
  const make = variant === 'core' ? createCore : createController;
  const source = { createController: make, createInputs, createOutputs, constants } as CoreApi;
  const expected = driveHere(source, plan);
  const script = await driveScript(code, plan);
  const outputs = await Promise.all([nodeEngine, quickjsEngine].map((each) => each.run(script)));
  return { ticks: 2 * TICKS, identical: outputs.every((output) => output === expected) };
}
