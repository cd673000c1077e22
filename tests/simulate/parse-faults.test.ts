import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlantDescription } from '../../harness/plant/plant-description.ts';
import { UserError } from '../../harness/problems.ts';
import { describeFault, faultWords } from '../../harness/simulate/fault-words.ts';
import { FAULT_KINDS, parseFaults } from '../../harness/simulate/parse-faults.ts';
import { referenceCar } from '../plant/reference-car.ts';

const channel = { step: 1, noise: 0, offset: 0, delay: 0, dropout: 0 };
const CAR: PlantDescription = {
  ...referenceCar('slippery'),
  sensors: { supply: channel, current: channel, gyro: channel },
};
const parse = (...texts: string[]) => parseFaults(texts, CAR, 4, 1);
const problems = (...texts: string[]): string[] => {
  try {
    parse(...texts);
    return [];
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return error.problems.map(({ field, message, cure }) => `${field}: ${message} ${cure}`);
  }
};

describe('faults as written on the command line', () => {
  test.each([
    ['slippedShaft@3.0:rearLeft', { kind: 'slippedShaft', wheel: 0 }, 3, Infinity],
    ['lostDrive@2', { kind: 'lostDrive', constraint: 'frontDrive' }, 2, Infinity],
    ['jammedWheel@1.5:REARRIGHT', { kind: 'jammedWheel', wheel: 1 }, 1.5, Infinity],
    ['deadMotor@2:right', { kind: 'deadMotor', motor: 1 }, 2, Infinity],
    ['slippedPinion@0:left', { kind: 'slippedPinion', motor: 0 }, 0, Infinity],
    ['lostWheel@1+0.5:frontRight', { kind: 'lostWheel', wheel: 3 }, 1, 1.5],
    [
      'frozenSensor@1:current:left',
      { kind: 'frozenSensor', sensor: 'current', index: 0 },
      1,
      Infinity,
    ],
    ['frozenSensor@1:gyro', { kind: 'frozenSensor', sensor: 'gyro' }, 1, Infinity],
    ['linkLost@2+1.5', { kind: 'linkLost' }, 2, 3.5],
    ['LINKLOST@2', { kind: 'linkLost' }, 2, Infinity],
  ])('%s', (text, fault, fromS, toS) => {
    expect(parse(text)).toEqual([{ fault, fromS, toS }]);
  });

  test('every kind has a form that can be read, and words', () => {
    for (const { kind, form } of FAULT_KINDS) {
      const [span] = parse(form);
      expect(span!.fault.kind).toBe(kind);
      expect(describeFault(span!, CAR.motors.length)).toMatch(/^[A-Z].*\.$/);
    }
  });

  test('wheels and motors have the names that a reader of a report sees', () => {
    const wheel = faultWords({ kind: 'lostWheel', wheel: 2 }, 2);
    expect(wheel).toBe('The front left wheel is gone');
    const dead = (motors: number) => faultWords({ kind: 'deadMotor', motor: 0 }, motors);
    expect(dead(1)).toBe('The motor draws no current');
    expect(dead(2)).toBe('The left motor draws no current');
    expect(dead(4)).toBe('The rear left motor draws no current');
    const frozen = { kind: 'frozenSensor', sensor: 'current', index: 1 } as const;
    expect(faultWords(frozen, 2)).toBe('Sensor current of the right motor is frozen');
  });

  test('what is left out is drawn from the seed: the same for one seed, in range for all', () => {
    const drawn = (seed: number) => parseFaults(['deadMotor', 'jammedWheel'], CAR, 8, seed);
    expect(drawn(5)).toEqual(drawn(5));
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        for (const { fault, fromS, toS } of drawn(seed)) {
          expect(fromS).toBeGreaterThanOrEqual(2);
          expect(fromS).toBeLessThanOrEqual(6);
          expect(toS).toBe(Infinity);
          if (fault.kind === 'deadMotor') expect([0, 1]).toContain(fault.motor);
          if (fault.kind === 'jammedWheel') expect([0, 1, 2, 3]).toContain(fault.wheel);
        }
      }),
    );
    const wheels = new Set(
      Array.from({ length: 50 }, (_, seed) => JSON.stringify(drawn(seed)[1]!.fault)),
    );
    expect(wheels.size).toBe(4);
  });

  test('one fault more does not move what is drawn for those before it', () => {
    const [alone] = parseFaults(['deadMotor'], CAR, 8, 3);
    const [first] = parseFaults(['deadMotor', 'lostWheel@1:frontLeft'], CAR, 8, 3);
    expect(first).toEqual(alone);
  });

  test.each([
    ['jamedWheel@1:rearLeft', /no fault "jamedWheel", expected .*Did you mean "jammedWheel"\?/],
    ['gremlin', /no fault "gremlin".*Write it like "slippedShaft@3:rearLeft"/],
    ['', /no fault ""/],
    ['jammedWheel@soon:1', /found the time "soon", expected seconds, or start\+duration/],
    ['jammedWheel@-1:1', /found the time "-1"/],
    ['linkLost@2+0', /found a duration of 0 s, expected more/],
    [
      'jammedWheel@1:rearLegt',
      /found wheel "rearLegt", expected rearLeft, rearRight, .*Did you mean/,
    ],
    ['jammedWheel@1:0', /found wheel "0", .* Leave it out/],
    ['jammedWheel@4:rearLeft', /found a start at 4 s, but the manoeuvre is over at 4 s\. Let it/],
    ['deadMotor@1:rearLeft', /found motor "rearLeft", expected left, right\./],
    ['deadMotor@1:left:1', /found 2 words after a colon, expected at most 1\..*deadMotor@2:left/],
    ['linkLost@1:0', /found 1 words after a colon, expected none/],
    ['lostDrive@1:frontDrve', /found part "frontDrve", expected frontDrive\. Did you mean/],
    ['frozenSensor@1', /no sensor named, expected one that is fitted: supply, gyro, current/],
    ['frozenSensor@1:curent', /Did you mean "current"\?/],
    ['frozenSensor@1:wheelSpeed', /expected one that is fitted/],
    ['frozenSensor@1:gyro:1', /found gyro number "1", but there is only one/],
    ['frozenSensor@1:current:7', /found motor "7", expected left, right/],
  ])('%s is refused with what was expected and a cure', (text, message) => {
    const [problem, ...more] = problems(text);
    expect(problem).toMatch(message);
    expect(problem).toMatch(`--fault ${text}`);
    expect(more).toEqual([]);
  });

  test('all bad faults are named at once', () => {
    expect(problems('gremlin', 'deadMotor@1:left', 'linkLost@x')).toHaveLength(2);
  });

  test('a driveline without such a part, and a car without sensors, say so', () => {
    const bare = {
      ...CAR,
      sensors: {},
      driveline: { ...CAR.driveline, constraints: [] },
    };
    expect(() => parseFaults(['lostDrive@1'], bare, 4, 1)).toThrow(/no part that joins wheels/);
    expect(() => parseFaults(['frozenSensor@1:gyro'], bare, 4, 1)).toThrow(/measures nothing/);
  });

  test('no text makes it throw anything but a clear error', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.stringMatching(/^[a-zA-Z]{0,12}@?[0-9.+:a-z]*$/)),
        (text) => {
          for (const problem of problems(text)) expect(problem).toContain('--fault');
        },
      ),
    );
  });
});
