import type { MetricId } from '../metrics/metric.ts';
import type { Fault } from '../plant/fault.ts';
import type { Ground } from '../plant/ground.ts';

/** A scripted drive: sticks over time, or a driver who looks where the vehicle is. */
export interface Manoeuvre {
  /** As on the command line: lower case, words joined by hyphens. */
  name: string;
  title: string;
  /** Standard and clause, or whose idea it is. */
  source: string;
  /** What it shows, in a sentence for the builder. */
  meaning: string;
  /** Metrics it is driven for, the most telling first. */
  headline: readonly MetricId[];
  /**
   * What its verdict may rest on: a `bend` shows the balance and, where it is `steady`, the path
   * radius; a `straight` only whether the car spins; a `pivot` nothing, since it is meant to turn
   * on the spot.
   */
  kind: 'bend' | 'straight' | 'pivot';
  /** Why the car cannot drive it, or undefined if it can. */
  refuses?(car: ManoeuvreCar): string | undefined;
  /** Time the sticks take, s; the arming before it comes on top. */
  durationS(car: ManoeuvreCar): number;
  /** A driver at the start of the manoeuvre. */
  createDriver(car: ManoeuvreCar): Driver;
  /** The ground it needs, made of the surface's own; left out = the surface as it is. */
  ground?(surface: Ground): Ground;
  /** When that happens which it is about, s: step, braking, loss, fault. Left out = 0. */
  actionS?(car: ManoeuvreCar): number;
  /** The part in which the bend no longer changes, or hardly does. */
  steady?(car: ManoeuvreCar): Span;
  /** The part in which lateral acceleration rises so slowly that the car follows, ISO 4138. */
  sweep?(car: ManoeuvreCar): Span;
  /** Where it is to stay, in the order of the way. */
  course?(car: ManoeuvreCar): Gate[];
  /** What breaks on the way, in the order of time. */
  faults?(car: ManoeuvreCar): TimedFault[];
}

/** A part of the manoeuvre, s since it began; both ends count. */
export interface Span {
  fromS: number;
  toS: number;
}

/**
 * A strip across the way in which the vehicle's outline must keep between two lines; m, axes at
 * the start of the manoeuvre. ±Infinity = open to that side.
 */
export interface Gate {
  fromX: number;
  toX: number;
  right: number;
  left: number;
}

/** Faults that are present from a time of the manoeuvre on. */
interface TimedFault {
  atS: number;
  faults: readonly Fault[];
}

/** What a manoeuvre may know of the vehicle. SI units. */
export interface ManoeuvreCar {
  layout: 'single' | 'pair' | 'twoPairs' | 'tracked';
  wheelbase: number;
  track: number;
  /** Centre of gravity to the front axle, m. */
  cgToFront: number;
  /** Outer length and width, m. */
  length: number;
  width: number;
  /** Steering angle at full lock, rad. */
  lock: number;
  /** No-load speed at the supply's open-circuit voltage: more than it will reach, m/s. */
  topSpeed: number;
  /** Friction of the surface, 1. */
  friction: number;
}

/** Somebody, or a script, that moves the sticks. Made anew for each drive. */
export interface Driver {
  /** Called once a tick of the hub; writes every field of `sticks`; allocates nothing. */
  drive(view: DriverView, sticks: Sticks): void;
}

/** What a driver sees; world axes, origin and heading at the start. */
export interface DriverView {
  /** Time since the manoeuvre began, s. */
  t: number;
  /** Centre of gravity, m; yaw angle, rad. */
  x: number;
  y: number;
  yaw: number;
  /** Speed ahead and to the left, m/s; yaw rate, rad/s. */
  vx: number;
  vy: number;
  yawRate: number;
}

/** Positions of the sticks. */
export interface Sticks {
  /** -1 full reverse to 1 full forward. */
  throttle: number;
  /** -1 full right to 1 full left. */
  steer: number;
  /** False while no frame of the transmitter arrives. */
  linkUp: boolean;
}
