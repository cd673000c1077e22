import { describe, expect, it } from 'vitest';
import { MISSING, S, STEER_HOLD, V } from '../../lib/index.ts';
import { plainConstants } from '../limits/plain-constants.ts';
import { createArmedBench, createBench, pulse } from './bench.ts';

describe('the steering command', () => {
  it('moves at its rate: 1000 permille at 2000 permille/s take half a second', () => {
    const bench = createBench(plainConstants({ setups: [{ [S.STEER_RATE]: 2000 }] }));
    bench.step();
    for (let n = 1; n <= 50; n++)
      expect(bench.step(1, { steerUs: pulse(1000) }).steer).toBe(20 * n);
    expect(bench.step(5).steer).toBe(1000);
    for (let n = 1; n <= 100; n++) {
      expect(bench.step(1, { steerUs: pulse(-1000) }).steer).toBe(1000 - 20 * n);
    }
  });

  it('is limited at speed: at full command only STEER_AT_SPEED is left', () => {
    const bench = createArmedBench(
      plainConstants({ setups: [{ [S.STEER_AT_SPEED]: 400, [S.CUT_CEILING]: 0 }] }),
    );
    bench.step(50, { steerUs: pulse(1000) });
    expect(bench.outputs.steer).toBe(1000);
    bench.step(400, { throttleUs: pulse(1000) });
    expect(bench.outputs.steer).toBe(400);
    // Half the speed, half of the reduction: 1000 - 600 / 2.
    bench.step(400, { throttleUs: pulse(550) });
    expect(Math.abs(bench.outputs.steer - 700)).toBeLessThanOrEqual(1);
  });

  it('follows the estimated speed, a first-order lag of the command', () => {
    const setup = { [S.STEER_AT_SPEED]: 0, [S.CUT_CEILING]: 0, [S.RISE]: 5000 };
    const bench = createArmedBench(plainConstants({ setups: [setup] }));
    bench.step(400, { steerUs: pulse(1000), throttleUs: pulse(1000) });
    expect(bench.outputs.steer).toBe(0);
    bench.step(1, { throttleUs: pulse(0) });
    let speed = 1000;
    let drive = 1000;
    // The limit is read before this tick's commands are given, so it lags by a tick.
    for (let n = 0; n < 60; n++) {
      drive = Math.max(0, drive - 40);
      speed += ((drive - speed) * 10) / 210;
      const { steer } = bench.step();
      expect(Math.abs(steer - (1000 - speed))).toBeLessThan(1);
    }
  });

  it.each([
    ['to the position that the setup names', -300, -300],
    ['nowhere if the setup says hold', STEER_HOLD, 600],
  ])('goes %s when the signal is lost', (_name, loss, want) => {
    const bench = createBench(plainConstants({ setups: [{ [S.LOSS_STEER]: loss }] }));
    bench.step(20, { steerUs: pulse(600) });
    expect(bench.outputs.steer).toBe(600);
    // While the last input is held, nothing changes.
    expect(bench.step(20, { steerUs: MISSING }).steer).toBe(600);
    expect(bench.step(20).steer).toBe(want);
  });

  it('does not move while the clock stands still', () => {
    const bench = createBench(plainConstants({}));
    bench.step(3);
    bench.inputs.timeMs -= 10;
    expect(bench.step(1, { steerUs: pulse(1000) }).steer).toBe(0);
  });

  it('has end limits of its own on each side', () => {
    const setup = { [S.LEFT_LIMIT]: 700, [S.RIGHT_LIMIT]: 450 };
    const bench = createBench(plainConstants({ setups: [setup] }));
    expect(bench.step(40, { steerUs: pulse(1000) }).steer).toBe(700);
    expect(bench.step(40, { steerUs: pulse(-1000) }).steer).toBe(-450);
    const reversed = createBench(
      plainConstants({ vehicle: { [V.STEER_REVERSED]: 1 }, setups: [setup] }),
    );
    expect(reversed.step(40, { steerUs: pulse(1000) }).steer).toBe(-450);
  });
});
