import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { demoGarage } from '../demo/create-garage.ts';
import { replay } from '../replay/replay.ts';
import { planReplay } from '../replay/replay-plan.ts';
import { readRun } from '../runs/read-run.ts';
import type { RunChunk } from '../runs/run-chunk.ts';
import { writeRun } from '../runs/write-run.ts';
import type { Figure, FigureSource } from './figure.ts';
import { figureBundle } from './figure-bundle.ts';

const DEMO_RUN = join(demoGarage('hatch'), 'runs/hall-evening.csv');

/** Time and memory of a replay from disk to the verdict on every limit, for one hour at 100 Hz. */
export const replaySpeed: FigureSource = {
  name: 'replay',
  async measure() {
    const folder = await mkdtemp(join(tmpdir(), 'axlewright-figures-'));
    try {
      const short = await measureRun(join(folder, 'short.csv'), 6);
      const hour = await measureRun(join(folder, 'hour.csv'), 60);
      return [
        figure('replay of an hour at 100 Hz, disk to verdict', hour.seconds, 's', 1.5),
        figure('reading of it alone', hour.readSeconds, 's'),
        figure('replay against real time', hour.runSeconds / hour.seconds, 'times'),
        figure('most memory, an hour', hour.megabytes, 'MB'),
        figure(
          'most memory, an hour over six minutes',
          hour.megabytes / short.megabytes,
          'ratio',
          1.5,
        ),
      ];
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  },
};

function figure(what: string, value: number, unit: string, most?: number): Figure {
  const digits = Math.round(value * 100) / 100;
  return { what, where: 'node', value: digits, unit, ...(most === undefined ? {} : { most }) };
}

interface Measured {
  runSeconds: number;
  seconds: number;
  readSeconds: number;
  megabytes: number;
}

/** @param minutes how often the demo run of a minute is laid end to end */
async function measureRun(path: string, minutes: number): Promise<Measured> {
  await repeated(path, minutes);
  const plan = await planReplay(path, { garage: demoGarage('hatch'), setup: ['vinyl'] });
  // What `axlewright replay` runs: the mirrored twin has other constants.
  const bundle = await figureBundle('core', { sensors: true, fades: false, fit: 'any' });
  const options = {
    run: path,
    read: {},
    bundle: bundle.code,
    constants: plan.constants,
    engine: 'node' as const,
    aside: true,
  };
  let begin = process.hrtime.bigint();
  for await (const _ of readRun(path));
  const readSeconds = Number(process.hrtime.bigint() - begin) / 1e9;
  let most = 0;
  begin = process.hrtime.bigint();
  const result = await replay({
    ...options,
    onChunk: () => {
      most = Math.max(most, process.memoryUsage().rss);
    },
  });
  const seconds = Number(process.hrtime.bigint() - begin) / 1e9;
  if (!result.held) throw new Error('a safety limit broke in the run of the figures');
  return { runSeconds: result.durationS, seconds, readSeconds, megabytes: most / 2 ** 20 };
}

/** Writes the demo run end to end with its clock running on. */
async function repeated(path: string, times: number): Promise<void> {
  const first: RunChunk[] = [];
  for await (const chunk of readRun(DEMO_RUN)) first.push(chunk);
  const names = first[0]!.header.names;
  const last = first.at(-1)!.columns.get('time_ms')!.at(-1)!;
  await writeRun(path, names, copies(first, times, last + 10));
}

function* copies(chunks: readonly RunChunk[], times: number, periodMs: number) {
  for (let copy = 0; copy < times; copy++) {
    for (const chunk of chunks) {
      const time = chunk.columns.get('time_ms')!.map((ms) => ms + copy * periodMs);
      yield { ...chunk, columns: new Map(chunk.columns).set('time_ms', time) };
    }
  }
}
