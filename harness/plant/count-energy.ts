import type { Frame } from './frame.ts';
import {
  DRAWN,
  OPEN_CIRCUIT,
  type State,
  TERMINAL_VOLTAGE,
  VX,
  VY,
  X,
  Y,
  YAW_RATE,
} from './state.ts';

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

const SUPPLIED = 0;
const BATTERY = 1;
const WINDING = 2;
const GEAR = 3;
const FRICTION = 4;
const ROLLING = 5;
const TYRE = 6;
const DRAG = 7;
const SHOCK = 8;
const START = 9;

/** Adds a step's work to the books; call after the speeds of the step are known. */
export function countEnergy(frame: Frame): void {
  countElectric(frame);
  countTyres(frame);
  const dt = frame.span[0]!;
  const { bodyBefore, description } = frame;
  const { body, energy } = frame.state;
  const { dragArea, airDensity } = description.body;
  if (dragArea === 0) return;
  const vx = bodyBefore[0]!;
  const vy = bodyBefore[1]!;
  const drag = (airDensity * dragArea * Math.sqrt(vx * vx + vy * vy)) / 2;
  const work = vx * (vx + body[VX]!) + vy * (vy + body[VY]!);
  energy[DRAG] = energy[DRAG]! + (drag * work * dt) / 2;
}

/** Books the energy that a change of the driveline took out of the speeds, J. */
export function countShock(state: State, energy: number): void {
  state.energy[SHOCK] = state.energy[SHOCK]! + energy;
}

/** Begins the books anew. */
export function startEnergies(frame: Frame): void {
  frame.state.energy.fill(0);
  frame.state.energy[START] = kineticEnergy(frame) + potentialEnergy(frame);
}

/** The books; allocates. */
export function readEnergies(frame: Frame): Energies {
  const { energy } = frame.state;
  const potential = potentialEnergy(frame);
  const kinetic = kineticEnergy(frame) - energy[START]!;
  const losses = {
    battery: energy[BATTERY]!,
    winding: energy[WINDING]!,
    gear: energy[GEAR]!,
    friction: energy[FRICTION]!,
    rolling: energy[ROLLING]!,
    tyre: energy[TYRE]!,
    drag: energy[DRAG]!,
    shock: energy[SHOCK]!,
  };
  const lost = Object.values(losses).reduce((a, b) => a + b, 0);
  const supplied = energy[SUPPLIED]!;
  return {
    supplied,
    ...losses,
    kinetic,
    potential,
    residual: supplied - lost - kinetic - potential,
  };
}

/** Energy of motion of body, wheels, motors and slipped shafts, J. */
export function kineticEnergy({ state, description, inertia }: Frame): number {
  const { body, speeds } = state;
  const { mass, yawInertia } = description.body;
  const turning = inertia.reduce((sum, value, i) => sum + value * speeds[i]! ** 2, 0);
  const moving = mass * (body[VX]! ** 2 + body[VY]! ** 2) + yawInertia * body[YAW_RATE]! ** 2;
  return (moving + turning) / 2;
}

function potentialEnergy({ state, description }: Frame): number {
  const { gradient, uphill } = description.ground;
  const way = state.body[X]! * Math.cos(uphill) + state.body[Y]! * Math.sin(uphill);
  return description.body.mass * description.gravity * Math.sin(gradient) * way;
}

function countElectric(frame: Frame): void {
  const dt = frame.span[0]!;
  const { description, state, power, speedsBefore, motorCount } = frame;
  const { energy, battery, speeds, friction } = state;
  const source = battery[OPEN_CIRCUIT]!;
  const terminal = battery[TERMINAL_VOLTAGE]!;
  const drawn = battery[DRAWN]!;
  energy[SUPPLIED] = energy[SUPPLIED]! + source * drawn * dt;
  energy[BATTERY] = energy[BATTERY]! + (source - terminal) * drawn * dt;
  let winding = energy[WINDING]!;
  let gear = energy[GEAR]!;
  let rubbing = energy[FRICTION]!;
  for (let m = 0; m < motorCount; m++) {
    const motor = description.motors[m]!;
    const current = power.mean[m]!;
    const speed = (speeds[4 + m]! + speedsBefore[4 + m]!) / 2;
    const shaft = motor.constant * current * speed;
    // With inductance this is what the winding took and held; without, i² R.
    const copper =
      motor.inductance > 0
        ? power.duty[m]! * terminal * current - motor.constant * current * power.speed[m]!
        : power.copper[m]!;
    winding += copper * dt;
    gear += shaft * (1 - power.transmission[m]!) * dt;
    rubbing += friction[4 + m]! * speed * dt;
  }
  energy[WINDING] = winding;
  energy[GEAR] = gear;
  energy[FRICTION] = rubbing;
}

/** Slip and rolling losses, with the velocities in the middle of the step. */
function countTyres(frame: Frame): void {
  const dt = frame.span[0]!;
  const { state, px, py, cos, sin, radius, bodyBefore, speedsBefore } = frame;
  const { body, speeds, force, friction, energy } = state;
  const vx = (bodyBefore[0]! + body[VX]!) / 2;
  const vy = (bodyBefore[1]! + body[VY]!) / 2;
  const yawRate = (bodyBefore[2]! + body[YAW_RATE]!) / 2;
  let slip = 0;
  let rolling = 0;
  for (let i = 0; i < 4; i++) {
    const bx = vx - yawRate * py[i]!;
    const by = vy + yawRate * px[i]!;
    const speed = (speeds[i]! + speedsBefore[i]!) / 2;
    const along = cos[i]! * bx + sin[i]! * by - radius[i]! * speed;
    slip -= force[i]! * along + force[4 + i]! * (cos[i]! * by - sin[i]! * bx);
    rolling += friction[i]! * speed;
  }
  energy[TYRE] = energy[TYRE]! + slip * dt;
  energy[ROLLING] = energy[ROLLING]! + rolling * dt;
}
