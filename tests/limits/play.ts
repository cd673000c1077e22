import { setupCrc } from '../../harness/check/mirror.ts';
import {
  type Constants,
  type Controller,
  createInputs,
  createOutputs,
  type Inputs,
  MISSING,
  type Outputs,
  S,
  V,
} from '../../lib/index.ts';
import { armingMs, type Drive, MOST_TICKS, type Offer, type Segment } from './arbitrary-drive.ts';
import { createClockPlan } from './clock-plan.ts';
import { createNoise, type Noise } from './noise.ts';
import { createSensorPlan } from './sensor-plan.ts';

/** What a drive shows to who watches it. */
export interface Watcher {
  /** Called before a step, with the inputs as the hub hands them over. */
  before?(inputs: Inputs): void;
  /** Called after a step. */
  after(inputs: Inputs, outputs: Outputs): void;
  /** Called if a step threw; the drive goes on with the next tick. */
  threw(error: unknown): void;
  offered(slot: unknown, setup: unknown, crc: number, accepted: number): void;
}

/** Anything but a servo pulse, a time or a sample. */
const JUNK: readonly unknown[] = [
  ...[Number.NaN, Infinity, -Infinity, 1e300, -1e300, 2 ** 31, 2 ** 32 + 1500, 32768, -0],
  ...[1500.5, 1e-9, 'full ahead', '1500', '', null, undefined, true, {}, [], [1500]],
  ...[Symbol('pulse'), 1500n, () => 1500, MISSING, -1, 70000],
];

/** Drives a controller through a drive, tick by tick; the same drive gives the same ticks. */
export function play(controller: Controller, drive: Drive, watcher: Watcher): void {
  const { constants, segments } = drive;
  const tickMs = constants.vehicle[V.TICK_MS]!;
  const inputs = createInputs();
  const outputs = createOutputs();
  const clock = createClockPlan(drive.startMs, tickMs, constants.vehicle[V.GAP_MS]!);
  const sensors = createSensorPlan(constants);
  let age = 0;
  for (const segment of segments) {
    if (segment.offer) offer(controller, segment.offer, watcher);
    const noise = createNoise(segment.seed);
    const count = segment.arm ? armingMs(constants) / tickMs + 4 : segment.ms / tickMs;
    const ticks = Math.min(MOST_TICKS, Math.ceil(count));
    for (let i = 0; i < ticks; i++) {
      inputs.timeMs = clock.next(segment.clock, i, noise);
      age = link(inputs, segment, i, ticks, constants, age, noise);
      sensors.fill(inputs, outputs, segment.sensors, noise);
      inputs.slot = segment.slot;
      inputs.guest = segment.guest ? 1 : 0;
      if (segment.junk > 0) litter(inputs, segment.junk, noise);
      watcher.before?.(inputs);
      try {
        controller.step(inputs, outputs);
      } catch (error) {
        watcher.threw(error);
        continue;
      }
      watcher.after(inputs, outputs);
    }
  }
}

/** Fills pulses and age; returns the age the next tick counts on from, ms. */
function link(
  inputs: Inputs,
  segment: Segment,
  i: number,
  ticks: number,
  { vehicle, setups }: Constants,
  age: number,
  noise: Noise,
): number {
  const tickMs = vehicle[V.TICK_MS]!;
  inputs.throttleUs = pulse(
    vehicle,
    V.THROTTLE_LOW_US,
    stick(segment, 'throttle', i, ticks, noise),
  );
  inputs.steerUs = pulse(vehicle, V.STEER_LOW_US, stick(segment, 'steer', i, ticks, noise));
  inputs.ageMs = noise.below(tickMs + 1);
  if (segment.link === 'fresh') return inputs.ageMs;
  if (segment.link === 'lagging') inputs.ageMs = noise.below(setups[0]![S.HOLD_MS]! + 20);
  if (segment.link === 'ageing') inputs.ageMs = Math.min(age + tickMs, 32767);
  const bad = segment.link === 'flickering' ? noise.below(3) === 0 : true;
  if (bad && segment.link === 'missing') inputs.ageMs = MISSING;
  const out = segment.link === 'out of range' || segment.link === 'flickering';
  if (bad && out) {
    const low = noise.below(2) === 0 ? V.THROTTLE_LOW_US : V.STEER_LOW_US;
    const beyond = vehicle[V.PULSE_MARGIN_US]! + 1 + noise.below(900);
    const ends = [vehicle[low]! - beyond, vehicle[low + 2]! + beyond];
    const us = ends[noise.below(2)]!;
    if (low === V.THROTTLE_LOW_US) inputs.throttleUs = us;
    else inputs.steerUs = us;
  }
  return inputs.ageMs;
}

/** Position of a stick, -1000 to 1000. */
function stick(
  segment: Segment,
  channel: 'throttle' | 'steer',
  i: number,
  ticks: number,
  noise: Noise,
): number {
  if (segment.arm) return 0;
  const { kind, from, to } = segment[channel];
  if (kind === 'hold') return from;
  if (kind === 'ramp') return from + ((to - from) * i) / ticks;
  return Math.max(-1000, Math.min(1000, from + noise.below(401) - 200));
}

function pulse(vehicle: readonly number[], low: number, position: number): number {
  const centre = vehicle[low + 1]!;
  const end = position < 0 ? vehicle[low]! : vehicle[low + 2]!;
  return Math.round(centre + ((end - centre) * Math.abs(position)) / 1000);
}

function litter(inputs: Inputs, percent: number, noise: Noise): void {
  const fields = inputs as unknown as Record<string, unknown>;
  for (const name of Object.keys(fields)) {
    const field = fields[name];
    if (Array.isArray(field)) litterList(field, percent, noise);
    else if (noise.below(100) < percent) fields[name] = JUNK[noise.below(JUNK.length)];
  }
}

function litterList(list: unknown[], percent: number, noise: Noise): void {
  for (let i = 0; i < list.length; i++) {
    if (noise.below(100) < percent) list[i] = JUNK[noise.below(JUNK.length)];
  }
}

function offer(controller: Controller, { slot, setup, fault }: Offer, watcher: Watcher): void {
  const given: unknown[] = [...setup];
  let crc = setupCrc(setup);
  if (fault === 'crc') crc = crc ^ 1;
  if (fault === 'bit') given[S.RISE] = (given[S.RISE] as number) ^ 1;
  if (fault === 'range') given[S.NEUTRAL_MS] = 0;
  if (fault === 'fraction') given[S.THROTTLE_EXPO] = 0.5;
  if (fault === 'short') given.pop();
  if (fault === 'long') given.push(0);
  if (fault === 'hole') delete given[S.HOLD_MS];
  if (fault === 'range') crc = setupCrc(given as number[]);
  const what = fault === 'nothing' ? null : given;
  const accepted = controller.offerSetup(slot as number, what as number[], crc);
  watcher.offered(slot, what, crc, accepted);
}
