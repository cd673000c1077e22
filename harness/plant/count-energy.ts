import { AT } from './at.ts';
import type { Frame } from './frame.ts';

const {
  AIR,
  COPPER,
  COS,
  DRAWN,
  DUTY,
  ENERGY_AT_START,
  EXPECTED_SPEED,
  FORCE,
  FRICTION,
  INDUCTANCE,
  LOST_IN_DRAG,
  LOST_IN_FRICTION,
  LOST_IN_GEAR,
  LOST_IN_PACK,
  LOST_IN_ROLLING,
  LOST_IN_SHOCK,
  LOST_IN_TYRE,
  LOST_IN_WINDING,
  MEAN,
  MOTOR_CONSTANT,
  MOTOR_FRICTION,
  MOTOR_SPEED,
  MOTOR_SPEED_BEFORE,
  OPEN_CIRCUIT,
  PX,
  PY,
  RADIUS,
  X,
  Y,
  SIDE_FORCE,
  SIN,
  SPAN,
  SPEED,
  SPEED_BEFORE,
  SUPPLIED,
  TERMINAL_VOLTAGE,
  TRANSMISSION,
  VX,
  VX_BEFORE,
  VY,
  VY_BEFORE,
  YAW_RATE,
  YAW_RATE_BEFORE,
} = AT;

/** Where the energy went since the start, J. */
export interface Energies {
  /** Drawn from the battery's open-circuit voltage. */
  supplied: number;
  /** Lost in the battery's resistances, and held in its RC. */
  battery: number;
  winding: number;
  gear: number;
  /** Dry friction in the motors. */
  friction: number;
  rolling: number;
  /** Slip of the tyres, and what their deflections hold. */
  tyre: number;
  drag: number;
  /** Shocks: a wheel that jams, a shaft that takes hold again. */
  shock: number;
  /** Gained since the start. */
  kinetic: number;
  potential: number;
  /** supplied - all the others; 0 but for the error of the integration. */
  residual: number;
}

/** Adds a step's work to the books; call after the speeds of the step are known. */
export function countEnergy(frame: Frame): void {
  countElectric(frame);
  countTyres(frame);
  const n = frame.numbers;
  const air = n[AIR]!;
  if (air === 0) return;
  const vx = n[VX_BEFORE]!;
  const vy = n[VY_BEFORE]!;
  const drag = (air * Math.sqrt(vx * vx + vy * vy)) / 2;
  const work = vx * (vx + n[VX]!) + vy * (vy + n[VY]!);
  n[LOST_IN_DRAG] = n[LOST_IN_DRAG]! + (drag * work * n[SPAN]!) / 2;
}

/** Books the energy that a change of the driveline took out of the speeds, J. */
export function countShock({ numbers: n }: Frame, energy: number): void {
  n[LOST_IN_SHOCK] = n[LOST_IN_SHOCK]! + energy;
}

/** Begins the books anew. */
export function startEnergies(frame: Frame): void {
  frame.state.energy.fill(0);
  frame.numbers[ENERGY_AT_START] = kineticEnergy(frame) + potentialEnergy(frame);
}

/** The books; allocates. */
export function readEnergies(frame: Frame): Energies {
  const n = frame.numbers;
  const potential = potentialEnergy(frame);
  const kinetic = kineticEnergy(frame) - n[ENERGY_AT_START]!;
  const losses = {
    battery: n[LOST_IN_PACK]!,
    winding: n[LOST_IN_WINDING]!,
    gear: n[LOST_IN_GEAR]!,
    friction: n[LOST_IN_FRICTION]!,
    rolling: n[LOST_IN_ROLLING]!,
    tyre: n[LOST_IN_TYRE]!,
    drag: n[LOST_IN_DRAG]!,
    shock: n[LOST_IN_SHOCK]!,
  };
  const lost = Object.values(losses).reduce((a, b) => a + b, 0);
  const supplied = n[SUPPLIED]!;
  return {
    supplied,
    ...losses,
    kinetic,
    potential,
    residual: supplied - lost - kinetic - potential,
  };
}

/** Energy of motion of body, wheels, motors and slipped shafts, J. */
export function kineticEnergy({ numbers: n, description, inertia }: Frame): number {
  const { mass, yawInertia } = description.body;
  const turning = inertia.reduce((sum, value, i) => sum + value * n[SPEED + i]! ** 2, 0);
  const moving = mass * (n[VX]! ** 2 + n[VY]! ** 2) + yawInertia * n[YAW_RATE]! ** 2;
  return (moving + turning) / 2;
}

function potentialEnergy({ numbers: n, description }: Frame): number {
  const { gradient, uphill } = description.ground;
  const way = n[X]! * Math.cos(uphill) + n[Y]! * Math.sin(uphill);
  return description.body.mass * description.gravity * Math.sin(gradient) * way;
}

function countElectric({ numbers: n, motorCount }: Frame): void {
  const dt = n[SPAN]!;
  const source = n[OPEN_CIRCUIT]!;
  const terminal = n[TERMINAL_VOLTAGE]!;
  const drawn = n[DRAWN]!;
  n[SUPPLIED] = n[SUPPLIED]! + source * drawn * dt;
  n[LOST_IN_PACK] = n[LOST_IN_PACK]! + (source - terminal) * drawn * dt;
  let winding = n[LOST_IN_WINDING]!;
  let gear = n[LOST_IN_GEAR]!;
  let rubbing = n[LOST_IN_FRICTION]!;
  for (let m = 0; m < motorCount; m++) {
    const constant = n[MOTOR_CONSTANT + m]!;
    const current = n[MEAN + m]!;
    const speed = (n[MOTOR_SPEED + m]! + n[MOTOR_SPEED_BEFORE + m]!) / 2;
    const shaft = constant * current * speed;
    // With inductance this is what the winding took and held; without, i² R.
    const copper =
      n[INDUCTANCE + m]! > 0
        ? n[DUTY + m]! * terminal * current - constant * current * n[EXPECTED_SPEED + m]!
        : n[COPPER + m]!;
    winding += copper * dt;
    gear += shaft * (1 - n[TRANSMISSION + m]!) * dt;
    rubbing += n[MOTOR_FRICTION + m]! * speed * dt;
  }
  n[LOST_IN_WINDING] = winding;
  n[LOST_IN_GEAR] = gear;
  n[LOST_IN_FRICTION] = rubbing;
}

/** Slip and rolling losses, with the velocities in the middle of the step. */
function countTyres({ numbers: n }: Frame): void {
  const dt = n[SPAN]!;
  const vx = (n[VX_BEFORE]! + n[VX]!) / 2;
  const vy = (n[VY_BEFORE]! + n[VY]!) / 2;
  const yawRate = (n[YAW_RATE_BEFORE]! + n[YAW_RATE]!) / 2;
  let slip = 0;
  let rolling = 0;
  for (let i = 0; i < 4; i++) {
    const bx = vx - yawRate * n[PY + i]!;
    const by = vy + yawRate * n[PX + i]!;
    const cos = n[COS + i]!;
    const sin = n[SIN + i]!;
    const speed = (n[SPEED + i]! + n[SPEED_BEFORE + i]!) / 2;
    const along = cos * bx + sin * by - n[RADIUS + i]! * speed;
    slip -= n[FORCE + i]! * along + n[SIDE_FORCE + i]! * (cos * by - sin * bx);
    rolling += n[FRICTION + i]! * speed;
  }
  n[LOST_IN_TYRE] = n[LOST_IN_TYRE]! + slip * dt;
  n[LOST_IN_ROLLING] = n[LOST_IN_ROLLING]! + rolling * dt;
}
