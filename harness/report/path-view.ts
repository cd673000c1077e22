import type { TraceStyle } from './trace-style.ts';

/**
 * The floor of a simulated drive seen from above. Metres; x points to the right of the picture and
 * y up, so that a left turn goes up. Wheels in the order rear left, rear right, front left, front
 * right.
 */
export interface PathView {
  /** One for each setup, in the order of the panels' styles. */
  drives: PathDrive[];
  vehicle: VehicleOutline;
  /** Parts of the floor that differ from the rest; may reach to infinity. */
  patches: FloorPatch[];
  /** Strips across the way in which the vehicle is to keep between two lines. */
  gates: PathGate[];
  /** Sentences below the picture, such as which way a slope rises. */
  notes: string[];
}

/** Where a vehicle went. All lists are equally long. */
export interface PathDrive {
  name: string;
  /** What is to be said of it, in a sentence; empty = nothing. */
  verdict: string;
  style: TraceStyle;
  hue: number;
  /** Time, s, never falling. */
  t: ArrayLike<number>;
  /** Centre of gravity, m. */
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  /** Yaw angle and steering angle, rad, left positive. */
  yaw: ArrayLike<number>;
  steer: ArrayLike<number>;
  /** Slip of each wheel over that at which its tyre grips best; above 1 it slides. */
  slide: ArrayLike<number>[];
}

/** Size of a vehicle, m. */
export interface VehicleOutline {
  length: number;
  width: number;
  /** Centre of gravity to the front axle and to the rear axle. */
  cgToFront: number;
  cgToRear: number;
  trackFront: number;
  trackRear: number;
  wheelRadius: number;
  /** Tracks run from axle to axle on both sides. */
  isTracked: boolean;
}

/** A rectangle on the floor, m. */
export interface FloorPatch {
  fromX: number;
  toX: number;
  fromY: number;
  toY: number;
  name: string;
}

/** Two lines along x, m; one at infinity is not there. */
export interface PathGate {
  fromX: number;
  toX: number;
  right: number;
  left: number;
}
