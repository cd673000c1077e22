import type { Outputs } from '../../lib/index.ts';
import type { Sticks } from '../manoeuvres/manoeuvre.ts';
import { emptyTrace } from '../metrics/empty-trace.ts';
import type { Trace } from '../metrics/trace.ts';
import type { Plant } from '../plant/plant.ts';
import { TERMINAL_VOLTAGE, VX, VY, X, Y, YAW, YAW_RATE } from '../plant/state.ts';

/** Writes a trace down, tick by tick, into columns made beforehand. */
export interface TraceRecorder {
  /** @param t time of the manoeuvre, s */
  record(t: number, plant: Plant, sticks: Sticks, outputs: Outputs): void;
  /** The trace so far, its columns cut to its length. */
  finish(): Trace;
}

/** @param most room for so many ticks */
export function createTraceRecorder(motors: number, most: number): TraceRecorder {
  const trace = { ...emptyTrace(most, motors), count: 0 };
  return {
    record: (t, plant, sticks, outputs) => {
      const i = trace.count;
      trace.t[i] = t;
      recordBody(trace, i, plant);
      recordWheels(trace, i, plant);
      recordMotors(trace, i, plant, outputs);
      trace.throttleStick[i] = sticks.throttle;
      trace.steerStick[i] = sticks.steer;
      trace.state[i] = outputs.state;
      trace.count++;
    },
    finish: () => cut(trace),
  };
}

function recordBody(trace: Trace, i: number, { state, description }: Plant): void {
  const { body, transfer } = state;
  const vx = body[VX]!;
  const vy = body[VY]!;
  const yaw = body[YAW]!;
  trace.x[i] = body[X]!;
  trace.y[i] = body[Y]!;
  trace.yaw[i] = yaw;
  trace.vx[i] = vx;
  trace.vy[i] = vy;
  trace.yawRate[i] = body[YAW_RATE]!;
  trace.steerAngle[i] = state.steering[0]!;
  // The state holds what the tyres do; air and slope act on top of it.
  const { dragArea, airDensity, mass } = description.body;
  const drag = (airDensity * dragArea * Math.sqrt(vx * vx + vy * vy)) / (2 * mass);
  let ax = transfer[2]! - drag * vx;
  let ay = transfer[3]! - drag * vy;
  const { gradient, uphill } = description.ground;
  if (gradient !== 0) {
    const pull = description.gravity * Math.sin(gradient);
    ax -= pull * Math.cos(uphill - yaw);
    ay -= pull * Math.sin(uphill - yaw);
  }
  trace.ax[i] = ax;
  trace.ay[i] = ay;
}

function recordWheels(trace: Trace, i: number, plant: Plant): void {
  const seen = plant.observe();
  trace.speed[i] = seen.speed;
  trace.sideslip[i] = seen.sideslip;
  trace.balance[i] = seen.balance;
  for (let w = 0; w < 4; w++) {
    trace.slipRatio[w]![i] = seen.slipRatio[w]!;
    trace.slipAngle[w]![i] = seen.slipAngle[w]!;
    trace.load[w]![i] = seen.load[w]!;
  }
}

function recordMotors(trace: Trace, i: number, { state }: Plant, outputs: Outputs): void {
  for (let m = 0; m < trace.drive.length; m++) {
    trace.drive[m]![i] = outputs.drive[m]!;
    trace.current[m]![i] = state.current[m]!;
    trace.winding[m]![i] = state.winding[m]!;
  }
  trace.supply[i] = state.battery[TERMINAL_VOLTAGE]!;
  // The first of the energy books: drawn from the cells.
  trace.energy[i] = state.energy[0]!;
}

function cut(trace: Trace): Trace {
  const { count } = trace;
  const entries = Object.entries(trace).map(([name, value]) => [
    name,
    value instanceof Float64Array
      ? value.subarray(0, count)
      : Array.isArray(value)
        ? value.map((each: Float64Array) => each.subarray(0, count))
        : value,
  ]);
  return Object.fromEntries(entries) as Trace;
}
