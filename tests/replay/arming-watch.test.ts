import { expect, test } from 'vitest';
import { createArmingWatch } from '../../harness/replay/arming-watch.ts';
import { In, inputWidth, Out, outputWidth } from '../../harness/replay/row-layout.ts';
import { Cause, MISSING, S, State, V } from '../../lib/index.ts';
import { plainConstants } from '../limits/plain-constants.ts';

interface Tick {
  throttleUs?: number;
  ageMs?: number;
  stepMs?: number;
  state?: State;
  cause?: Cause;
}

/** What is said of two seconds of such ticks. */
function saidOf(tickAt: (i: number) => Tick): string[] {
  const constants = plainConstants({
    vehicle: { [V.GAP_MS]: 60 },
    setups: [{ [S.HOLD_MS]: 300, [S.NEUTRAL_MS]: 500 }],
  });
  const watch = createArmingWatch(constants);
  const inputs = new Int32Array(inputWidth(2));
  const outputs = new Int32Array(outputWidth(2));
  for (let i = 0; i < 200; i++) {
    const {
      throttleUs = 1500,
      ageMs = 0,
      stepMs = 10,
      state = State.LOCKED,
      cause = 0,
    } = tickAt(i);
    inputs[In.THROTTLE] = throttleUs;
    inputs[In.STEER] = 1500;
    inputs[In.AGE] = ageMs;
    outputs[Out.STATE] = state;
    outputs[Out.CAUSE] = cause;
    watch.observe(stepMs, inputs, 0, outputs, 0);
  }
  return watch.finish().map(({ text }) => text);
}

test('nothing is said of a vehicle that armed', () => {
  expect(
    saidOf((i) => ({ throttleUs: 40, state: i === 150 ? State.READY : State.LOCKED })),
  ).toEqual([]);
});

test.each<[string, (i: number) => Tick, RegExp]>([
  ['pulses in another unit', (i) => ({ throttleUs: i % 40 }), /throttle pulses of 0 to 39 µs lie/],
  ['no pulse', () => ({ throttleUs: MISSING }), /: no throttle pulse was there\.$/],
  ['coarse ticks', () => ({ stepMs: 100 }), /up to 100 ms apart, and gapMs is 60/],
  ['old inputs', (i) => ({ ageMs: 10 * i }), /up to 1990 ms old, and link\.holdMs is 300/],
  ['now and then an old one', (i) => ({ ageMs: i % 10 === 0 ? 301 : 0 }), /up to 301 ms old/],
  ['a fault', () => ({ cause: Cause.LOW_SUPPLY }), /: the supply stayed below its cut-off voltage/],
  ['a held throttle', () => ({ throttleUs: 1800 }), /never rested for arming\.neutralMs, 500 ms/],
])('%s: says why it never armed', (_name, tickAt, why) => {
  const said = saidOf(tickAt);
  expect(said).toHaveLength(1);
  expect(said[0]).toMatch(/^Never armed, so nothing was driven: /);
  expect(said[0]).toMatch(why);
});
