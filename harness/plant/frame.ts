import { AT } from './at.ts';
import { copyDescription } from './copy-description.ts';
import { createTyreModel } from './create-tyre-model.ts';
import type { Fault } from './fault.ts';
import type { Material } from './ground.ts';
import type { PlantDescription } from './plant-description.ts';
import { type Projection, projectDriveline, SPEEDS, TORQUES } from './project-driveline.ts';
import { type State, viewState } from './state.ts';
import type { TyreModel } from './tyre-model.ts';

/**
 * Everything the stages of a step read and write; made once, so that a step allocates nothing.
 * Stages take the frame and whole numbers only: a fraction handed to a function, or back, may be
 * put on the heap.
 */
export interface Frame {
  readonly description: PlantDescription;
  /** All numbers of a step, by `AT`; fields of state, span and command are parts of it. */
  readonly numbers: Float64Array;
  readonly state: State;
  /** Length of the step and half of it, s. */
  readonly span: Float64Array;
  /** Commands of four drives, permille. */
  readonly command: Float64Array;
  readonly motorCount: number;
  /** True if energies are booked. */
  readonly counts: boolean;
  /** True if any bridge coasts, so that currents may have to be struck out. */
  readonly coasts: boolean;
  /** Positions of the wheels from the centre of gravity, m. */
  readonly px: Float64Array;
  readonly py: Float64Array;
  /** Rolling radius, m; 0 for a lost wheel. */
  readonly radius: Float64Array;
  /** See Projection, by rows of TORQUES. */
  readonly response: Float64Array;
  readonly inertia: Float64Array;
  /** Dry friction that each wheel (rolling) and each motor can hold, N m. */
  readonly hold: Float64Array;
  /** Sum of the tyre forces on the body: along, across, N; moment, N m. */
  readonly sum: Float64Array;
  /** Acceleration of the centre of gravity along and across the body, and that by tyres, m/s². */
  readonly acceleration: Float64Array;
  readonly contact: Contacts;
  readonly tyre: Tyres;
  readonly power: Power;
  /** Open-circuit voltage at evenly spaced charges from empty to full, V. */
  readonly curve: Float64Array;
  /** 1 for each wheel whose shaft has slipped. */
  readonly slipped: Float64Array;
}

/** Motion of the four contact points, m/s. */
interface Contacts {
  /** Speed against which slip is taken. */
  readonly rolling: Float64Array;
  /** Slip velocity along and across the wheel: Vx - R w, and Vy. */
  readonly along: Float64Array;
  readonly across: Float64Array;
}

/** What each of the four tyres stands on and how it behaves there. */
interface Tyres {
  /** True if any material has a tyre whose side force acts behind the wheel's middle. */
  readonly hasTrail: boolean;
  readonly model: TyreModel[];
  readonly relaxation: Float64Array;
  /** Time constant of the damping at low speed, s. */
  readonly damping: Float64Array;
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
  /** Resistance of the warm motor, ohm. */
  readonly resistance: Float64Array;
  /** Heat in winding and housing, W. */
  readonly copper: Float64Array;
  readonly rubbing: Float64Array;
}

/** @param from checked by `checkDescription` */
export function createFrame(from: PlantDescription, counts: boolean): Frame {
  const description = copyDescription(from);
  const numbers = new Float64Array(AT.END);
  const part = (at: number, count: number) => numbers.subarray(at, at + count);
  const frame: Frame = {
    description,
    numbers,
    state: viewState(numbers),
    span: part(AT.SPAN, 2),
    command: part(AT.COMMAND, 4),
    motorCount: description.motors.length,
    counts,
    coasts: description.motors.some(({ bridge }) => bridge === 'coast'),
    px: part(AT.PX, 4),
    py: part(AT.PY, 4),
    radius: part(AT.RADIUS, 4),
    response: part(AT.RESPONSE, SPEEDS * TORQUES),
    inertia: part(AT.INERTIA, SPEEDS),
    hold: part(AT.HOLD, 8),
    sum: part(AT.SUM_X, 3),
    acceleration: part(AT.ACCELERATION_X, 4),
    contact: {
      rolling: part(AT.ROLLING, 4),
      along: part(AT.SLIP_ALONG, 4),
      across: part(AT.SLIP_ACROSS, 4),
    },
    tyre: createTyres(description, numbers),
    power: {
      resistance: part(AT.WARM_RESISTANCE, 4),
      copper: part(AT.COPPER, 4),
      rubbing: part(AT.RUBBING, 4),
    },
    curve: Float64Array.from(description.battery.openCircuit),
    slipped: part(AT.SLIPPED, 4),
  };
  numbers.fill(1, AT.COS, AT.COS + 4);
  numbers[AT.HEADING_COS] = 1;
  writeBody(numbers, description);
  writeMotors(numbers, description);
  repair(frame, []);
  return frame;
}

function writeBody(numbers: Float64Array, { body, gravity, ground, tyres }: PlantDescription) {
  const weight = body.mass * gravity * Math.cos(ground.gradient);
  const pull = gravity * Math.sin(ground.gradient);
  const halfRear = body.trackRear / 2;
  const halfFront = body.trackFront / 2;
  const { rear, front } = tyres;
  const n = numbers;
  n[AT.WEIGHT] = weight;
  n[AT.QUARTER_WEIGHT] = weight / 4;
  n.set([-body.cgToRear, -body.cgToRear, body.cgToFront, body.cgToFront], AT.PX);
  n.set([halfRear, -halfRear, halfFront, -halfFront], AT.PY);
  n.fill(rear.loadSensitivity, AT.SENSITIVITY, AT.SENSITIVITY + 2);
  n.fill(front.loadSensitivity, AT.SENSITIVITY + 2, AT.SENSITIVITY + 4);
  n[AT.MASS] = body.mass;
  n[AT.YAW_INERTIA] = body.yawInertia;
  n[AT.CG_HEIGHT] = body.cgHeight;
  n[AT.WHEELBASE] = body.cgToFront + body.cgToRear;
  n[AT.WEIGHT_TO_REAR] = weight * body.cgToRear;
  n[AT.TRACK_FRONT] = body.trackFront;
  n[AT.TRACK_REAR] = body.trackRear;
  n[AT.ROLL_SHARE_FRONT] = body.rollShareFront;
  n[AT.LOAD_LAG] = body.loadLag;
  n[AT.AIR] = body.airDensity * body.dragArea;
  n[AT.GRADIENT] = ground.gradient;
  n[AT.PULL_X] = -pull * Math.cos(ground.uphill);
  n[AT.PULL_Y] = -pull * Math.sin(ground.uphill);
}

function writeMotors(numbers: Float64Array, description: PlantDescription) {
  const { steering, body, battery, motors } = description;
  const n = numbers;
  const wheelbase = body.cgToFront + body.cgToRear;
  n[AT.LOCK] = steering.lock;
  n[AT.STEERING_RATE] = steering.rate;
  n[AT.STEERING_SHARE] = (steering.ackermann * body.trackFront) / (2 * wheelbase);
  n[AT.PACK_RESISTANCE] = battery.resistance;
  n[AT.PACK_SLOW_RESISTANCE] = battery.slowResistance;
  n[AT.PACK_SLOW_TIME] = battery.slowTime;
  n[AT.PACK_CAPACITY] = battery.capacity;
  for (let m = 0; m < motors.length; m++) {
    const { constant, resistance, inductance, friction, gearEfficiency, heat } = motors[m]!;
    n[AT.HOLD + 4 + m] = friction;
    n[AT.MOTOR_CONSTANT + m] = constant;
    n[AT.RESISTANCE + m] = resistance;
    n[AT.INDUCTANCE + m] = inductance;
    n[AT.EFFICIENCY + m] = gearEfficiency;
    n[AT.EFFICIENCY_SPAN + m] = 1 / gearEfficiency - gearEfficiency;
    n[AT.REFERENCE_C + m] = heat.referenceC;
    n[AT.COEFFICIENT + m] = heat.coefficient;
  }
}

/** Puts the frame's constants into the state of repair that the faults name. */
export function repair(frame: Frame, faults: readonly Fault[]): Projection {
  const { description, numbers } = frame;
  const projection = projectDriveline(
    description.driveline,
    { wheels: description.wheelInertia, motors: description.motors.map(({ inertia }) => inertia) },
    faults,
  );
  for (let row = 0; row < SPEEDS; row++) {
    const from = projection.response[row]!;
    for (let j = 0; j < TORQUES; j++) numbers[AT.RESPONSE + row * TORQUES + j] = from[j]!;
  }
  frame.inertia.set(projection.inertia);
  for (let i = 0; i < 8; i++) numbers[AT.COUPLING + i] = magnitude(projection.response[i]!);
  const lost = (i: number) => faults.some((f) => f.kind === 'lostWheel' && f.wheel === i);
  for (let i = 0; i < 4; i++) {
    frame.radius[i] = lost(i) ? 0 : description.wheelRadius[i]!;
    const dead = faults.some((f) => f.kind === 'deadMotor' && f.motor === i);
    numbers[AT.ALIVE + i] = i < frame.motorCount && !dead ? 1 : 0;
    stand(frame, i);
  }
  frame.slipped.set(projection.slipped.map(Number));
  numbers[AT.LOOSE] = projection.slipped.filter(Boolean).length;
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
  const { tyre, description, numbers: n } = frame;
  const ground = tyre.grounds[n[AT.FOOTING + wheel]!]!;
  const footing = wheel < 2 ? ground.rear : ground.front;
  tyre.model[wheel] = footing.model;
  n[AT.GRIP + wheel] = n[AT.RADIUS + wheel] === 0 ? description.skidFriction : footing.friction;
  n[AT.ROLLING_RESISTANCE + wheel] = footing.rolling;
  n[AT.RELAXATION + wheel] = footing.relaxation;
  n[AT.PER_RELAXATION + wheel] = 1 / footing.relaxation;
  n[AT.SLOW_SPEED + wheel] = footing.slowSpeed;
  n[AT.DAMPING + wheel] = footing.damping;
  n[AT.PEAK + wheel] = footing.peak;
}

function createTyres(description: PlantDescription, numbers: Float64Array): Tyres {
  const { ground, tyres } = description;
  const materials = [ground.base, ...ground.patches.map(({ material }) => material)];
  const grounds = materials.map((material) => ({
    rear: footing(description, material, tyres.rear),
    front: footing(description, material, tyres.front),
  }));
  const { rear, front } = grounds[0]!;
  return {
    hasTrail: materials.some(({ tyre }) => tyre.kind === 'brush'),
    model: [rear.model, rear.model, front.model, front.model],
    relaxation: numbers.subarray(AT.RELAXATION, AT.RELAXATION + 4),
    damping: numbers.subarray(AT.DAMPING, AT.DAMPING + 4),
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
