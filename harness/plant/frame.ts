import { copyDescription } from './copy-description.ts';
import type { Fault } from './fault.ts';
import type { Material } from './ground.ts';
import type { PlantDescription } from './plant-description.ts';
import { type Projection, projectDriveline, SPEEDS, TORQUES } from './project-driveline.ts';
import { createState, type State } from './state.ts';
import { createTyreModel, type TyreModel } from './tyre-model.ts';

/**
 * Everything the stages of a step read and write; made once, so that a step allocates nothing.
 * Stages take the frame and whole numbers only: a fraction handed to a function, or back, may be
 * put on the heap.
 */
export interface Frame {
  readonly description: PlantDescription;
  readonly state: State;
  /** Length of the step and half of it, s. */
  readonly span: Float64Array;
  /** Commands: four drives and the steering, permille. */
  readonly command: Float64Array;
  readonly motorCount: number;
  /** True if energies are booked. */
  readonly counts: boolean;
  /** Weight square to the ground, N, and a quarter of it. */
  readonly weight: Float64Array;
  /** Positions of the wheels from the centre of gravity, m. */
  readonly px: Float64Array;
  readonly py: Float64Array;
  /** Cosine and sine of each wheel's steering angle, and the angle they belong to. */
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  readonly steered: Float64Array;
  /** Cosine and sine of the yaw angle in the middle of the step. */
  readonly heading: Float64Array;
  /** Rolling radius, m; 0 for a lost wheel. */
  readonly radius: Float64Array;
  /** See Projection, by rows of TORQUES, and its first eight rows' sums of magnitudes. */
  readonly response: Float64Array;
  readonly coupling: Float64Array;
  readonly inertia: Float64Array;
  /** Dry friction that each wheel (rolling) and each motor can hold, N m. */
  readonly hold: Float64Array;
  /** Torques on wheels and motors before friction, N m. */
  readonly torque: Float64Array;
  /** The same after friction, N m. */
  readonly net: Float64Array;
  /** Sum of the tyre forces on the body: along, across, N; moment, N m. */
  readonly sum: Float64Array;
  /** Acceleration of the centre of gravity along and across the body, and that by tyres, m/s². */
  readonly acceleration: Float64Array;
  /** Velocities of body and speeds before this step's forces acted. */
  readonly bodyBefore: Float64Array;
  readonly speedsBefore: Float64Array;
  readonly contact: Contacts;
  readonly ease: Ease;
  readonly tyre: Tyres;
  readonly power: Power;
  /** Per motor, HEATING numbers of its heat that depend on the length of the step alone. */
  readonly heating: Float64Array;
  /** 1 for a motor that can draw current. */
  readonly alive: Float64Array;
  /** 1 for each wheel whose shaft has slipped, and how many have. */
  readonly slipped: Float64Array;
  readonly loose: Float64Array;
}

/** How many numbers `heating` holds for each motor. */
export const HEATING = 9;

/** Motion of the four contact points, m/s. */
interface Contacts {
  /** Speed against which slip is taken. */
  readonly rolling: Float64Array;
  /** Slip velocity along and across the wheel: Vx - R w, and Vy. */
  readonly along: Float64Array;
  readonly across: Float64Array;
}

/** Low-speed damping of the tyres in this step. */
interface Ease {
  /** Force along each wheel over its slip velocity, N s/m; and 1 if any of them is not 0. */
  readonly damper: Float64Array;
  readonly slow: Float64Array;
  /** Share of the step by which each wheel's damping is reckoned ahead. */
  readonly ahead: Float64Array;
  /** What of the damper is reckoned at the end of the step, times the radius, N s. */
  readonly share: Float64Array;
  /** The system for the wheels' changes of speed, row by row, and its right side, rad/s. */
  readonly matrix: Float64Array;
  readonly change: Float64Array;
}

/** What each of the four tyres stands on and how it behaves there. */
interface Tyres {
  /** True if any material has a tyre whose side force acts behind the wheel's middle. */
  readonly hasTrail: boolean;
  readonly model: TyreModel[];
  readonly friction: Float64Array;
  /** Relative loss of friction when the load doubles. */
  readonly sensitivity: Float64Array;
  readonly rolling: Float64Array;
  readonly relaxation: Float64Array;
  /** Its inverse, 1/m. */
  readonly perRelaxation: Float64Array;
  /** Below this speed the deflection is damped, m/s; time constant of that damping, s. */
  readonly slowSpeed: Float64Array;
  readonly damping: Float64Array;
  /** Slip of greatest force. */
  readonly peak: Float64Array;
  /** The ground's materials, base first, as each axle feels them. */
  readonly grounds: { rear: Footing; front: Footing }[];
}

/** A material as the tyres of one axle feel it. */
interface Footing {
  model: TyreModel;
  friction: number;
  rolling: number;
  relaxation: number;
  slowSpeed: number;
  damping: number;
  peak: number;
}

/** Per motor, for one step. */
interface Power {
  readonly duty: Float64Array;
  /** Current = offset + gain x duty x terminal voltage. */
  readonly offset: Float64Array;
  readonly gain: Float64Array;
  /** Current at the start and in the middle of the step, A; resistance of the warm motor, ohm. */
  readonly begin: Float64Array;
  readonly mean: Float64Array;
  readonly resistance: Float64Array;
  /** Heat in winding and housing, W. */
  readonly copper: Float64Array;
  readonly rubbing: Float64Array;
  /** Speed expected in the middle of the step, rad/s; torque on the gear over k i. */
  readonly speed: Float64Array;
  readonly transmission: Float64Array;
}

/** @param from checked by `checkDescription` */
export function createFrame(from: PlantDescription, counts: boolean): Frame {
  const description = copyDescription(from);
  const { body } = description;
  const weight = body.mass * description.gravity * Math.cos(description.ground.gradient);
  const halfRear = body.trackRear / 2;
  const halfFront = body.trackFront / 2;
  const frame: Frame = {
    description,
    state: createState(),
    span: new Float64Array(2),
    command: new Float64Array(5),
    motorCount: description.motors.length,
    counts,
    weight: Float64Array.of(weight, weight / 4),
    px: Float64Array.of(-body.cgToRear, -body.cgToRear, body.cgToFront, body.cgToFront),
    py: Float64Array.of(halfRear, -halfRear, halfFront, -halfFront),
    cos: Float64Array.of(1, 1, 1, 1),
    sin: new Float64Array(4),
    steered: new Float64Array(1),
    heading: Float64Array.of(1, 0),
    radius: new Float64Array(4),
    response: new Float64Array(SPEEDS * TORQUES),
    coupling: new Float64Array(8),
    inertia: new Float64Array(SPEEDS),
    hold: Float64Array.of(0, 0, 0, 0, ...fourOf(description.motors.map((each) => each.friction))),
    torque: new Float64Array(8),
    net: new Float64Array(8),
    sum: new Float64Array(3),
    acceleration: new Float64Array(4),
    bodyBefore: new Float64Array(3),
    speedsBefore: new Float64Array(SPEEDS),
    contact: { rolling: fourZeros(), along: fourZeros(), across: fourZeros() },
    ease: {
      damper: fourZeros(),
      slow: new Float64Array(1),
      ahead: fourZeros(),
      share: fourZeros(),
      matrix: new Float64Array(16),
      change: fourZeros(),
    },
    tyre: createTyres(description),
    power: {
      duty: fourZeros(),
      offset: fourZeros(),
      gain: fourZeros(),
      begin: fourZeros(),
      mean: fourZeros(),
      resistance: fourZeros(),
      copper: fourZeros(),
      rubbing: fourZeros(),
      speed: fourZeros(),
      transmission: fourZeros(),
    },
    heating: new Float64Array(4 * HEATING),
    alive: new Float64Array(4),
    slipped: new Float64Array(4),
    loose: new Float64Array(1),
  };
  repair(frame, []);
  return frame;
}

/** Puts the frame's constants into the state of repair that the faults name. */
export function repair(frame: Frame, faults: readonly Fault[]): Projection {
  const { description } = frame;
  const projection = projectDriveline(
    description.driveline,
    { wheels: description.wheelInertia, motors: description.motors.map(({ inertia }) => inertia) },
    faults,
  );
  frame.response.set(projection.response.flatMap((row) => row.slice(0, TORQUES)));
  frame.inertia.set(projection.inertia);
  for (let i = 0; i < 8; i++) frame.coupling[i] = magnitude(projection.response[i]!);
  const lost = (i: number) => faults.some((f) => f.kind === 'lostWheel' && f.wheel === i);
  for (let i = 0; i < 4; i++) {
    frame.radius[i] = lost(i) ? 0 : description.wheelRadius[i]!;
    const dead = faults.some((f) => f.kind === 'deadMotor' && f.motor === i);
    frame.alive[i] = i < frame.motorCount && !dead ? 1 : 0;
    stand(frame, i);
  }
  frame.slipped.set(projection.slipped.map(Number));
  frame.loose[0] = projection.slipped.filter(Boolean).length;
  return projection;
}

/** Sum of the magnitudes of a row over wheels and motors; left and right are added first. */
function magnitude(row: readonly number[]): number {
  let sum = 0;
  for (let j = 0; j < 8; j += 2) sum += Math.abs(row[j]!) + Math.abs(row[j + 1]!);
  return sum;
}

/** Gives a tyre the constants of the material that the state says it is on. */
export function stand(frame: Frame, wheel: number): void {
  const { tyre, description, state } = frame;
  const footing = tyre.grounds[state.footing[wheel]!]![wheel < 2 ? 'rear' : 'front'];
  tyre.model[wheel] = footing.model;
  tyre.friction[wheel] = frame.radius[wheel] === 0 ? description.skidFriction : footing.friction;
  tyre.rolling[wheel] = footing.rolling;
  tyre.relaxation[wheel] = footing.relaxation;
  tyre.perRelaxation[wheel] = 1 / footing.relaxation;
  tyre.slowSpeed[wheel] = footing.slowSpeed;
  tyre.damping[wheel] = footing.damping;
  tyre.peak[wheel] = footing.peak;
}

function createTyres(description: PlantDescription): Tyres {
  const { ground, tyres } = description;
  const materials = [ground.base, ...ground.patches.map(({ material }) => material)];
  const grounds = materials.map((material) => ({
    rear: footing(description, material, tyres.rear),
    front: footing(description, material, tyres.front),
  }));
  const { rear, front } = tyres;
  return {
    hasTrail: materials.some(({ tyre }) => tyre.kind === 'brush'),
    model: [0, 1, 2, 3].map((i) => grounds[0]![i < 2 ? 'rear' : 'front'].model),
    friction: fourZeros(),
    sensitivity: Float64Array.of(
      rear.loadSensitivity,
      rear.loadSensitivity,
      front.loadSensitivity,
      front.loadSensitivity,
    ),
    rolling: fourZeros(),
    relaxation: fourZeros(),
    perRelaxation: fourZeros(),
    slowSpeed: fourZeros(),
    damping: fourZeros(),
    peak: fourZeros(),
    grounds,
  };
}

/** Share of critical damping of the body on its deflected tyres at standstill. */
const DAMPING = 0.7;

function footing(
  { body, gravity }: PlantDescription,
  material: Material,
  axle: PlantDescription['tyres']['rear'],
): Footing {
  const model = createTyreModel(material.tyre, axle.stiffness);
  const friction = material.friction * axle.friction;
  const relaxation = material.relaxationLength;
  const load = (body.mass * gravity) / 4;
  // The body swaying on its four tyres' deflections, rad/s.
  const sway = Math.sqrt((4 * model.stiffness(friction, load)) / (relaxation * body.mass));
  return {
    model,
    friction,
    rolling: material.rolling,
    relaxation,
    slowSpeed: relaxation * sway,
    damping: (2 * DAMPING) / sway,
    peak: model.peakSlip(friction, load),
  };
}

function fourOf(values: readonly number[]): number[] {
  return [0, 1, 2, 3].map((i) => values[i] ?? 0);
}

function fourZeros(): Float64Array {
  return new Float64Array(4);
}
