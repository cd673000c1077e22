import {
  type Constants,
  createController,
  createInputs,
  createOutputs,
  type Outputs,
  S,
  State,
  V,
} from '../../lib/index.ts';
import { type Drive, MOST_TICKS } from './arbitrary-drive.ts';
import { createLossPlan } from './loss-plan.ts';
import { play } from './play.ts';
import { sourceCore } from './source-core.ts';

/** What two cores beside each other came to. */
export interface Lowered {
  /** Commands of the second core below those of the first. */
  below: number;
  /** Ticks that were compared with a motor under way. */
  compared: number;
  /** The first tick in which the second core raised a motor above the first one's; else ''. */
  raised: string;
}

/**
 * Drives a core that only reports beside one that reacts, over the same inputs, with currents that
 * give findings, and compares every motor's magnitude in every tick.
 *
 * What lowers also stands sooner: after a stop, and after a change of direction, the second core is
 * at rest and may set off while the first is still on its way. So both are compared while the same
 * is asked of them, until the demand changes its sign or one of them alone is armed, and again
 * when both have rested for as long as any rest between directions. And in falling the slew stage
 * spreads the way over the motors, so a motor may fall later than the first one's: an excess
 * counts unless its motor only falls or it has come from such a fall and does not grow.
 *
 * @param other constants of the second core
 * @param core that reacts
 */
export function playLowered(drive: Drive, other: Constants, core = sourceCore): Lowered {
  const { constants } = drive;
  const { vehicle } = constants;
  const second = core.createController(other);
  const inputs = createInputs();
  const outputs = createOutputs();
  const motors = vehicle[V.MOTORS]!;
  const resting = restTicks(constants);
  const plan = createLossPlan(constants);
  const result: Lowered = { below: 0, compared: 0, raised: '' };
  const before = [0, 0, 0, 0];
  const excess = [0, 0, 0, 0];
  let own = createOutputs();
  let isTogether = true;
  let rested = resting;
  let way = 0;
  play(createController(constants), drive, {
    before(given) {
      plan.fill(given, own);
      Object.assign(inputs, given, { currentMa: [...given.currentMa] });
    },
    after(given, first) {
      own = first;
      second.step(inputs, outputs);
      follow(first);
      for (let m = 0; m < motors; m++) watch(m, first, given.timeMs);
      if (isTogether && first.drive.some((d) => d !== 0)) result.compared++;
    },
    threw(error) {
      throw error;
    },
    offered: () => undefined,
  });
  return result;

  function follow(first: Outputs): void {
    const still = [...first.drive, ...outputs.drive].every((d) => d === 0);
    rested = still ? rested + 1 : 0;
    const same = armed(first) === armed(outputs) && first.demand === outputs.demand;
    const sign = Math.sign(first.demand);
    if (sign * way < 0 || !(same || (outputs.demand === 0 && armed(first)))) isTogether = false;
    if (rested > resting && same) isTogether = true;
    if (sign !== 0) way = sign;
  }

  function watch(m: number, first: Outputs, timeMs: number): void {
    const now = Math.abs(outputs.drive[m]!);
    const over = Math.max(0, now - Math.abs(first.drive[m]!));
    // What the gates cut off may differ by one.
    const rises = now > before[m]! && over > Math.max(1, excess[m]!);
    if (isTogether && rises && result.raised === '')
      result.raised = `motor ${m} at ${first.drive} rose to ${outputs.drive} (clock at ${timeMs})`;
    if (isTogether && now < Math.abs(first.drive[m]!)) result.below++;
    before[m] = now;
    excess[m] = over;
  }
}

function armed({ state }: Outputs): boolean {
  return state === State.READY || state === State.DRIVING;
}

/** Ticks that any rest between two directions takes. */
function restTicks({ vehicle, setups }: Constants): number {
  const dwell = Math.max(...setups.map((setup) => setup[S.DWELL_MS]!));
  return Math.min(MOST_TICKS, vehicle[V.GATE_DWELL]! + Math.ceil(dwell / vehicle[V.TICK_MS]!) + 2);
}
