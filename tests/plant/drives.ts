import type { Fault } from '../../harness/plant/fault.ts';
import type { Plant } from '../../harness/plant/plant.ts';
import { VX, VY, X, Y, YAW_RATE } from '../../harness/plant/state.ts';

/** A scripted drive straight into the plant, without a core. */
export interface Drive {
  name: string;
  duration: number;
  /** Throttle -1..1 at time t, s. */
  throttle(t: number): number;
  /** Steering, permille, left positive. */
  steer(t: number): number;
  /** Inside cut, 0..1; 0 if left out. */
  cut?: number;
  /** From when on the bridges are open, s. */
  offAt?: number;
  fault?: { at: number; faults: Fault[] };
}

const ramp = (t: number, from: number, length: number) =>
  Math.min(Math.max((t - from) / length, 0), 1);

/** Drives between them that use every part of the plant. */
export const DRIVES: Drive[] = [
  { name: 'straight run', duration: 3, throttle: (t) => ramp(t, 0, 0.3), steer: () => 0 },
  {
    name: 'brake from speed',
    duration: 3,
    throttle: (t) => ramp(t, 0, 0.3) * (1 - ramp(t, 1.5, 0.2)),
    steer: () => 0,
  },
  {
    name: 'coast in a bend',
    duration: 3,
    throttle: (t) => 0.6 * ramp(t, 0, 0.5),
    steer: (t) => 400 * ramp(t, 0.8, 0.2),
    offAt: 1.6,
  },
  {
    name: 'slalom',
    duration: 4,
    throttle: (t) => 0.5 * ramp(t, 0, 0.5),
    steer: (t) => 700 * Math.sin(2 * Math.PI * 0.7 * t),
    cut: 0.08,
  },
  {
    name: 'full lock, full throttle',
    duration: 4,
    throttle: (t) => ramp(t, 0, 1),
    steer: () => 1000,
    cut: 0.05,
  },
  {
    name: 'power spin',
    duration: 4,
    throttle: (t) => ramp(t, 0, 1),
    steer: () => 1000,
    cut: 0.2,
  },
  {
    name: 'reverse circle',
    duration: 3,
    throttle: (t) => -0.5 * ramp(t, 0, 0.5),
    steer: () => 600,
    cut: 0.1,
  },
];

/** Runs a drive; `each` sees the plant after every step. */
export function run(plant: Plant, drive: Drive, dt: number, each: () => void = () => {}): void {
  const motors = plant.description.motors.length;
  const command = new Array<number>(motors).fill(0);
  const steps = Math.round(drive.duration / dt);
  const breakAt = drive.fault === undefined ? -1 : Math.round(drive.fault.at / dt);
  for (let i = 0; i < steps; i++) {
    const t = i * dt;
    if (i === breakAt) plant.setFaults(drive.fault?.faults ?? []);
    const steer = drive.steer(t);
    const outer = 1000 * drive.throttle(t);
    const inner = outer * (1 - (drive.cut ?? 0) * Math.min(1, Math.abs(steer) / 1000));
    for (let m = 0; m < motors; m++) command[m] = (m % 2 === 0) === steer > 0 ? inner : outer;
    plant.step(command, t >= (drive.offAt ?? Infinity) ? 0 : 1, steer, dt);
    each();
  }
}

/** Whole-drive metrics, in SI units; enough to tell two integrations apart. */
export function metricsOf(plant: Plant, drive: Drive, dt: number): Record<string, number> {
  const { body, current, winding } = plant.state;
  const most = { speed: 0, yawRate: 0, sideslip: 0, current: 0, way: 0, slip: 0 };
  let before = [0, 0];
  let [turned, rolled] = [0, 0];
  let still = 0;
  run(plant, drive, dt, () => {
    const speed = Math.hypot(body[VX]!, body[VY]!);
    most.speed = Math.max(most.speed, speed);
    most.yawRate = Math.max(most.yawRate, Math.abs(body[YAW_RATE]!));
    if (speed > 0.3) most.sideslip = Math.max(most.sideslip, Math.abs(plant.observe().sideslip));
    most.current = Math.max(most.current, ...current.map(Math.abs));
    most.way += Math.hypot(body[X]! - before[0]!, body[Y]! - before[1]!);
    before = [body[X]!, body[Y]!];
    turned += Math.abs(body[YAW_RATE]!) * dt;
    rolled += speed * dt;
    if (speed > 0.05) still = plant.state.time[0]!;
  });
  const { supplied, tyre } = plant.energies();
  return {
    ...most,
    radius: rolled / Math.max(turned, 1e-3),
    still,
    supplied,
    tyre,
    heat: winding[0]!,
  };
}
