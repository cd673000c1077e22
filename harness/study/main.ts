import { Command, InvalidArgumentError } from 'commander';
import { judgeGoals } from './goals.ts';
import { loadStudyGarages, studyGarage } from './load-study-garages.ts';
import { planDrives } from './plan-drives.ts';
import { runStudy } from './run-study.ts';
import { studyText } from './study-text.ts';
import type { Tally } from './tally.ts';

const program = new Command('study:traction')
  .description('how well loss of traction is told from the currents, over simulated drives')
  .option('--drives <n>', 'drives with and without faults', whole, 2400)
  .option('--hours <n>', 'hours of hard driving for the false alarms', whole, 40)
  .option('--seed <n>', 'of all drives', whole, 1)
  .option('--json', 'print JSON')
  .parse();

const { drives, hours, seed, json } = program.opts<{
  drives: number;
  hours: number;
  seed: number;
  json?: boolean;
}>();
/** A drive of hard driving lasts half a minute and a little more for arming. */
const DRIVES_AN_HOUR = 118;

const garages = [...(await loadStudyGarages())].map(([name, garage]) => studyGarage(name, garage));
const everything = await run('everything', drives);
const hard = await run('hard', hours * DRIVES_AN_HOUR);
console.log(
  json === true
    ? JSON.stringify({ goals: judgeGoals(everything, hard), everything, hard }, plain, 2)
    : studyText(everything, hard),
);

function run(set: 'everything' | 'hard', count: number): Promise<Tally> {
  const all = planDrives(garages, set, count, set === 'hard' ? seed + 1_000_000 : seed);
  let told = 0;
  return runStudy(all, (done) => {
    if (process.stderr.isTTY) process.stderr.write(`\r${set}: ${done} of ${count} drives `);
    else if (done - told >= count / 4 || done === count) {
      told = done;
      process.stderr.write(`${set}: ${done} of ${count} drives\n`);
    }
  });
}

function whole(text: string): number {
  const value = Number(text);
  if (Number.isSafeInteger(value) && value >= 1) return value;
  throw new InvalidArgumentError('Expected a whole number of 1 or more.');
}

/** Maps as plain records. */
function plain(_key: string, value: unknown): unknown {
  return value instanceof Map ? Object.fromEntries(value) : value;
}
