import * as v from 'valibot';
import { type Problem, UserError } from '../problems.ts';
import { createFrame, type Frame } from './frame.ts';
import { longestStep } from './longest-step.ts';
import type { PlantDescription } from './plant-description.ts';
import { projectDriveline } from './project-driveline.ts';

/**
 * Refuses a vehicle that cannot exist, or that no step could follow.
 *
 * @param counts true if the frame is to book energies
 * @returns the frame that it was tried with, at rest
 * @throws UserError with every field that is out of range; if none is, with every layout fault
 */
export function checkDescription(description: PlantDescription, counts = false): Frame {
  const result = v.safeParse(schema, description);
  if (!result.success)
    throw new UserError(result.issues.map((issue) => toProblem(description, issue)));
  const problems = [...checkLayout(description), ...checkSteering(description)];
  if (problems.length > 0) throw new UserError(problems);
  const frame = createFrame(description, counts);
  const { step, field } = longestStep(frame);
  if (step >= SHORTEST_STEP) return frame;
  const other = field.startsWith('motors')
    ? 'the motor’s resistance'
    : 'lower the tyre’s stiffness';
  throw new UserError([
    {
      file: description.name,
      field,
      message:
        `needs steps shorter than ${show(step * 1000)} ms, ` +
        `expected at least ${SHORTEST_STEP * 1000} ms.`,
      cure: `Raise it, or ${other}; real parts are not that light.`,
    },
  ]);
}

/** Shorter steps are not worth waiting for, s. */
const SHORTEST_STEP = 2e-5;

/** A number in an inclusive range; more than 0 where `least` is 0 and `open`. */
function range(least: number, most: number, note: string) {
  return v.pipe(
    v.number('expected a number.'),
    v.check(
      (value) => value >= least && value <= most,
      ({ input }) => `found ${input}, expected ${least} to ${most}: ${note}.`,
    ),
  );
}

function positive(most: number, note: string) {
  return v.pipe(
    v.number('expected a number.'),
    v.check(
      (value) => value > 0 && value <= most,
      ({ input }) => `found ${input}, expected more than 0 and at most ${most}: ${note}.`,
    ),
  );
}

const between = 'the centre of gravity lies between the axles';
const four = <T extends v.GenericSchema>(item: T) =>
  v.pipe(v.array(item), v.length(4, 'expected one for each of four wheels.'));
const row = four(v.pipe(v.number(), v.finite('expected a finite number.')));

const body = v.object({
  mass: positive(1000, 'a mass in kg'),
  yawInertia: positive(10_000, 'a moment of inertia in kg m²'),
  cgToFront: positive(10, between),
  cgToRear: positive(10, between),
  trackFront: positive(10, 'a width in m'),
  trackRear: positive(10, 'a width in m'),
  cgHeight: range(0, 5, 'a height in m'),
  rollShareFront: range(0, 1, 'a share'),
  loadLag: positive(1, 'a time in s'),
  dragArea: range(0, 10, 'an area in m²'),
  airDensity: range(0, 10, 'a density in kg/m³'),
});

const motor = v.object({
  constant: positive(10, 'a motor constant in N m/A'),
  resistance: positive(1000, 'a resistance in ohm'),
  inductance: range(0, 1, 'an inductance in H'),
  inertia: range(0, 1, 'a moment of inertia in kg m²'),
  friction: range(0, 10, 'a torque in N m'),
  gearEfficiency: range(0.05, 1, 'a share of the power'),
  bridge: v.picklist(['brake', 'coast']),
  heat: v.object({
    winding: positive(1e9, 'a heat capacity in J/K'),
    housing: positive(1e9, 'a heat capacity in J/K'),
    windingToHousing: range(0, 1e6, 'a conductance in W/K'),
    housingToAmbient: range(0, 1e6, 'a conductance in W/K'),
    ambientC: range(-60, 200, 'a temperature in °C'),
    startC: range(-60, 400, 'a temperature in °C'),
    referenceC: range(-60, 400, 'a temperature in °C'),
    coefficient: range(0, 0.02, 'a rise of resistance in 1/K'),
  }),
});

const battery = v.object({
  openCircuit: v.pipe(v.array(positive(1000, 'a voltage in V')), v.minLength(1)),
  capacity: positive(Infinity, 'a charge in A s'),
  charge: range(0, 1, 'a share'),
  resistance: range(0, 100, 'a resistance in ohm'),
  slowResistance: range(0, 100, 'a resistance in ohm'),
  slowTime: range(0, 1e6, 'a time in s'),
});

const material = v.object({
  name: v.string(),
  friction: positive(1e4, 'a friction coefficient'),
  rolling: range(0, 1, 'rolling resistance over load'),
  relaxationLength: positive(10, 'a length in m'),
  tyre: v.variant('kind', [
    v.object({
      kind: v.literal('magicFormula'),
      stiffnessB: positive(1000, 'the stiffness factor'),
      shapeC: range(0.5, 3, 'the shape factor'),
      curvatureE: range(-100, 1, 'the curvature factor'),
    }),
    v.object({
      kind: v.literal('brush'),
      slipStiffness: positive(1e7, 'a slip stiffness in N'),
      halfContact: range(0, 1, 'a length in m'),
    }),
  ]),
});

const axleTyres = v.object({
  friction: positive(10, 'a factor'),
  stiffness: positive(10, 'a factor'),
  loadSensitivity: range(0, 0.9, 'a share'),
});

const schema = v.object({
  gravity: range(0, 30, 'an acceleration in m/s²'),
  body,
  wheelRadius: four(positive(5, 'a radius in m')),
  wheelInertia: four(positive(1000, 'a moment of inertia in kg m²')),
  steering: v.object({
    lock: range(0, 1.4, 'an angle in rad'),
    rate: positive(1000, 'a rate in rad/s'),
    ackermann: range(-1, 2, '1 is full Ackermann, 0 parallel'),
  }),
  driveline: v.object({
    motors: v.pipe(v.array(row), v.minLength(1, 'expected 1 to 4 motors.'), v.maxLength(4)),
    constraints: v.array(v.object({ name: v.string(), row })),
    shaftInertia: positive(1, 'a moment of inertia in kg m²'),
  }),
  motors: v.array(motor),
  battery,
  tyres: v.object({ front: axleTyres, rear: axleTyres }),
  ground: v.object({
    base: material,
    patches: v.array(v.object({ material })),
    gradient: range(-1, 1, 'an angle in rad'),
    uphill: v.pipe(v.number(), v.finite('expected a finite number.')),
  }),
  skidFriction: range(0, 10, 'a friction coefficient'),
});

function toProblem({ name }: PlantDescription, issue: v.BaseIssue<unknown>): Problem {
  const path = (issue.path ?? []).reduce(
    (at, { key }) => (typeof key === 'number' ? `${at}[${key}]` : `${at}.${String(key)}`),
    '',
  );
  return { file: name, field: path.replace(/^\./, ''), message: issue.message };
}

/** A share of the whole below which a sum counts as zero. */
const NEGLIGIBLE = 0.05;

function checkLayout({
  name: file,
  driveline,
  wheelRadius,
  wheelInertia,
  motors,
}: PlantDescription) {
  const problems: Problem[] = [];
  const refuse = (field: string, message: string, cure: string) =>
    problems.push({ file, field, message, cure });
  if (motors.length !== driveline.motors.length) {
    const rows = `${driveline.motors.length} rows of driveline.motors`;
    const message = `found ${motors.length}, expected one for each of ${rows}.`;
    refuse('motors', message, 'Describe each motor once.');
    return problems;
  }
  for (const [m, turns] of driveline.motors.entries()) {
    if (turns.every((value) => value === 0)) {
      const message = 'found a gear ratio of 0 to every wheel, expected one that is not 0.';
      refuse(
        `driveline.motors[${m}]`,
        message,
        'Say how often the motor turns for one turn of the wheel.',
      );
    }
  }
  if (driveline.shaftInertia > Math.min(...wheelInertia) / 2) {
    const message = `found ${driveline.shaftInertia}, expected at most half of any wheelInertia.`;
    refuse('driveline.shaftInertia', message, 'It is the part of a wheel that stays on its shaft.');
  }
  if (problems.length > 0) return problems;
  for (const { name, row: turns } of driveline.constraints) {
    const way = turns.map((value, i) => value / wheelRadius[i]!);
    const straight = Math.abs(way.reduce((a, b) => a + b, 0));
    if (straight <= NEGLIGIBLE * way.reduce((sum, value) => sum + Math.abs(value), 0)) continue;
    const message = 'over-constrains the wheels: they could not all roll straight ahead.';
    refuse(
      `driveline.constraints ${name}`,
      message,
      'Expected entries over wheel radii that add up to 0.',
    );
  }
  const inertias = { wheels: wheelInertia, motors: motors.map(({ inertia }) => inertia) };
  const { redundant, response } = projectDriveline(driveline, inertias);
  for (const name of redundant) {
    const message = 'over-constrains the wheels: it follows from the constraints before it.';
    refuse(`driveline.constraints ${name}`, message, 'Leave it out.');
  }
  for (const [i, line] of response.slice(0, 4 + motors.length).entries()) {
    if (line[i]! > 1e-9 * Math.max(...response.map((other, k) => other[k]!))) continue;
    const what = i < 4 ? `wheel ${i}` : `motor ${i - 4}`;
    refuse('driveline', `over-constrains the wheels: ${what} cannot turn.`, 'Remove a constraint.');
  }
  return problems;
}

function checkSteering({
  name,
  steering,
  body: { trackFront, cgToFront, cgToRear },
}: PlantDescription) {
  const share = (steering.ackermann * trackFront) / (2 * (cgToFront + cgToRear));
  if (share * Math.tan(steering.lock) < 0.9) return [];
  const found = `${show(steering.lock)} rad`;
  const message = `found ${found}, a turn whose centre lies at the inner front wheel.`;
  const cure = 'Lower it: it is the mean angle of both front wheels at full lock.';
  return [{ file: name, field: 'steering.lock', message, cure }];
}

function show(value: number): string {
  return String(Number(value.toPrecision(3)));
}
