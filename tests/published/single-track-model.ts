/**
 * Small independent models to check the plant against: kinematic and linear-tyre single-track
 * vehicle as in Althoff, Koschi, Manzinger, "CommonRoad: Composable benchmarks for motion planning
 * on roads", IEEE IV 2017, 719-726, and its vehicle-model documentation, version 2020a.
 */

/** Constants of a single-track vehicle, SI. */
export interface SingleTrack {
  mu: number;
  /** Cornering stiffness of front and rear over mu and load, 1/rad. */
  stiffnessFront: number;
  stiffnessRear: number;
  lf: number;
  lr: number;
  h: number;
  m: number;
  inertia: number;
  steeringRate: [number, number];
  steering: [number, number];
  speed: [number, number];
  switchSpeed: number;
  acceleration: number;
}

/** Steering rate, rad/s; longitudinal acceleration, m/s². */
export type Input = readonly [number, number];

const G = 9.81;

/** State [x, y, steering, v, yaw]. */
export function kinematic(p: SingleTrack, x: readonly number[], u: Input): number[] {
  const [, , delta, v, psi] = x as [number, number, number, number, number];
  const [rate, a] = limited(p, delta, v, u);
  return [v * Math.cos(psi), v * Math.sin(psi), rate, a, (v / (p.lf + p.lr)) * Math.tan(delta)];
}

/** State [x, y, steering, v, yaw, yaw rate, sideslip]; kinematic below 0.1 m/s. */
export function singleTrack(p: SingleTrack, x: readonly number[], u: Input): number[] {
  const [, , delta, v, psi, r, beta] = x as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  if (Math.abs(v) < 0.1) return [...kinematic(p, x, u), 0, 0];
  const [rate, a] = limited(p, delta, v, u);
  const { mu, lf, lr, m, inertia } = p;
  const wheelbase = lf + lr;
  const front = p.stiffnessFront * (G * lr - a * p.h);
  const rear = p.stiffnessRear * (G * lf + a * p.h);
  const turn = (mu * m) / (inertia * wheelbase);
  const slide = mu / (v * wheelbase);
  return [
    v * Math.cos(beta + psi),
    v * Math.sin(beta + psi),
    rate,
    a,
    r,
    (-turn / v) * (lf * lf * front + lr * lr * rear) * r +
      turn * (lr * rear - lf * front) * beta +
      turn * lf * front * delta,
    ((slide / v) * (rear * lr - front * lf) - 1) * r -
      slide * (rear + front) * beta +
      slide * front * delta,
  ];
}

/** Classical Runge-Kutta of order 4. */
export function integrate(
  f: (x: readonly number[]) => number[],
  start: readonly number[],
  steps: number,
  h: number,
): number[] {
  let x = [...start];
  const moved = (k: number[], share: number) => x.map((value, i) => value + share * h * k[i]!);
  for (let n = 0; n < steps; n++) {
    const k1 = f(x);
    const k2 = f(moved(k1, 0.5));
    const k3 = f(moved(k2, 0.5));
    const k4 = f(moved(k3, 1));
    x = x.map((v, i) => v + (h / 6) * (k1[i]! + 2 * k2[i]! + 2 * k3[i]! + k4[i]!));
  }
  return x;
}

/** Inputs within what servo, engine and brakes can give. */
function limited(p: SingleTrack, delta: number, v: number, [rate, a]: Input): [number, number] {
  const atEnd = (delta <= p.steering[0] && rate <= 0) || (delta >= p.steering[1] && rate >= 0);
  const atTop = (v <= p.speed[0] && a <= 0) || (v >= p.speed[1] && a >= 0);
  const most = v > p.switchSpeed ? (p.acceleration * p.switchSpeed) / v : p.acceleration;
  return [
    atEnd ? 0 : Math.min(Math.max(rate, p.steeringRate[0]), p.steeringRate[1]),
    atTop ? 0 : Math.min(Math.max(a, -p.acceleration), most),
  ];
}
