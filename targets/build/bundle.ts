import { join } from 'node:path';
import type { Constants } from '../../lib/constants.ts';
import type { Manifest, Variant } from '../manifest.ts';
import { packageRoot } from '../package-root.ts';
import { checkBundle } from './check.ts';
import { compileEs5 } from './es5.ts';
import type { Finding } from './finding.ts';
import { type FitName, fittingFor } from './fit.ts';
import { headerOf, withHeader } from './header.ts';
import { type Part, partsOf } from './parts.ts';
import { publicNames } from './public-names.ts';
import type { ShapeName } from './shape.ts';

/** What to put into a bundle. */
export interface BundleOptions {
  /** Manifest of the kind of hub. */
  target: Manifest;
  /** The bare core, or the core with recorder, loader and ports. */
  variant: Variant;
  /** Baked constants; embedded as integer literals. */
  constants: Constants;
  /** Name of each setup in `constants.setups`, in that order; letters, digits and `_.-`. */
  setups: readonly string[];
  /** true = short names and no white space; false = readable, with short docs. */
  minify: boolean;
  /** What the bundle is to carry, and so what it drives with; default `any`. */
  fit?: FitName;
  /** What a fitted script is shaped for; default the manifest's engine. */
  shape?: ShapeName;
}

/** A program for a hub. */
export interface Bundle {
  /** The script: a header line, then ES5 in ASCII; see targets/SPEC.md. */
  code: string;
  /** Its size. */
  bytes: number;
  /** Bytes of each source module in the minified form, whichever form `code` has. */
  parts: Part[];
  /** What the gate found; a bundle with findings must not go on a hub. */
  warnings: Finding[];
}

/**
 * Builds one ES5 script from the package's own sources. Same options, same bytes.
 *
 * @throws RangeError if names and setups do not match, a constant is not an integer, or `full` is
 * to be fitted for its constants alone
 */
export async function buildBundle(options: BundleOptions): Promise<Bundle> {
  const { target, variant, constants, setups, fit = 'any', shape = target.engine } = options;
  if (setups.length !== constants.setups.length || setups.length === 0) {
    throw new RangeError(`${setups.length} names for ${constants.setups.length} setups`);
  }
  if (![constants.vehicle, ...constants.setups, [constants.crc]].flat().every(Number.isInteger)) {
    throw new RangeError('a constant is not an integer');
  }
  if (fit === 'constants' && variant === 'full') {
    throw new RangeError('`full` takes new setups while it runs: fit it for the vehicle');
  }
  const root = packageRoot();
  const folder = join(root, 'targets', target.name);
  const script = await compileEs5({
    entry: join(folder, `${variant}.ts`),
    root,
    global: GLOBAL_NAME,
    keepFields: await publicNames(facesOf(variant, root, folder)),
    define: { AXLEWRIGHT_CONSTANTS: JSON.stringify(constants) },
    fitting: fittingFor(fit, constants, shape),
  });
  const engine = fit !== 'any' && shape !== 'smallest' ? { engine: shape } : {};
  const about = { target: target.name, variant, setups: [...setups], ...engine };
  const header = headerOf(about, constants.crc);
  const readable = withHeader(header, script.readable);
  const minified = withHeader(header, script.minified);
  const code = options.minify ? minified : readable;
  // The readable form gives useful lines; the size is that of what goes on the hub, fitted.
  const warnings = [readable, ...(options.minify ? [minified] : [])].map((text) =>
    checkBundle(text, target, { measure: text === minified && fit !== 'any' }),
  );
  return {
    code,
    bytes: code.length,
    parts: partsOf(script),
    warnings: warnings.find((findings) => findings.length > 0) ?? [],
  };
}

/** Modules whose exported interfaces a hub or a test sees in a bundle of that variant. */
function facesOf(variant: Variant, root: string, folder: string): string[] {
  const lib = ['signals', 'constants', 'loader'].map((name) => join(root, 'lib', `${name}.ts`));
  if (variant === 'core') return lib;
  return [...lib, join(root, 'lib/recorder.ts'), join(folder, 'ports.ts'), join(folder, 'boot.ts')];
}

/** The one global a bundle makes: the record its entry assigns to. */
const GLOBAL_NAME = 'axlewright';
