import { AT } from './at.ts';
import { SPEEDS } from './project-driveline.ts';

/** The whole state of a plant but that of its sensors: one array and views of its parts. */
export interface State {
  readonly all: Float64Array;
  /** Time, s. */
  readonly time: Float64Array;
  /** x, y of the centre of gravity in the world, m; yaw, rad; vx, vy, m/s; yaw rate, rad/s. */
  readonly body: Float64Array;
  /** Rates of the body's two speeds, m/s², and of its yaw rate, rad/s², in the last step. */
  readonly surge: Float64Array;
  /** Steering angle of the equivalent single-track vehicle, rad. */
  readonly steering: Float64Array;
  /** Speeds of four wheels, four motors, four shafts, rad/s. */
  readonly speeds: Float64Array;
  /** Their rates in the last step, rad/s². */
  readonly rates: Float64Array;
  /** Tyre deflections: four along, four across the wheel, m. */
  readonly deflection: Float64Array;
  /** Time by which the deflections are behind, s; the next step makes up for it. */
  readonly behind: Float64Array;
  /** Torques of dry friction on four wheels and four motors, N m. */
  readonly friction: Float64Array;
  /** Mean current of each motor, A, positive in the direction of drive +. */
  readonly current: Float64Array;
  /** Temperatures of windings and of housings, °C. */
  readonly winding: Float64Array;
  readonly housing: Float64Array;
  /** Charge, 0..1; voltages of RC and terminals, V; current drawn, A; open circuit, V. */
  readonly battery: Float64Array;
  /** Lagged ax and ay that load the wheels, their latest values, m/s²; time of tipping over, s. */
  readonly transfer: Float64Array;
  /** Which of the ground's materials each wheel is on; 0 = its base. */
  readonly footing: Float64Array;
  /** Tyre forces in the middle of the last step: four along, four across, four loads, N. */
  readonly force: Float64Array;
  /** Energies since the start, J; see count-energy.ts. */
  readonly energy: Float64Array;
}

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

/** The state at the beginning of a frame's numbers. */
export function viewState(numbers: Float64Array): State {
  const part = (at: number, count: number) => numbers.subarray(at, at + count);
  return {
    all: part(0, AT.STATE_END),
    time: part(AT.TIME, 1),
    body: part(AT.X, 6),
    surge: part(AT.SURGE_X, 3),
    steering: part(AT.STEERING, 1),
    speeds: part(AT.SPEED, SPEEDS),
    rates: part(AT.RATE, SPEEDS),
    deflection: part(AT.ALONG, 8),
    behind: part(AT.BEHIND, 1),
    friction: part(AT.FRICTION, 8),
    current: part(AT.CURRENT, 4),
    winding: part(AT.WINDING, 4),
    housing: part(AT.HOUSING, 4),
    battery: part(AT.CHARGE, 5),
    transfer: part(AT.LAGGED_X, 5),
    footing: part(AT.FOOTING, 4),
    force: part(AT.FORCE, 12),
    energy: part(AT.SUPPLIED, 10),
  };
}
