import { crc32 } from 'node:zlib';
import type { EngineName, Variant } from '../manifest.ts';
import { packageVersion } from '../package-version.ts';

/** What the first line of a bundle says; see targets/SPEC.md. */
export interface BundleHeader {
  /** Version of axlewright that built it. */
  version: string;
  /** Name of the kind of hub it was built for. */
  target: string;
  variant: Variant;
  /** The engine it is shaped for; left out = for none. */
  engine?: EngineName;
  /** Names of the setups on board, slot 0 first. */
  setups: string[];
  /** CRC-32 of the constants, as in `Constants.crc`, eight hexadecimal digits. */
  constants: string;
  /** CRC-32 of everything after the first line feed, eight hexadecimal digits. */
  crc: string;
}

/** The result of `verifyBundle`: the header, or what is wrong and what to do. */
export type Verified =
  | { header: BundleHeader; problem?: undefined }
  | { header?: undefined; problem: string };

const LINE = new RegExp(
  /^\/\/ axlewright (\S+); target ([\w-]+) (core|full)/.source +
    /(?:; engine (duktape|mujs|quickjs))?; setups/.source +
    / ([\w.,-]+); constants ([0-9a-f]{8}); crc ([0-9a-f]{8})$/.source,
);

/**
 * Reads the first line of a bundle and checks the CRC it gives against the code that follows.
 *
 * @param code the whole bundle
 */
export function verifyBundle(code: string): Verified {
  const end = code.indexOf('\n');
  const found = end < 0 ? null : LINE.exec(code.slice(0, end));
  if (found === null) {
    return {
      problem: 'the first line is no bundle header; build the file with `axlewright build`',
    };
  }
  const [, version, target, variant, engine, setups, constants, crc] = found as unknown as string[];
  const actual = hex32(crc32(code.slice(end + 1)));
  if (actual !== crc) {
    return {
      problem:
        `the code has CRC-32 ${actual}, the header says ${crc}; the file was changed or cut off, ` +
        'build or copy it again',
    };
  }
  return {
    header: {
      version: version!,
      target: target!,
      variant: variant as Variant,
      ...(engine !== undefined && { engine: engine as EngineName }),
      setups: setups!.split(','),
      constants: constants!,
      crc: crc!,
    },
  };
}

/** What this version of axlewright says of a bundle with that CRC of its constants. */
export function headerOf(
  about: Pick<BundleHeader, 'target' | 'variant' | 'setups' | 'engine'>,
  crc: number,
): Omit<BundleHeader, 'crc'> {
  return { version: packageVersion(), ...about, constants: hex32(crc) };
}

/** Puts the header line in front of the code. */
export function withHeader(header: Omit<BundleHeader, 'crc'>, code: string): string {
  const { version, target, variant, engine, setups, constants } = header;
  const shaped = engine === undefined || engine === 'any' ? '' : `; engine ${engine}`;
  const crc = hex32(crc32(code));
  const line =
    `// axlewright ${version}; target ${target} ${variant}${shaped}; ` +
    `setups ${setups.join(',')}; constants ${constants}; crc ${crc}`;
  if (!LINE.test(line)) {
    throw new RangeError(`setup and target names must match [A-Za-z0-9_.-]+: ${line}`);
  }
  return `${line}\n${code}`;
}

/** A 32-bit number, signed or not, as eight hexadecimal digits. */
export function hex32(value: number): string {
  return (value >>> 0).toString(16).padStart(8, '0');
}
