import { Command, InvalidArgumentError } from 'commander';
import { UserError } from '../problems.ts';
import { planReplay } from '../replay/replay-plan.ts';
import { judgeGoals } from './goals.ts';
import { loadStudyGarages, studyGarage } from './load-study-garages.ts';
import { parseWhole } from './parse-whole.ts';
import { planDrives, type StudyGarage } from './plan-drives.ts';
import { runStudy } from './run-study.ts';
import { type RunWindow, showRun } from './show-run.ts';
import { studyText } from './study-text.ts';
import type { Tally } from './tally.ts';

const program = new Command('study:traction')
  .description('how well loss of traction is told from the currents, over simulated drives')
  .option('--drives <n>', 'drives with and without faults', parseWhole, 2400)
  .option('--hours <n>', 'hours of hard driving for the false alarms', parseWhole, 40)
  .option('--seed <n>', 'of all drives', parseWhole, 1)
  .option('--json', 'print JSON')
  .option('--run <file>', 'show what is found in this run instead, by its own commands')
  .option('--garage <dir>', 'of the vehicle of the run')
  .option('--setup <name>', 'its words for the findings')
  .option('--window <from-to...>', 'seconds of the run, as 29.1-31.5', windows, [])
  .parse();

const { drives, hours, seed, json, ...shown } = program.opts<{
  drives: number;
  hours: number;
  seed: number;
  json?: boolean;
  run?: string;
  garage?: string;
  setup?: string;
  window: RunWindow[];
}>();
/** A drive of hard driving lasts half a minute, one in five of start after start a third less. */
const DRIVES_AN_HOUR = 126;

if (shown.run === undefined) await study();
else await show(shown.run);

async function show(file: string): Promise<void> {
  const { garage, setup, window } = shown;
  try {
    const { constants } = await planReplay(file, {
      ...(garage !== undefined && { garage }),
      ...(setup !== undefined && { setup: [setup] }),
    });
    console.log(await showRun(file, constants, window));
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    console.error(error.message);
    process.exitCode = 2;
  }
}

async function study(): Promise<void> {
  const garages = [...(await loadStudyGarages())].map(([name, garage]) =>
    studyGarage(name, garage),
  );
  const everything = await run(garages, 'everything', drives);
  const hard = await run(garages, 'hard', hours * DRIVES_AN_HOUR);
  console.log(
    json === true
      ? JSON.stringify(
          {
            goals: judgeGoals(everything, hard),
            coldGoals: judgeGoals(everything, hard, true),
            everything,
            hard,
          },
          plain,
          2,
        )
      : studyText(everything, hard),
  );
}

function run(garages: StudyGarage[], set: 'everything' | 'hard', count: number): Promise<Tally> {
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

/** Maps as plain records. */
function plain(_key: string, value: unknown): unknown {
  return value instanceof Map ? Object.fromEntries(value) : value;
}

/** One more of `--window`. */
function windows(text: string, before: RunWindow[]): RunWindow[] {
  const [from, to, ...more] = text.split('-').map(Number);
  if (more.length === 0 && from !== undefined && to !== undefined && from < to)
    return [...before, { from, to }];
  throw new InvalidArgumentError('Expected two times in seconds, as 29.1-31.5.');
}
