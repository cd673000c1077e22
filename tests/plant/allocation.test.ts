import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { afterAll, beforeAll, expect, test } from 'vitest';

let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'axlewright-'));
});

afterAll(() => {
  rmSync(folder, { recursive: true });
});

const program = `
import { createPlant } from './harness/plant/plant.ts';
import { CARS } from './tests/plant/cars.ts';
const plants = CARS.map((car) => createPlant(car));
const drive = [700, 800, 700, 800];
const idle = [0, 0, 0, 0];
function go(steps) {
  for (const plant of plants)
    for (let i = 0; i < steps; i++)
      plant.step((i >> 11) & 1 ? idle : drive, 1, (i >> 3) & 511, 0.001);
}
// The engine first learns that the plants differ, then compiles for all of them.
for (let i = 0; i < 20; i++) go(4000);
for (let i = 0; i < 3; i++) go(25000);
for (let round = 0; round < 4; round++) {
  console.log('round');
  go(25000);
}
`;

// The engine may still compile during a round; a step that allocates does so in every round.
test('a step allocates nothing: a round of 200 000 steps with no collection of garbage', () => {
  const outfile = join(folder, 'plant.mjs');
  buildSync({
    stdin: { contents: program, resolveDir: process.cwd(), loader: 'ts' },
    bundle: true,
    platform: 'node',
    format: 'esm',
    outfile,
  });
  // A small nursery: two words a step would fill it several times in a round.
  const flags = ['--trace-gc', '--single-threaded', '--max-semi-space-size=1'];
  const { stdout, status } = spawnSync(process.execPath, [...flags, outfile], {
    encoding: 'utf8',
  });
  expect(status).toBe(0);
  const [cold, ...rounds] = stdout.split('round\n');
  // The flag reports what the start needs, so it would report the steps as well.
  expect(cold).toMatch(/Scavenge|Mark/);
  expect(rounds).toHaveLength(4);
  expect(rounds).toContain('');
});
