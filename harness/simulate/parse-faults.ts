import type { Fault, SensorName } from '../plant/fault.ts';
import { createNoise, type Noise } from '../plant/noise.ts';
import type { PlantDescription } from '../plant/plant-description.ts';
import { type Problem, UserError } from '../problems.ts';
import { nearestName } from '../setup/nearest-name.ts';
import { motorNamesOf, WHEEL_NAMES } from '../words/part-names.ts';
import type { FaultSpan, SimulatedFault } from './fault-span.ts';

/**
 * Reads faults as written on the command line, `kind[@start[+duration]][:what...]`, such as
 * `slippedShaft@3.0:rearLeft`, `lostDrive@2`, `frozenSensor:current:left` or `linkLost@2+1.5`. What
 * stands after a colon names a wheel, motor, sensor or part of the driveline. A start, wheel or
 * motor that is left out is drawn from the seed; a duration left out means for good.
 *
 * @param durationS of the manoeuvre, s; a start that is drawn lies in its middle half
 * @throws UserError with every fault that cannot be read, what was expected and what was meant
 */
export function parseFaults(
  texts: readonly string[],
  plant: PlantDescription,
  durationS: number,
  seed: number,
): FaultSpan[] {
  const noise = createNoise(seed);
  const spans: FaultSpan[] = [];
  const problems: Problem[] = [];
  for (const text of texts) {
    // Drawn for each fault whether it is used or not, so that one fault does not move another.
    const draws: Draws = { start: noise.uniform(), part: noise.uniform() };
    try {
      spans.push(parseFault(text, plant, durationS, draws));
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      problems.push(...error.problems);
    }
  }
  if (problems.length > 0) throw new UserError(problems);
  return spans;
}

/** How each kind of fault is written, for help and messages. */
export const FAULT_KINDS: readonly { kind: SimulatedFault['kind']; form: string; what: string }[] =
  [
    { kind: 'slippedShaft', form: 'slippedShaft@3:rearLeft', what: 'the shaft of a wheel slips' },
    { kind: 'slippedPinion', form: 'slippedPinion@3:right', what: 'the pinion on a motor slips' },
    {
      kind: 'lostDrive',
      form: 'lostDrive@2:frontDrive',
      what: 'a part of the driveline comes apart',
    },
    { kind: 'lostWheel', form: 'lostWheel@2:frontRight', what: 'a wheel is gone' },
    { kind: 'jammedWheel', form: 'jammedWheel@1.5:rearRight', what: 'a wheel cannot turn' },
    { kind: 'deadMotor', form: 'deadMotor@2:left', what: 'a motor draws no current' },
    {
      kind: 'frozenSensor',
      form: 'frozenSensor@1:current:left',
      what: 'a sensor repeats itself',
    },
    { kind: 'linkLost', form: 'linkLost@2+1.5', what: 'no frame arrives for 1.5 s' },
  ];

const SENSORS: readonly SensorName[] = ['supply', 'gyro', 'current', 'wheelSpeed'];

/** Numbers from 0 to 1 for what is left out. */
type Draws = Record<'start' | 'part', ReturnType<Noise['uniform']>>;

function parseFault(
  text: string,
  plant: PlantDescription,
  durationS: number,
  draws: Draws,
): FaultSpan {
  const [head = '', ...parts] = text.split(':');
  const { kind, when } = splitHead(text, head);
  const { fromS, toS } =
    when === undefined ? drawn(durationS, draws) : readTime(text, when, durationS);
  const fault = readFault(text, kind, parts, { plant, draws });
  return { fault, fromS, toS };
}

function splitHead(text: string, head: string): { kind: SimulatedFault['kind']; when?: string } {
  const at = head.indexOf('@');
  const name = at < 0 ? head : head.slice(0, at);
  const known = FAULT_KINDS.find(({ kind }) => kind.toLowerCase() === name.toLowerCase());
  if (known === undefined) {
    const near = nearestName(
      name,
      FAULT_KINDS.map(({ kind }) => kind),
    );
    const message =
      `there is no fault "${name}", ` +
      `expected ${FAULT_KINDS.map(({ kind }) => kind).join(', ')}.`;
    const cure =
      near === undefined ? `Write it like "${FAULT_KINDS[0]!.form}".` : `Did you mean "${near}"?`;
    throw wrong(text, message, cure);
  }
  return at < 0 ? { kind: known.kind } : { kind: known.kind, when: head.slice(at + 1) };
}

function drawn(durationS: number, { start }: Draws): { fromS: number; toS: number } {
  return { fromS: Math.round(durationS * (0.25 + start / 2) * 100) / 100, toS: Infinity };
}

function readTime(text: string, when: string, durationS: number): { fromS: number; toS: number } {
  const found = /^(\d+(?:\.\d+)?)(?:\+(\d+(?:\.\d+)?))?$/.exec(when);
  if (found === null) {
    const message = `found the time "${when}", expected seconds, or start+duration.`;
    throw wrong(text, message, 'Write "@2" from 2 s on, or "@2+1.5" for 1.5 s.');
  }
  const fromS = Number(found[1]);
  if (fromS >= durationS) {
    const end = Number(durationS.toFixed(2));
    const message = `found a start at ${fromS} s, but the manoeuvre is over at ${end} s.`;
    throw wrong(text, message, 'Let it begin sooner.');
  }
  const toS = found[2] === undefined ? Infinity : fromS + Number(found[2]);
  if (toS > fromS) return { fromS, toS };
  throw wrong(
    text,
    'found a duration of 0 s, expected more.',
    'Leave it out for a fault that stays.',
  );
}

interface Setting {
  plant: PlantDescription;
  draws: Draws;
}

function readFault(
  text: string,
  kind: SimulatedFault['kind'],
  parts: readonly string[],
  { plant, draws }: Setting,
): SimulatedFault {
  const most = kind === 'frozenSensor' ? 2 : kind === 'linkLost' ? 0 : 1;
  if (parts.length > most) {
    const form = FAULT_KINDS.find((each) => each.kind === kind)!.form;
    const message =
      `found ${parts.length} words after a colon, ` +
      `expected ${most === 0 ? 'none' : `at most ${most}`}.`;
    throw wrong(text, message, `Write it like "${form}".`);
  }
  const [first, second] = parts;
  const index = (what: string, names: readonly string[]) =>
    readName(text, what, first, names, draws.part);
  switch (kind) {
    case 'linkLost':
      return { kind };
    case 'slippedShaft':
    case 'lostWheel':
    case 'jammedWheel':
      return { kind, wheel: index('wheel', WHEEL_NAMES) };
    case 'slippedPinion':
    case 'deadMotor':
      return { kind, motor: index('motor', motorNamesOf(plant.motors.length)) };
    case 'lostDrive':
      return { kind, constraint: readConstraint(text, first, plant) };
    case 'frozenSensor':
      return readSensor(text, first, second, plant);
  }
}

/** Index of the wheel or motor of that name; one drawn where none is given. */
function readName(
  text: string,
  what: string,
  word: string | undefined,
  names: readonly string[],
  draw: number,
): number {
  if (word === undefined) return Math.floor(draw * names.length);
  const index = names.findIndex((name) => name.toLowerCase() === word.toLowerCase());
  if (index >= 0) return index;
  const near = nearestName(word, names);
  const message = `found ${what} "${word}", expected ${names.join(', ')}.`;
  const cure = near === undefined ? 'Leave it out to have one drawn.' : `Did you mean "${near}"?`;
  throw wrong(text, message, cure);
}

function readConstraint(text: string, word: string | undefined, plant: PlantDescription): string {
  const known = plant.driveline.constraints.map(({ name }) => name);
  if (known.length === 0) {
    const message = 'this driveline has no part that joins wheels, so none can come apart.';
    throw wrong(text, message, 'Use slippedShaft for a shaft that slips out of its wheel.');
  }
  if (word === undefined && known.length === 1) return known[0]!;
  if (word !== undefined && known.includes(word)) return word;
  const found = word === undefined ? 'no part named' : `part "${word}"`;
  const near = word === undefined ? undefined : nearestName(word, known);
  const cure =
    `${near === undefined ? 'Write' : 'Did you mean'} ` +
    `"lostDrive@2:${near ?? known[0]}"${near === undefined ? '.' : '?'}`;
  throw wrong(text, `found ${found}, expected ${known.join(', ')}.`, cure);
}

function readSensor(
  text: string,
  word: string | undefined,
  number: string | undefined,
  plant: PlantDescription,
): Fault {
  const fitted = SENSORS.filter((name) => plant.sensors[name] !== undefined);
  if (fitted.length === 0) {
    const cure = 'Say under sensors in vehicle.ts what the hub measures.';
    throw wrong(text, 'this vehicle measures nothing, so no sensor can freeze.', cure);
  }
  const sensor = fitted.find((name) => name.toLowerCase() === word?.toLowerCase());
  if (sensor === undefined) {
    const near = word === undefined ? undefined : nearestName(word, fitted);
    const message =
      `found ${word === undefined ? 'no sensor named' : `sensor "${word}"`}, ` +
      `expected one that is fitted: ${fitted.join(', ')}.`;
    throw wrong(
      text,
      message,
      near ? `Did you mean "${near}"?` : `Write "frozenSensor@1:${fitted[0]}".`,
    );
  }
  if (number === undefined) return { kind: 'frozenSensor', sensor };
  if (sensor === 'supply' || sensor === 'gyro') {
    throw wrong(
      text,
      `found ${sensor} number "${number}", but there is only one.`,
      'Leave it out.',
    );
  }
  const index =
    sensor === 'current'
      ? readName(text, 'motor', number, motorNamesOf(plant.motors.length), 0)
      : readName(text, 'wheel', number, WHEEL_NAMES, 0);
  return { kind: 'frozenSensor', sensor, index };
}

function wrong(text: string, message: string, cure: string): UserError {
  return new UserError([{ file: 'command line', field: `--fault ${text}`, message, cure }]);
}
