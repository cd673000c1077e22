import type { Constants } from '../../lib/constants.ts';
import type { Controller } from '../../lib/loader.ts';
import type { Inputs, Outputs } from '../../lib/signals.ts';
import { createStream } from './stream.ts';

/** What a bundle, or the TypeScript source, offers. */
export interface CoreApi {
  constants: Constants;
  createController(constants: Constants): Pick<Controller, 'step'> & Partial<Controller>;
  createInputs(): Inputs;
  createOutputs(): Outputs;
}

/**
 * Numbers in a row: time, throttle, steer, age, slot, guest, supply, yaw rate, four currents, four
 * wheels.
 */
export const ROW_WIDTH = 16;

/** What is printed while driving. */
export type Print = (text: string) => void;

/**
 * Drives a core with generated inputs, garbage among them, and prints a digest of every bit of its
 * outputs: `tick digest` after every `every` ticks. This code runs in every engine: ES5, and only
 * integers are printed, since engines print other numbers differently.
 *
 * @param seed start of the stream, a 32-bit integer other than 0
 * @param ticks number of ticks, a multiple of `every`
 * @param motors number of the vehicle's motors
 * @param crcs CRC-32 of each setup on board, to offer them anew; signed 32-bit
 */
export function driveStream(
  core: CoreApi,
  seed: number,
  ticks: number,
  every: number,
  motors: number,
  crcs: number[],
  print: Print,
): void {
  const controller = core.createController(core.constants);
  const inputs = core.createInputs();
  const outputs = core.createOutputs();
  const stream = createStream(seed, crcs.length);
  const digest = createDigest(motors);
  for (let tick = 1; tick <= ticks; tick++) {
    stream.fill(inputs, outputs);
    const slot = stream.offer();
    // The bare core takes no new setups.
    if (slot >= 0 && controller.offerSetup) {
      const setup = core.constants.setups[slot]!;
      digest.mix(controller.offerSetup(slot, setup, crcs[slot]! ^ stream.flaw()));
    }
    controller.step(inputs, outputs);
    digest.mixTick(outputs);
    if (tick % every === 0) print(`${tick} ${digest.value()}`);
  }
}

/**
 * The same with recorded inputs.
 *
 * @param motors number of the vehicle's motors
 * @param chunks functions that return rows, one after the other, ROW_WIDTH integers each
 */
export function driveRows(
  core: CoreApi,
  chunks: (() => number[])[],
  every: number,
  motors: number,
  print: Print,
): void {
  const digest = createDigest(motors);
  let tick = 0;
  eachRow(core, chunks, (outputs) => {
    tick++;
    digest.mixTick(outputs);
    if (tick % every === 0) print(`${tick} ${digest.value()}`);
  });
  print(`${tick} ${digest.value()}`);
}

/** Drives a core with recorded inputs and prints its outputs, a line a tick; see `readTicks`. */
export function printRows(core: CoreApi, chunks: (() => number[])[], print: Print): void {
  eachRow(core, chunks, (outputs) => {
    const { drive, enable, steer, state, cause, flags, slot, found } = outputs;
    let line = `${drive[0]} ${drive[1]} ${drive[2]} ${drive[3]}`;
    line += ` ${enable} ${steer} ${state} ${cause} ${flags} ${slot} ${found}`;
    line += exact(outputs.throttle) + exact(outputs.demand);
    line += exact(outputs.cut) + exact(outputs.limit);
    line += exact(outputs.speed) + exact(outputs.spin) + exact(outputs.free);
    print(line + exact(outputs.jam) + exact(outputs.assist));
  });
}

function eachRow(core: CoreApi, chunks: (() => number[])[], use: (outputs: Outputs) => void): void {
  const controller = core.createController(core.constants);
  const inputs = core.createInputs();
  const outputs = core.createOutputs();
  for (let i = 0; i < chunks.length; i++) {
    const rows = chunks[i]!();
    for (let at = 0; at < rows.length; at += ROW_WIDTH) {
      inputs.timeMs = rows[at]!;
      inputs.throttleUs = rows[at + 1]!;
      inputs.steerUs = rows[at + 2]!;
      inputs.ageMs = rows[at + 3]!;
      inputs.slot = rows[at + 4]!;
      inputs.guest = rows[at + 5]!;
      inputs.batteryMv = rows[at + 6]!;
      inputs.yawRateMradS = rows[at + 7]!;
      for (let motor = 0; motor < 4; motor++) {
        inputs.currentMa[motor] = rows[at + 8 + motor]!;
        inputs.wheelDegS[motor] = rows[at + 12 + motor]!;
      }
      controller.step(inputs, outputs);
      use(outputs);
    }
  }
}

/** A double as three integers: ` high low exponent`, value = (high 2^32 + low) 2^exponent. */
function exact(x: number): string {
  takeApart(x);
  return ` ${high} ${low} ${exponent}`;
}

// The parts of the last double taken apart; both words carry its sign.
let high = 0;
let low = 0;
let exponent = 0;

/** Takes a finite double apart by arithmetic alone, which is exact for powers of two. */
function takeApart(x: number): void {
  high = 0;
  low = x | 0;
  exponent = 0;
  if (x === low) return;
  if (x - x !== 0) {
    // Not finite: an exponent that no double has.
    low = 0;
    exponent = 9999;
    return;
  }
  let a = x < 0 ? 0 - x : x;
  while (a >= 9007199254740992) {
    a /= 2;
    exponent++;
  }
  while (a < 68719476736) {
    a *= 65536;
    exponent -= 16;
  }
  while (a < 281474976710656) {
    a *= 16;
    exponent -= 4;
  }
  while (a < 4503599627370496) {
    a *= 2;
    exponent--;
  }
  high = (a / 4294967296) | 0;
  low = a - high * 4294967296;
  if (x < 0) {
    high = 0 - high;
    low = 0 - low;
  }
}

interface Digest {
  mix(value: number): void;
  mixTick(outputs: Outputs): void;
  value(): number;
}

/**
 * A 32-bit digest: Horner's rule modulo 2^32. The factor is odd, so one word that differs always
 * changes it; it is that of a well-known generator modulo 2^32 (1664525; Numerical Recipes, 7.1,
 * from memory), and below 2^21, so that a product stays exact.
 */
function createDigest(motors: number): Digest {
  let hash = 0;
  function mix(value: number): void {
    hash = (hash * 1664525 + (value | 0)) | 0;
  }
  function mixTick(outputs: Outputs): void {
    let h = mixInteger(hash, outputs.enable);
    for (let i = 0; i < motors; i++) h = mixInteger(h, outputs.drive[i]!);
    h = mixInteger(h, outputs.steer);
    h = mixInteger(h, outputs.state);
    h = mixInteger(h, outputs.cause);
    h = mixInteger(h, outputs.flags);
    h = mixInteger(h, outputs.slot);
    h = mixDouble(h, outputs.throttle);
    h = mixDouble(h, outputs.demand);
    h = mixDouble(h, outputs.cut);
    h = mixDouble(h, outputs.limit);
    h = mixDouble(h, outputs.speed);
    h = mixInteger(h, outputs.found);
    h = mixDouble(h, outputs.spin);
    h = mixDouble(h, outputs.free);
    h = mixDouble(h, outputs.jam);
    hash = mixDouble(h, outputs.assist);
  }
  return { mix, mixTick, value: () => hash };
}

/** A value that is no 32-bit integer, where one is due, changes the digest too. */
function mixInteger(hash: number, value: number): number {
  const word = value | 0;
  const mixed = (hash * 1664525 + word) | 0;
  return value === word ? mixed : (mixed * 1664525 + 1) | 0;
}

/** Every bit of a double: what is whole, then 30 bits of the rest at a time. */
function mixDouble(hash: number, x: number): number {
  const whole = x | 0;
  let mixed = (hash * 1664525 + whole) | 0;
  let rest = x - whole;
  if (rest === 0) return mixed;
  if (!(rest > -1 && rest < 1)) {
    takeApart(x);
    mixed = (mixed * 1664525 + high) | 0;
    mixed = (mixed * 1664525 + low) | 0;
    return (mixed * 1664525 + exponent) | 0;
  }
  while (rest !== 0) {
    rest *= 1073741824;
    const word = rest | 0;
    rest -= word;
    mixed = (mixed * 1664525 + word) | 0;
  }
  return mixed;
}
