import { expect, test } from 'vitest';
import { In, inputWidth } from '../../harness/replay/row-layout.ts';
import { createUnitWatch } from '../../harness/replay/unit-watch.ts';
import { MISSING, V } from '../../lib/index.ts';
import { plainConstants } from '../limits/plain-constants.ts';

const VOLTS = 7.4;
const OHM = 0.5;

/** What a log holds of a tick, of what was there. */
interface Log {
  current?: (ma: number) => number;
  battery?: (mv: number) => number;
}

/**
 * What is said of starts from rest, one forward and one backward in turns, 2 s each, after which
 * the motor has no load but its own: V d = R i + K v with a speed that follows in 500 ms.
 */
function saidOf({ current = Math.round, battery = Math.round }: Log, starts = 3): string[] {
  const watch = createUnitWatch(plainConstants({}));
  const inputs = new Int32Array(inputWidth(2));
  const drives = new Int32Array(2);
  let speed = 0;
  for (let i = 0; i < 300 * starts; i++) {
    const inStart = i % 300;
    const way = Math.floor(i / 300) % 2 === 0 ? 1 : -1;
    const permille = inStart < 100 ? 0 : way * Math.min(600, 20 * (inStart - 100));
    speed += (permille / 1000 - speed) * (permille === 0 ? 0.5 : 0.02);
    inputs[In.BATTERY] = battery(1000 * VOLTS);
    drives.fill(permille);
    for (const motor of [0, 1]) {
      inputs[In.CURRENT + motor] = current((1000 * VOLTS * (permille / 1000 - speed)) / OHM);
    }
    watch.observe(10, inputs, 0, drives, 0);
  }
  return watch.finish().map(({ text }) => text);
}

test('nothing is said of a vehicle as described, nor of half or twice the resistance', () => {
  for (const factor of [1, 0.5, 2]) {
    expect(saidOf({ current: (ma) => Math.round(factor * ma) })).toEqual([]);
  }
});

test.each<[string, Log, RegExp]>([
  ['10 mA', { current: (ma) => Math.round(ma / 10) }, /resistanceOhm.* Is it in 10 mA\?.*unseen/],
  ['A', { current: (ma) => Math.round(ma / 1000) }, /Is it in A\?.*unseen/],
  ['no sensor', { current: () => 0 }, / 0 % .* or is no sensor connected\?/],
  ['0.1 mA', { current: (ma) => Math.round(10 * ma) }, /Is it in 0\.1 mA\?.*told falsely/],
  ['the other sign', { current: (ma) => -Math.round(ma) }, /flow against the drive/],
  ['V', { battery: (mv) => Math.round(mv / 1000) }, /more than 7 mV.* Is it in V\?/],
  ['10 mV', { battery: (mv) => Math.round(mv / 10) }, /more than 740 mV.* Is it in 10 mV\?/],
  ['twice and more', { battery: (mv) => 3 * mv }, /less than 22200 mV.* 7\.4 V\. Import the log/],
])('%s: says so once, with what to do', (_name, log, sentence) => {
  const said = saidOf(log);
  expect(said).toHaveLength(1);
  expect(said[0]).toMatch(sentence);
});

test('one start, and one motor without samples, say nothing', () => {
  expect(saidOf({ current: (ma) => Math.round(ma / 1000) }, 1)).toEqual([]);
  expect(saidOf({ current: () => MISSING, battery: () => MISSING })).toEqual([]);
});

test('a vehicle that measures neither is not asked', () => {
  const constants = plainConstants({ vehicle: { [V.HAS_CURRENT]: 0, [V.HAS_SUPPLY]: 0 } });
  const watch = createUnitWatch(constants);
  watch.observe(10, new Int32Array(inputWidth(2)), 0, new Int32Array(2), 0);
  expect(watch.finish()).toEqual([]);
});
