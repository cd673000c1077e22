import { SPEEDS } from './project-driveline.ts';

/** How many numbers each part of the state holds, in the order of the array. */
const PARTS = {
  /** Time, s. */
  time: 1,
  /** x, y of the centre of gravity in the world, m; yaw, rad; vx, vy, m/s; yaw rate, rad/s. */
  body: 6,
  /** Rates of the body's two speeds, m/s², and of its yaw rate, rad/s², in the last step. */
  surge: 3,
  /** Steering angle of the equivalent single-track vehicle, rad. */
  steering: 1,
  /** Speeds of four wheels, four motors, four shafts, rad/s. */
  speeds: SPEEDS,
  /** Their rates in the last step, rad/s². */
  rates: SPEEDS,
  /** Tyre deflections: four along, four across the wheel, m. */
  deflection: 8,
  /** Time by which the deflections are behind, s; the next step makes up for it. */
  behind: 1,
  /** Torques of dry friction on four wheels and four motors, N m. */
  friction: 8,
  /** Mean current of each motor, A, positive in the direction of drive +. */
  current: 4,
  /** Temperatures of windings and of housings, °C. */
  winding: 4,
  housing: 4,
  /** Charge, 0..1; voltages of RC and terminals, V; current drawn, A; open circuit, V. */
  battery: 5,
  /** Lagged ax and ay that load the wheels, their latest values, m/s²; time of tipping over, s. */
  transfer: 5,
  /** Which of the ground's materials each wheel is on; 0 = its base. */
  footing: 4,
  /** Tyre forces in the middle of the last step: four along, four across, four loads, N. */
  force: 12,
  /** Energies since the start, J; see energy.ts. */
  energy: 10,
} as const;

type PartName = keyof typeof PARTS;

/** The whole state of a plant but that of its sensors: one array and views of its parts. */
export type State = { readonly all: Float64Array } & Readonly<Record<PartName, Float64Array>>;

/** Indices into `body`. */
export const X = 0;
export const Y = 1;
export const YAW = 2;
export const VX = 3;
export const VY = 4;
export const YAW_RATE = 5;

/** Indices into `battery`. */
export const CHARGE = 0;
export const SLOW_VOLTAGE = 1;
export const TERMINAL_VOLTAGE = 2;
export const DRAWN = 3;
export const OPEN_CIRCUIT = 4;

/** A state of zeros. */
export function createState(): State {
  const all = new Float64Array(Object.values(PARTS).reduce((sum, count) => sum + count, 0));
  let at = 0;
  const part = (name: PartName): Float64Array => {
    at += PARTS[name];
    return all.subarray(at - PARTS[name], at);
  };
  // Written out, in the order of PARTS: an engine reads the fields of a literal quickest.
  return {
    all,
    time: part('time'),
    body: part('body'),
    surge: part('surge'),
    steering: part('steering'),
    speeds: part('speeds'),
    rates: part('rates'),
    deflection: part('deflection'),
    behind: part('behind'),
    friction: part('friction'),
    current: part('current'),
    winding: part('winding'),
    housing: part('housing'),
    battery: part('battery'),
    transfer: part('transfer'),
    footing: part('footing'),
    force: part('force'),
    energy: part('energy'),
  };
}
