import type {
  DriverView,
  Manoeuvre,
  ManoeuvreCar,
  Sticks,
} from '../../harness/manoeuvres/manoeuvre.ts';
import { emptyTrace } from '../../harness/metrics/empty-trace.ts';
import type { Trace } from '../../harness/metrics/trace.ts';
import { createPlant, type Plant } from '../../harness/plant/plant.ts';
import type { PlantDescription } from '../../harness/plant/plant-description.ts';
import { TERMINAL_VOLTAGE, VX, VY, X, Y, YAW, YAW_RATE } from '../../harness/plant/state.ts';

/** Length of a tick and of a step of the plant, s. */
const TICK = 0.01;
const STEPS = 10;
/** How long commands outlive the signal, s. */
const HOLD = 0.3;

/**
 * Drives a manoeuvre without a core: sticks are commands at once, the inside motor of a pair gets
 * (1 - cut x steering) of the outside one's, and the bridges open 0.3 s after the signal is lost.
 */
export function driveManoeuvre(
  manoeuvre: Manoeuvre,
  description: PlantDescription,
  car: ManoeuvreCar,
  cut = 0,
): Trace {
  const ground = manoeuvre.ground?.(description.ground) ?? description.ground;
  const plant = createPlant({ ...description, ground });
  const faults = [...(manoeuvre.faults?.(car) ?? [])];
  const driver = manoeuvre.createDriver(car);
  const motors = description.motors.length;
  const trace = emptyTrace(Math.floor(manoeuvre.durationS(car) / TICK + 1e-9) + 1, motors);
  const view: DriverView = { t: 0, x: 0, y: 0, yaw: 0, vx: 0, vy: 0, yawRate: 0 };
  const sticks: Sticks = { throttle: 0, steer: 0, linkUp: true };
  const drive = [0, 0, 0, 0];
  let silence = 0;
  for (let i = 0; i < trace.count; i++) {
    const t = i * TICK;
    while (faults.length > 0 && faults[0]!.atS <= t) plant.setFaults(faults.shift()!.faults);
    see(plant, t, view);
    driver.drive(view, sticks);
    silence = sticks.linkUp ? 0 : silence + TICK;
    const isLost = silence > HOLD;
    if (sticks.linkUp || isLost)
      command(drive, isLost ? 0 : sticks.throttle, sticks.steer, cut, car);
    record(trace, i, t, plant, sticks, drive, isLost);
    const steer = 1000 * sticks.steer;
    for (let k = 0; k < STEPS; k++) plant.step(drive, isLost ? 0 : 1, steer, TICK / STEPS);
  }
  return trace;
}

function command(
  drive: number[],
  throttle: number,
  steer: number,
  cut: number,
  { layout }: ManoeuvreCar,
): void {
  const outside = 1000 * throttle;
  const inside = outside * (1 - cut * Math.abs(steer));
  drive[0] = steer > 0 ? inside : outside;
  drive[1] = steer > 0 ? outside : inside;
  if (layout !== 'tracked') return;
  drive[0] = 1000 * Math.min(Math.max(throttle - steer, -1), 1);
  drive[1] = 1000 * Math.min(Math.max(throttle + steer, -1), 1);
}

function see({ state }: Plant, t: number, view: DriverView): void {
  const { body } = state;
  view.t = t;
  view.x = body[X]!;
  view.y = body[Y]!;
  view.yaw = body[YAW]!;
  view.vx = body[VX]!;
  view.vy = body[VY]!;
  view.yawRate = body[YAW_RATE]!;
}

function record(
  trace: Trace,
  i: number,
  t: number,
  plant: Plant,
  sticks: Sticks,
  drive: readonly number[],
  isLost: boolean,
): void {
  const { state } = plant;
  const { body } = state;
  const seen = plant.observe();
  trace.t[i] = t;
  trace.x[i] = body[X]!;
  trace.y[i] = body[Y]!;
  trace.yaw[i] = body[YAW]!;
  trace.vx[i] = body[VX]!;
  trace.vy[i] = body[VY]!;
  trace.yawRate[i] = body[YAW_RATE]!;
  trace.ax[i] = state.transfer[2]!;
  trace.ay[i] = state.transfer[3]!;
  trace.speed[i] = seen.speed;
  trace.sideslip[i] = seen.sideslip;
  trace.steerAngle[i] = state.steering[0]!;
  trace.balance[i] = seen.balance;
  for (let w = 0; w < 4; w++) {
    trace.slipRatio[w]![i] = seen.slipRatio[w]!;
    trace.slipAngle[w]![i] = seen.slipAngle[w]!;
    trace.load[w]![i] = seen.load[w]!;
  }
  for (let m = 0; m < trace.drive.length; m++) {
    trace.drive[m]![i] = drive[m]!;
    trace.current[m]![i] = state.current[m]!;
    trace.winding[m]![i] = state.winding[m]!;
  }
  trace.supply[i] = state.battery[TERMINAL_VOLTAGE]!;
  trace.energy[i] = state.energy[0]!;
  trace.throttleStick[i] = sticks.throttle;
  trace.steerStick[i] = sticks.steer;
  trace.state[i] = isLost ? 3 : 2;
}
