/** Which program a hub gets: the bare core, or the core with recorder, loader and ports. */
export type Variant = 'core' | 'full';

/**
 * The engine whose costs a script is shaped by: where state is kept, and what is written out. Every
 * shape runs on every engine, with the same bits; `any` suits most.
 */
export type EngineName = (typeof ENGINES)[number];

export const ENGINES = ['any', 'duktape', 'mujs', 'quickjs'] as const;

/** What one kind of hub is able to take. Each folder of `targets` has one. */
export interface Manifest {
  /** Name of the kind of hub; also the name of its folder. */
  readonly name: string;
  /** Language its engine understands; the gate refuses anything beyond. */
  readonly language: 'es5';
  /** The engine it runs, if all of its kind run the same; else `any`. */
  readonly engine: EngineName;
  /** Greatest size of a minified program with one setup, bytes. */
  readonly maxBytes: Readonly<Record<Variant, number>>;
  /** Allowance for each setup after the first, bytes. */
  readonly maxBytesPerFurtherSetup: number;
  /** Heap the hub leaves to the program, bytes; 0 = not known. */
  readonly heapBytes: number;
  /** Time between ticks at which the hub calls the core, ms. */
  readonly tickMs: number;
  /** Names of the functions a hub's record of ports may hold; the only foreign calls allowed. */
  readonly ports: readonly string[];
}
