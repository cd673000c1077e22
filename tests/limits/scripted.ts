import { createLimitCheck, LIMITS } from '../../harness/check/limit-check.ts';
import type { LimitVerdict } from '../../harness/check/limit-monitor.ts';
import { setupCrc } from '../../harness/check/mirror.ts';
import {
  type Constants,
  createController,
  createInputs,
  createOutputs,
  type Inputs,
  type Outputs,
  V,
} from '../../lib/index.ts';
import type { Core } from './judge.ts';

/** A leg of a scripted drive: sticks and samples that stay as they are for some ticks. */
export interface Leg {
  ticks: number;
  /** Stick positions, permille; default 0. */
  throttle?: number;
  steer?: number;
  slot?: number;
  guest?: number;
  /** Default 7400. */
  batteryMv?: number;
  /** Current of each motor; default 0. */
  currentMa?: (outputs: Outputs) => number[];
  /** Step of the clock, ms; default the nominal tick. */
  stepMs?: number;
  /** A setup offered before the first tick of the leg, with its right CRC unless one is given. */
  offer?: { slot: number; setup: number[]; crc?: number };
  /** Anything else a field is to hold. */
  raw?: Partial<Record<keyof Inputs, unknown>>;
}

/** What a scripted drive came to. */
export interface Scripted {
  verdicts: Record<string, LimitVerdict>;
  /** What was commanded in each tick. */
  ticks: Outputs[];
}

/** The healthy core. */
const HEALTHY: Core = { name: 'the core', createController };

/** Drives through the legs and judges by all limits. The first tick lies at 0 ms. */
export function scripted(
  constants: Constants,
  legs: readonly Leg[],
  core: Core = HEALTHY,
): Scripted {
  const check = createLimitCheck(constants, core.createController, LIMITS);
  const controller = core.createController(constants);
  const inputs = createInputs();
  const outputs = createOutputs();
  const ticks: Outputs[] = [];
  let now = 0;
  for (const leg of legs) {
    if (leg.offer) {
      const { slot, setup, crc = setupCrc(setup) } = leg.offer;
      check.offered(slot, setup, crc, controller.offerSetup(slot, setup, crc));
    }
    for (let i = 0; i < leg.ticks; i++) {
      if (ticks.length > 0) now = (now + (leg.stepMs ?? constants.vehicle[V.TICK_MS]!)) | 0;
      fill(inputs, outputs, leg, now);
      try {
        controller.step(inputs, outputs);
        check.observe(inputs, outputs);
      } catch (error) {
        check.threw(error);
      }
      ticks.push({ ...outputs, drive: [...outputs.drive] });
    }
  }
  const verdicts = Object.fromEntries(check.verdicts().map((verdict) => [verdict.id, verdict]));
  return { verdicts, ticks };
}

function fill(inputs: Inputs, outputs: Outputs, leg: Leg, now: number): void {
  inputs.timeMs = now;
  inputs.throttleUs = 1500 + (leg.throttle ?? 0) / 2;
  inputs.steerUs = 1500 + (leg.steer ?? 0) / 2;
  inputs.ageMs = 0;
  inputs.slot = leg.slot ?? 0;
  inputs.guest = leg.guest ?? 0;
  inputs.batteryMv = leg.batteryMv ?? 7400;
  inputs.yawRateMradS = 0;
  inputs.currentMa = leg.currentMa?.(outputs) ?? [0, 0, 0, 0];
  inputs.wheelDegS = [0, 0, 0, 0];
  Object.assign(inputs, leg.raw);
}

/** Neutral sticks until the core is armed: with a hold time of 300 ms that is at 300 ms. */
export const ARM: Leg = { ticks: 31 };
