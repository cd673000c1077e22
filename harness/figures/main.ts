import { Command } from 'commander';
import { bundleBytesByPart } from './bundle-bytes.ts';
import type { Figure, FigureSource } from './figure.ts';
import { missesGoal } from './figure.ts';
import { heapGrowthPerTick } from './heap-growth.ts';
import { instructionsPerTick } from './instructions.ts';
import { plantSpeed } from './plant-speed.ts';
import { replaySpeed } from './replay-speed.ts';
import { stepHalving } from './step-halving.ts';
import { figureTable } from './table.ts';

/** Every group of figures; a new one is a file of its own and a line here. */
const SOURCES: readonly FigureSource[] = [
  bundleBytesByPart,
  instructionsPerTick,
  heapGrowthPerTick,
  replaySpeed,
  plantSpeed,
  stepHalving,
];

const program = new Command('figures')
  .description('measures what the README states, each number beside its goal')
  .option('--json', 'print JSON')
  .option('--only <names...>', `of ${SOURCES.map(({ name }) => name).join(', ')}`)
  .parse();

const { json, only } = program.opts<{ json?: boolean; only?: string[] }>();
for (const name of only ?? []) {
  if (!SOURCES.some((source) => source.name === name)) program.error(`no figures called ${name}`);
}

const figures: Figure[] = [];
for (const source of SOURCES) {
  if (only !== undefined && !only.includes(source.name)) continue;
  process.stderr.write(`measuring ${source.name} ...\n`);
  figures.push(...(await source.measure()));
}
console.log(json ? JSON.stringify(figures, null, 2) : figureTable(figures));
if (figures.some(missesGoal)) process.exitCode = 1;
