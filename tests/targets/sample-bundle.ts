import { createHash } from 'node:crypto';
import { readdir, readFile, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { makeFolder } from '../../harness/file-error.ts';
import { writeWhole } from '../../harness/write-whole.ts';
import { type Bundle, type BundleOptions, buildBundle } from '../../targets/build/bundle.ts';
import { sourceDigest } from '../../targets/build/source-digest.ts';
import { generic } from '../../targets/generic/manifest.ts';
import { packageRoot } from '../../targets/package-root.ts';
import { type SampleOptions, sampleConstants, sampleNames } from '../engines/sample-constants.ts';

/** Two motors, all sensors, one setup, `full`, fitted and minified, where nothing is said. */
export type SampleWishes = Partial<
  Pick<BundleOptions, 'variant' | 'minify' | 'shape' | 'fit'> & SampleOptions
>;

/** A bundle of hand-made constants; see `keptBundle`. */
export function sampleBundle(wishes: SampleWishes): Promise<Bundle> {
  return keptBundle(optionsOf(wishes));
}

/** The same, built anew. */
export function buildSample(wishes: SampleWishes): Promise<Bundle> {
  return buildBundle(optionsOf(wishes));
}

const digest = sourceDigest();
const built = new Map<string, Promise<Bundle>>();

/**
 * Builds a bundle once for all tests, of other processes and later ones, too: it is kept under the
 * digest of all that it is made of and by, and those of other sources go. That it is the same each
 * time it is built, chain.test.ts shows.
 */
export function keptBundle(options: BundleOptions): Promise<Bundle> {
  const key = createHash('sha256').update(JSON.stringify(options)).digest('hex');
  const bundle = built.get(key) ?? fetchBundle(key, options);
  built.set(key, bundle);
  return bundle;
}

async function fetchBundle(key: string, options: BundleOptions): Promise<Bundle> {
  const made = await digest;
  const place = join(packageRoot(), 'dist', '.cache', 'bundles');
  const file = join(place, made, `${key}.json`);
  const kept = await readFile(file, 'utf8').catch(() => undefined);
  if (kept !== undefined) return JSON.parse(kept);
  const bundle = await buildBundle(options);
  makeFolder(dirname(file));
  const others = (await readdir(place)).filter((name) => name !== made);
  for (const name of others) await rm(join(place, name), { recursive: true, force: true });
  await writeWhole(file, JSON.stringify(bundle));
  return bundle;
}

function optionsOf(wishes: SampleWishes): BundleOptions {
  const { variant = 'full', minify = true, shape = 'any', layout = 'pair', setups = 1 } = wishes;
  const { fit = variant === 'core' ? 'constants' : 'vehicle' } = wishes;
  const constants = sampleConstants({ ...wishes, layout, setups });
  const names = sampleNames.slice(0, setups);
  return { target: generic, variant, fit, shape, constants, setups: names, minify };
}
