import type { Trace } from './trace.ts';

/** Columns of a trace but for those by motor. */
const COLUMNS = 30;

/** A trace of zeros, every column `count` long. */
export function emptyTrace(count: number, motors = 2): Trace {
  // One piece of memory for all: to ask for as many pieces as columns costs a tenth of a drive.
  const room = new Float64Array((COLUMNS + 3 * motors) * count);
  let taken = 0;
  const column = () => room.subarray(taken * count, ++taken * count);
  const columns = (many: number) => Array.from({ length: many }, column);
  return {
    count,
    t: column(),
    x: column(),
    y: column(),
    yaw: column(),
    vx: column(),
    vy: column(),
    yawRate: column(),
    ax: column(),
    ay: column(),
    speed: column(),
    sideslip: column(),
    steerAngle: column(),
    balance: column(),
    slipRatio: columns(4),
    slipAngle: columns(4),
    load: columns(4),
    drive: columns(motors),
    current: columns(motors),
    winding: columns(motors),
    supply: column(),
    throttleStick: column(),
    steerStick: column(),
    energy: column(),
    state: column(),
  };
}
