import type {
  DriverView,
  Manoeuvre,
  ManoeuvreCar,
  Sticks,
} from '../../harness/manoeuvres/manoeuvre.ts';
import { emptyTrace } from '../../harness/metrics/empty-trace.ts';
import type { Trace } from '../../harness/metrics/trace.ts';
import { integrate, type SingleTrack, singleTrack } from '../published/single-track-model.ts';

/** Time constant from throttle to speed, s. */
const SLUGGISH = 0.5;
/** Steps of the integration in a tick. */
const STEPS = 20;

/**
 * Drives a manoeuvre in the independent linear single-track model: steering and throttle act at
 * once, speed follows throttle x top speed with 0.5 s, wheel loads stay as they are.
 *
 * @param tick time between two samples, s
 */
export function driveLinearCar(
  manoeuvre: Manoeuvre,
  model: SingleTrack,
  car: ManoeuvreCar,
  tick = 0.01,
): Trace {
  const level = { ...model, h: 0 };
  const driver = manoeuvre.createDriver(car);
  const trace = emptyTrace(Math.floor(manoeuvre.durationS(car) / tick + 1e-9) + 1);
  const view: DriverView = { t: 0, x: 0, y: 0, yaw: 0, vx: 0, vy: 0, yawRate: 0 };
  const sticks: Sticks = { throttle: 0, steer: 0, linkUp: true };
  let state = [0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < trace.count; i++) {
    see(state, i * tick, view);
    driver.drive(view, sticks);
    state[2] = sticks.steer * car.lock;
    record(trace, i, i * tick, state, derivative(level, state, car, sticks)[6]!);
    state = integrate((x) => derivative(level, x, car, sticks), state, STEPS, tick / STEPS);
  }
  return trace;
}

function derivative(
  model: SingleTrack,
  x: readonly number[],
  car: ManoeuvreCar,
  { throttle }: Sticks,
): number[] {
  const a = (throttle * car.topSpeed - x[3]!) / SLUGGISH;
  return singleTrack(model, x, [0, a]);
}

function see([x, y, , v, yaw, yawRate, beta]: number[], t: number, view: DriverView): void {
  view.t = t;
  view.x = x!;
  view.y = y!;
  view.yaw = yaw!;
  view.vx = v! * Math.cos(beta!);
  view.vy = v! * Math.sin(beta!);
  view.yawRate = yawRate!;
}

function record(trace: Trace, i: number, t: number, state: readonly number[], turn: number): void {
  const [x, y, steer, v, yaw, yawRate, beta] = state;
  trace.t[i] = t;
  trace.x[i] = x!;
  trace.y[i] = y!;
  trace.yaw[i] = yaw!;
  trace.vx[i] = v! * Math.cos(beta!);
  trace.vy[i] = v! * Math.sin(beta!);
  trace.yawRate[i] = yawRate!;
  trace.ay[i] = v! * (yawRate! + turn);
  trace.speed[i] = v!;
  trace.sideslip[i] = beta!;
  trace.steerAngle[i] = steer!;
}
