/** A whole block of lib/SPEC.md. */
export interface Block {
  sequence: number;
  motors: number;
  /** CRC-32 of the constants that were driven with, signed. */
  constants: number;
  /** CRC-32 of the block before it, signed; 0 for the first after power-up. */
  before: number;
  crc: number;
  bytes: number;
  /** In the order of time, each as words of the layout in lib/SPEC.md. */
  records: Int32Array[];
}

/** What a recorder kept from one power-up to the next, or to the end. */
export interface PowerUp {
  motors: number;
  /** CRC-32 of the constants that were driven with, signed. */
  constants: number;
  /** In the order of time, each as words of the layout in lib/SPEC.md. */
  records: Int32Array[];
  /** Whether the first tick after power-up is among them. */
  startsAtPowerUp: boolean;
  /** What is missing between its blocks, in the reader's words. */
  losses: string[];
}

/**
 * Sorts blocks into power-ups. A block that is named by the next one belongs to the same; where
 * blocks are missing, the next stretch is the one that goes on counting, with the same constants
 * and no earlier in time.
 *
 * @param blocks as they lie in the dump
 * @returns in the order in which they end in the dump
 */
export function gatherPowerUps(blocks: readonly Block[]): PowerUp[] {
  const stretches: Block[][] = [];
  const owners = new Map<string, Block[]>();
  for (const block of inOrder(blocks)) {
    const forerunner = `${block.sequence - 1} ${block.before}`;
    const owner = owners.get(forerunner);
    let stretch = owner === undefined ? goesOn(stretches, block) : upTo(owner, forerunner);
    if (stretch === undefined || !stretches.includes(stretch)) {
      stretch ??= [];
      stretches.push(stretch);
    }
    stretch.push(block);
    owners.set(nameOf(block), stretch);
  }
  const place = new Map(blocks.map((block, i) => [block, i]));
  const end = (stretch: Block[]) => place.get(stretch.at(-1)!)!;
  return stretches.sort((a, b) => end(a) - end(b)).map(powerUpOf);
}

/** Without what is there twice, such as a file that was appended to itself. */
function inOrder(blocks: readonly Block[]): Block[] {
  const apart = new Map(blocks.map((block) => [nameOf(block), block]));
  return [...apart.values()].sort((a, b) => a.sequence - b.sequence);
}

function nameOf(block: Block): string {
  return `${block.sequence} ${block.crc}`;
}

/** A stretch that ends with the block of that name; a copy if it went on: the start was alike. */
function upTo(stretch: Block[], name: string): Block[] {
  const index = stretch.findIndex((block) => nameOf(block) === name);
  return index === stretch.length - 1 ? stretch : stretch.slice(0, index + 1);
}

/** The stretch that a block whose forerunner is missing goes on with, the latest that can be. */
function goesOn(stretches: readonly Block[][], block: Block): Block[] | undefined {
  const fits = stretches.filter((stretch) => {
    const last = stretch.at(-1)!;
    return (
      last.sequence < block.sequence - 1 &&
      last.constants === block.constants &&
      last.motors === block.motors &&
      timeOf(last) < timeOf(block)
    );
  });
  return fits.sort((a, b) => b.at(-1)!.sequence - a.at(-1)!.sequence)[0];
}

function timeOf(block: Block): number {
  return block.records[0]?.[0] ?? 0;
}

function powerUpOf(stretch: Block[]): PowerUp {
  const { sequence, motors, constants } = stretch[0]!;
  const losses: string[] = [];
  for (let i = 1; i < stretch.length; i++) {
    const missing = stretch[i]!.sequence - stretch[i - 1]!.sequence - 1;
    if (missing === 0) continue;
    losses.push(`${missing} blocks are missing before block ${stretch[i]!.sequence}`);
  }
  return {
    motors,
    constants,
    records: stretch.flatMap((block) => block.records),
    startsAtPowerUp: sequence === 0,
    losses,
  };
}
