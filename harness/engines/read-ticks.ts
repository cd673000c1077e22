import { createOutputs, type Outputs } from '../../lib/signals.ts';

/**
 * Reads what `printRows` printed: the outputs of every tick, the signals between the stages
 * exact to the last bit.
 *
 * @throws RangeError if a line does not hold the numbers of one tick
 */
export function readTicks(text: string): Outputs[] {
  return text.split('\n').slice(0, -1).map(readTick);
}

function readTick(line: string): Outputs {
  const numbers = line.split(' ').map(Number);
  if (numbers.length !== 38 || !numbers.every(Number.isInteger)) {
    throw new RangeError(`not the outputs of a tick: ${line}`);
  }
  const [enable, steer, state, cause, flags, slot, found] = numbers.slice(4) as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const double = (at: number) => {
    const [high, low, exponent] = numbers.slice(at, at + 3) as [number, number, number];
    if (exponent === 9999) return Number.NaN;
    // In two steps: 2 ** exponent alone can be below the least double.
    const half = Math.trunc(exponent / 2);
    return (high * 2 ** 32 + low) * 2 ** half * 2 ** (exponent - half);
  };
  return {
    ...createOutputs(),
    drive: numbers.slice(0, 4),
    enable,
    steer,
    state,
    cause,
    flags,
    slot,
    found,
    throttle: double(11),
    demand: double(14),
    cut: double(17),
    limit: double(20),
    speed: double(23),
    spin: double(26),
    free: double(29),
    jam: double(32),
    assist: double(35),
  };
}
