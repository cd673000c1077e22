import type { Trace } from './trace.ts';

/** A trace of zeros, every column `count` long. */
export function emptyTrace(count: number, motors = 2): Trace {
  const column = () => new Float64Array(count);
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
