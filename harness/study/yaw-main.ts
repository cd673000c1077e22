import { Command } from 'commander';
import { judgeYaw } from './judge-yaw.ts';
import { parseWhole } from './parse-whole.ts';
import { studyYaw, yawGarage } from './study-yaw.ts';
import { yawTable } from './yaw-table.ts';

const program = new Command('study:yaw')
  .description('shows what yaw assist does over friction, and with a gyro that sticks')
  .option('--repeats <count>', 'cars and gyros drawn for each setup and manoeuvre', parseWhole, 12)
  .option('--seed <number>', 'of all draws', parseWhole, 2)
  .option('--json', 'print JSON')
  .parse();

const { repeats, seed, json } = program.opts<{ repeats: number; seed: number; json?: boolean }>();
let told = 0;
const results = studyYaw(await yawGarage(), { repeats, seed, progress: tell });
const verdict = judgeYaw(results);
process.stdout.write(json ? `${JSON.stringify(verdict, null, 2)}\n` : `${yawTable(verdict)}\n`);
if (verdict.goals.some(({ isMet }) => !isMet)) process.exitCode = 1;

function tell(done: number, of: number): void {
  const tenth = Math.floor((10 * done) / of);
  if (tenth === told) return;
  told = tenth;
  process.stderr.write(`${done} of ${of} bends\n`);
}
