import type { Layout } from '../../lib/codes.ts';
import type { Constants } from '../../lib/constants.ts';

/** What is known of a run beside its rows. All of it may be left out. */
export interface RunMetadata {
  /** Decides the motors and so the columns. */
  layout?: Layout;
  /** Name of the vehicle, as in the garage. */
  vehicle?: string;
  /** Names of the setups on board, by slot. */
  setups?: string[];
  /** Names the setups and the vehicle they were baked with. */
  setupHash?: string;
  /** The baked integers the run was driven with: all that a later verification needs. */
  constants?: Constants;
  /** Version of the core that recorded it. */
  coreVersion?: string;
  surface?: string;
  /** Seed of the random draws, if any were made. */
  seed?: string;
  /** How the run came about, in a sentence. */
  origin?: string;
  /** true = its first row is the core's first tick, so that a replay starts in the same state. */
  startsAtPowerUp?: boolean;
  notes?: string[];
  /** Number of rows written; the writer counts them. */
  rows?: number;
  /** Header of each column described; filled in when metadata are read. */
  columns?: string[];
  /** Other annotations, by their full names; kept as they are. */
  other?: Record<string, unknown>;
}

/** Path of a run's metadata: the first default location of the Recommendation. */
export function metadataPath(runPath: string): string {
  return `${runPath}-metadata.json`;
}

/**
 * Begins the full name of each annotation of ours; a reserved domain (RFC 2606), never looked up.
 */
export const NAMESPACE = 'https://axlewright.example/run#';

/** Value of `@context` in every document by the Recommendation. */
export const CONTEXT = 'http://www.w3.org/ns/csvw';

/** Name of the annotation that holds a note. */
export const NOTE = 'dc:description';
