import type { Driveline } from './driveline.ts';
import type { Ground } from './ground.ts';
import type { SensorDescription } from './sensors.ts';

/**
 * A vehicle on its ground, in SI units and radians: all constants of a simulation, and none of its
 * state. Wheels are in the order rear left, rear right, front left, front right, as are the motors
 * of the core. Axes by ISO 8855: x forward, y left, z up; yaw and steering positive to the left.
 */
export interface PlantDescription {
  /** Name in reports and problems. */
  name: string;
  /** Acceleration of free fall, m/s². */
  gravity: number;
  body: BodyDescription;
  /** Rolling radius of each of the four wheels, m. */
  wheelRadius: number[];
  /** Moment of inertia of each wheel about its axle, kg m², without anything geared to it. */
  wheelInertia: number[];
  steering: SteeringDescription;
  driveline: Driveline;
  /** One for each row of `driveline.motors`. */
  motors: MotorDescription[];
  battery: BatteryDescription;
  tyres: { front: AxleTyres; rear: AxleTyres };
  ground: Ground;
  /** Friction of the chassis corner that drags where a wheel was lost. */
  skidFriction: number;
  sensors: SensorDescription;
}

/** The rigid body with its quasi-static suspension. */
export interface BodyDescription {
  /** Mass, kg. */
  mass: number;
  /** Moment of inertia about the vertical axis through the centre of gravity, kg m². */
  yawInertia: number;
  /** Centre of gravity to front axle and to rear axle, m. */
  cgToFront: number;
  cgToRear: number;
  /** Distance between the middles of the tyres of an axle, m. */
  trackFront: number;
  trackRear: number;
  /** Height of the centre of gravity, m. */
  cgHeight: number;
  /** Share of the roll moment that the front axle takes, 0..1. */
  rollShareFront: number;
  /** Time constant with which wheel loads follow the accelerations, s. */
  loadLag: number;
  /** Drag coefficient times frontal area, m². */
  dragArea: number;
  /** Density of the air, kg/m³. */
  airDensity: number;
}

/** Front-wheel steering by a servo of limited rate. */
interface SteeringDescription {
  /** Angle of the equivalent single-track vehicle at full command, rad; 0 = not steered. */
  lock: number;
  /** Greatest rate of that angle, rad/s. */
  rate: number;
  /** 1 = full Ackermann, 0 = parallel wheels; blended in the cotangent. */
  ackermann: number;
}

/** A brushed DC motor behind a PWM bridge: V = i R + L di/dt + k w, torque k i. */
export interface MotorDescription {
  /** Torque per ampere and voltage per rad/s of the motor shaft, N m/A. */
  constant: number;
  /** Resistance of winding, leads and bridge at `referenceC`, ohm. */
  resistance: number;
  /** Inductance, H; 0 = the current follows at once. */
  inductance: number;
  /** Moment of inertia of the rotor, kg m². */
  inertia: number;
  /** Torque of dry friction at the motor shaft, N m. */
  friction: number;
  /** Share of the power that the gear passes on, in either direction, 0..1. */
  gearEfficiency: number;
  /**
   * What the bridge does in the pauses of the PWM: 'brake' shorts the motor, so that zero command
   * brakes; 'coast' opens it, so that no current ever flows against the command.
   */
  bridge: 'brake' | 'coast';
  heat: HeatDescription;
}

/** Winding and housing as two bodies; the winding's resistance grows with its temperature. */
export interface HeatDescription {
  /** Heat capacities, J/K. */
  winding: number;
  housing: number;
  /** Conductances winding to housing and housing to ambient, W/K. */
  windingToHousing: number;
  housingToAmbient: number;
  /** Ambient temperature, temperature of both bodies at the start, and that of `resistance`, °C. */
  ambientC: number;
  startC: number;
  referenceC: number;
  /** Rise of resistance per kelvin, 1/K; copper 0.00393. */
  coefficient: number;
}

/** Open-circuit curve, internal resistance, one RC. */
export interface BatteryDescription {
  /** Open-circuit voltage at equally spaced charges from empty to full, V; one entry = constant. */
  openCircuit: number[];
  /** Charge of the full pack, A s; Infinity = never empties. */
  capacity: number;
  /** Charge at the start, 0..1. */
  charge: number;
  /** Resistance that drops voltage at once, ohm. */
  resistance: number;
  /** Resistance and time constant of the part that follows slowly, ohm and s. */
  slowResistance: number;
  slowTime: number;
}

/** What tells the tyres of one axle from the surface's tyre. */
export interface AxleTyres {
  /** Factor on the surface's friction. */
  friction: number;
  /** Factor on the surface's slip stiffness. */
  stiffness: number;
  /** Relative loss of friction when the load doubles from a quarter of the weight. */
  loadSensitivity: number;
}
