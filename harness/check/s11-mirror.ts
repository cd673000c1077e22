import {
  type Constants,
  type Controller,
  createInputs,
  createOutputs,
  MISSING,
  V,
} from '../../lib/index.ts';
import { count, createLimitLog, percent } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { mirrorConstants, mirrorFound, mirrorMotor, mirrorSetup, setupCrc } from './mirror.ts';
import type { Tick } from './tick.ts';

const TITLE = 'Mirrored inputs give exactly mirrored outputs';
const KINDS = ['spin', 'free', 'jam'] as const;

/** A monitor that also hears of setups that the core accepted. */
export interface MirrorMonitor extends LimitMonitor {
  put(slot: number, setup: readonly number[]): void;
}

/**
 * S11: mirrored inputs give exactly mirrored outputs. A second core drives the mirrored vehicle
 * beside the first; not a bit of a command may differ.
 *
 * @param createController of the core that is watched, for its own twin
 */
export function s11Mirror(
  createController: (constants: Constants) => Controller,
  constants: Constants,
): MirrorMonitor {
  const log = createLimitLog();
  const layout = constants.vehicle[V.LAYOUT]!;
  const twin = createController(mirrorConstants(constants));
  const inputs = createInputs();
  const outputs = createOutputs();

  function stepTwin(tick: Tick): void {
    const { inputs: given, motors } = tick;
    inputs.timeMs = given.timeMs;
    inputs.throttleUs = given.throttleUs;
    inputs.steerUs = given.steerUs;
    inputs.ageMs = given.ageMs;
    inputs.slot = tick.outputs.slot;
    inputs.guest = given.guest;
    inputs.batteryMv = given.batteryMv;
    inputs.yawRateMradS = given.yawRateMradS === MISSING ? MISSING : 0 - given.yawRateMradS;
    for (let i = 0; i < motors; i++) {
      const other = mirrorMotor(i, layout);
      inputs.currentMa[other] = given.currentMa[i]!;
      inputs.wheelDegS[other] = given.wheelDegS[i]!;
    }
    twin.step(inputs, outputs);
  }

  function compare(tick: Tick): void {
    const own = tick.outputs;
    for (let i = 0; i < tick.motors; i++) {
      const other = outputs.drive[mirrorMotor(i, layout)]!;
      if (own.drive[i] !== other) {
        log.breach(tick.atMs, 0, own.drive[i]!, other);
        return;
      }
    }
    if (own.steer !== 0 - outputs.steer) log.breach(tick.atMs, 1, own.steer, 0 - outputs.steer);
    else if (own.state !== outputs.state || own.cause !== outputs.cause) {
      log.breach(tick.atMs, 2, own.state, outputs.state);
    } else if (own.enable !== outputs.enable) log.breach(tick.atMs, 2, own.state, outputs.state);
    else compareFindings(tick);
  }

  function compareFindings({ atMs, outputs: own }: Tick): void {
    const found = mirrorFound(outputs.found, layout);
    if (own.found !== found) log.breach(atMs, 3, own.found, found);
    for (const kind of KINDS) {
      // Of a run only whole numbers are left.
      const isSame = own[kind] === outputs[kind] || own[kind] === (outputs[kind] | 0);
      if (!isSame) log.breach(atMs, 4, own[kind], outputs[kind]);
    }
  }

  return {
    id: 'S11',
    title: TITLE,
    observe(tick) {
      stepTwin(tick);
      compare(tick);
      if (tick.most > 0 && tick.outputs.steer !== 0) log.exercise(tick.atMs);
    },
    put: (slot, setup) => {
      const mirrored = mirrorSetup(setup);
      twin.offerSetup(slot, mirrored, setupCrc(mirrored));
    },
    verdict: () =>
      log.verdict(
        'S11',
        TITLE,
        () => `A mirrored twin gave the mirrored commands in ${count(log.count, 'turning tick')}.`,
        [
          (value, bound) =>
            `A motor was at ${percent(value)}, its mirrored twin at ${percent(bound)}.`,
          (value, bound) =>
            `The steering was at ${percent(value)}, its mirrored twin at ${percent(bound)}.`,
          (value, bound) => `The core was in state ${value}, its mirrored twin in ${bound}.`,
          (value, bound) => `The findings were ${value}, those of its mirrored twin ${bound}.`,
          (value, bound) =>
            `The confidence in a finding was ${percent(value)}, that of its ` +
            `mirrored twin ${percent(bound)}.`,
        ],
        'Nothing was driven with the wheel turned.',
      ),
  };
}
