import car from '../published/reference-car.json' with { type: 'json' };

/**
 * The reference car once more, by other means than the plant: straight from the textbook, with
 * quasi-static loads, tyres that answer at once, speeds that a plain Euler step of 20 us follows,
 * and the differential as one unknown torque. Shares no code with the plant.
 */
export interface PlainCar {
  /** Speeds ahead and to the left, m/s; yaw rate, rad/s; steering angle, rad. */
  vx: number;
  vy: number;
  yawRate: number;
  steer: number;
  /** Speeds of the wheels: rear left, rear right, front left, front right, rad/s. */
  wheels: [number, number, number, number];
  /** Accelerations that load the wheels, m/s². */
  ax: number;
  ay: number;
  /** Mean |front slip angle| - mean |rear slip angle|, rad. */
  balance: number;
}

/** What the file leaves open. */
export interface PlainOptions {
  friction: number;
  rollShareFront: number;
}

export function createPlainCar(): PlainCar {
  const still = { vx: 0, vy: 0, yawRate: 0, steer: 0, ax: 0, ay: 0, balance: 0 };
  return { ...still, wheels: [0, 0, 0, 0] };
}

const STEP = 2e-5;
const G = 9.81;
const { mass_kg: m, wheelbase_m: l, track_m: t, cg_height_m: h, wheel_radius_m: r } = car;
const a = car.cg_to_front_axle_m;
const b = l - a;
const { motor_at_wheel: motor, battery } = car;
/** Positions of the wheels from the centre of gravity, m. */
const X = [-b, -b, a, a];
const Y = [t / 2, -t / 2, t / 2, -t / 2];
/** Slower than this, slip is taken against it, m/s. */
const SLOW = 0.3;

/**
 * Drives on under constant commands.
 *
 * @param duty of the left and the right motor, -1..1
 * @param steer -1..1
 */
export function drivePlainCar(
  body: PlainCar,
  duty: readonly [number, number],
  steer: number,
  seconds: number,
  options: PlainOptions,
): void {
  for (let i = 0; i < Math.round(seconds / STEP); i++) step(body, duty, steer, options);
}

function step(
  s: PlainCar,
  duty: readonly [number, number],
  steer: number,
  options: PlainOptions,
): void {
  const lock = (car.steering_lock_deg * Math.PI) / 180;
  const way = steer * lock - s.steer;
  s.steer += Math.sign(way) * Math.min(Math.abs(way), car.steering_rate_rad_s * STEP);
  const angles = wheelAngles(s.steer);
  const loads = loadsOf(s, options.rollShareFront);
  const torques = motorTorques(s.wheels, duty);
  let [fx, fy, mz] = [0, 0, 0];
  const slips: number[] = [];
  for (let i = 0; i < 4; i++) {
    const [cos, sin] = [Math.cos(angles[i]!), Math.sin(angles[i]!)];
    const bx = s.vx - s.yawRate * Y[i]!;
    const by = s.vy + s.yawRate * X[i]!;
    const [along, across] = [cos * bx + sin * by, cos * by - sin * bx];
    const roll = r * s.wheels[i]!;
    const force = tyre(roll - along, -across, Math.max(Math.abs(roll), SLOW));
    const [p, q] = force.map((each) => each * options.friction * loads[i]!) as [number, number];
    slips.push(Math.abs(Math.atan2(across, Math.abs(along))));
    fx += cos * p - sin * q;
    fy += sin * p + cos * q;
    mz += X[i]! * (sin * p + cos * q) - Y[i]! * (cos * p - sin * q);
    const rolling = r * car.rolling_resistance_coefficient * loads[i]! * Math.tanh(roll / 0.02);
    torques[i] = torques[i]! - r * p - rolling;
  }
  turn(s.wheels, torques);
  s.ax = fx / m;
  s.ay = fy / m;
  s.balance = (slips[2]! + slips[3]! - slips[0]! - slips[1]!) / 2;
  const turning = s.yawRate;
  s.yawRate += (STEP * mz) / car.yaw_inertia_kg_m2;
  const vx = s.vx;
  s.vx += STEP * (s.ax + turning * s.vy);
  s.vy += STEP * (s.ay - turning * vx);
}

/** Force over friction and load, along and across the wheel, for a slip velocity. */
function tyre(along: number, across: number, rolling: number): number[] {
  const { B, C, E } = car.tyre;
  const slip = Math.hypot(along, across);
  if (slip === 0) return [0, 0];
  const x = (B * slip) / rolling;
  const share = Math.sin(C * Math.atan(x - E * (x - Math.atan(x))));
  return [(share * along) / slip, (share * across) / slip];
}

/** Full Ackermann: all wheels' axes meet in one point. */
function wheelAngles(steer: number): number[] {
  if (steer === 0) return [0, 0, 0, 0];
  const radius = l / Math.tan(steer);
  return [0, 0, Math.atan(l / (radius - t / 2)), Math.atan(l / (radius + t / 2))];
}

function loadsOf({ ax, ay }: PlainCar, share: number): number[] {
  const rear = (m * (G * a + ax * h)) / l;
  const front = m * G - rear;
  const roll = (m * ay * h) / t;
  const most = [rear / 2, front / 2];
  const shiftFront = Math.max(-most[1]!, Math.min(most[1]!, share * roll));
  const shiftRear = Math.max(-most[0]!, Math.min(most[0]!, roll - shiftFront));
  return [
    rear / 2 - shiftRear,
    rear / 2 + shiftRear,
    front / 2 - shiftFront,
    front / 2 + shiftFront,
  ];
}

/** Torques on the wheels: i = (d U - ke w) / R, U = E - Ri (d i + d i). */
function motorTorques(wheels: readonly number[], duty: readonly [number, number]): number[] {
  const { ke_V_s_per_rad: ke, kt_Nm_per_A: kt, resistance_ohm: resistance } = motor;
  const back = duty[0] * ke * wheels[0]! + duty[1] * ke * wheels[1]!;
  const square = duty[0] ** 2 + duty[1] ** 2;
  const inner = battery.internal_resistance_ohm / resistance;
  const voltage = (battery.open_circuit_V + inner * back) / (1 + inner * square);
  const torque = (side: 0 | 1) => {
    const current = (duty[side] * voltage - ke * wheels[side]!) / resistance;
    const friction = motor.bearing_friction_Nm * Math.tanh(wheels[side]! / 0.5);
    return kt * current - friction;
  };
  return [torque(0), torque(1), 0, 0];
}

/** w' = (T + A q) / J with A = 1, 1, -1, -1 and q such that A w stays 0. */
function turn(wheels: PlainCar['wheels'], torques: readonly number[]): void {
  const rear = car.inertia_per_rear_wheel_with_motor_kg_m2;
  const front = car.inertia_per_front_wheel_kg_m2;
  const free = (torques[0]! + torques[1]!) / rear - (torques[2]! + torques[3]!) / front;
  const shared = -free / (2 / rear + 2 / front);
  for (let i = 0; i < 4; i++) {
    const [sign, inertia] = i < 2 ? [1, rear] : [-1, front];
    wheels[i] = wheels[i]! + (STEP * (torques[i]! + sign * shared)) / inertia;
  }
}
