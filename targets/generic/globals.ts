import type { Constants } from '../../lib/constants.ts';

declare global {
  /** The record a bundle's entry assigns to; the build declares it in front of everything. */
  const axlewright: Record<string, unknown>;
  /** Replaced by the baked constants when a bundle is built. */
  const AXLEWRIGHT_CONSTANTS: Constants;
}
