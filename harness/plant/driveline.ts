/**
 * What turns with what, as two small matrices over the speeds w of the four wheels (rear left,
 * rear right, front left, front right): motor speeds w_m = G w, and A w = 0 for differentials that
 * share their input and for locked shafts.
 */
export interface Driveline {
  /** Rows of G: turns of each motor for one turn of each wheel. */
  motors: number[][];
  /** Rows of A. */
  constraints: Constraint[];
  /** Share of a wheel's moment of inertia that stays on its shaft when that slips out, kg m². */
  shaftInertia: number;
}

/** One row of A, with the name by which a fault refers to it. */
interface Constraint {
  name: string;
  row: number[];
}

/** A single motor, whichever wheels it drives. */
export function singleMotor(
  axle: 'rear' | 'front' | 'all',
  differential: 'open' | 'locked',
  ratio: number,
): Omit<Driveline, 'shaftInertia'> {
  const half = ratio / 2;
  const quarter = ratio / 4;
  const constraints: Constraint[] = [];
  if (differential === 'locked') {
    if (axle !== 'front') constraints.push({ name: 'rearAxle', row: [1, -1, 0, 0] });
    if (axle !== 'rear') constraints.push({ name: 'frontAxle', row: [0, 0, 1, -1] });
    if (axle === 'all') constraints.push({ name: 'frontDrive', row: [1, 1, -1, -1] });
  }
  const row = {
    rear: [half, half, 0, 0],
    front: [0, 0, half, half],
    all: [quarter, quarter, quarter, quarter],
  }[axle];
  return { motors: [row], constraints };
}

/**
 * A motor for each rear wheel.
 *
 * @param front 'averaged' drives the front axle through a differential between both rear sides
 *   and one between the front wheels: the mean front speed is the mean rear speed
 */
export function rearPair(
  front: 'none' | 'averaged',
  ratio: number,
): Omit<Driveline, 'shaftInertia'> {
  const constraints = front === 'none' ? [] : [{ name: 'frontDrive', row: [1, 1, -1, -1] }];
  const motors = [
    [ratio, 0, 0, 0],
    [0, ratio, 0, 0],
  ];
  return { motors, constraints };
}

/** A motor for each axle, each through an open differential; rear motor first. */
export function axlePair(ratio: number): Omit<Driveline, 'shaftInertia'> {
  const half = ratio / 2;
  const motors = [
    [half, half, 0, 0],
    [0, 0, half, half],
  ];
  return { motors, constraints: [] };
}

/** A motor for each wheel. */
export function fourMotors(ratio: number): Omit<Driveline, 'shaftInertia'> {
  const motors = [0, 1, 2, 3].map((wheel) => [0, 1, 2, 3].map((i) => (i === wheel ? ratio : 0)));
  return { motors, constraints: [] };
}

/** A motor for each track, or for both wheels of a side. */
export function tracked(ratio: number): Omit<Driveline, 'shaftInertia'> {
  return {
    motors: rearPair('none', ratio).motors,
    constraints: [
      { name: 'leftTrack', row: [1, 0, -1, 0] },
      { name: 'rightTrack', row: [0, 1, 0, -1] },
    ],
  };
}
