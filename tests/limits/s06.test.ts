import fc from 'fast-check';
import { expect, it } from 'vitest';
import { createStick } from '../../harness/check/stick.ts';
import { createInputs, type Inputs, MISSING, S, V } from '../../lib/index.ts';
import { arbitraryDrive, type Drive } from './arbitrary-drive.ts';
import { checkDrives, REPLAYS } from './check-drives.ts';
import { LONG, limitSuite } from './limit-suite.ts';
import { heedless } from './mutants.ts';
import { createNoise } from './noise.ts';
import { plainConstants } from './plain-constants.ts';
import { play } from './play.ts';
import { ARM, type Leg } from './scripted.ts';
import { sourceCore } from './source-core.ts';
import { playTwins } from './twins.ts';

/** From 710 ms on the throttle pulse lies 50 us beyond its margin. */
const outOfRange: Leg[] = [
  ARM,
  { ticks: 40, throttle: 400 },
  { ticks: 40, raw: { throttleUs: 2150 } },
];

limitSuite(6, {
  exercised: 45,
  mutants: [
    {
      core: heedless('a core that interprets a pulse out of range', {
        vehicle: { [V.PULSE_MARGIN_US]: 200 },
      }),
      constants: plainConstants({}),
      legs: outOfRange,
      atMs: 710,
    },
    {
      core: heedless('a core that drives on without a valid pulse', {
        setup: { [S.HOLD_MS]: 900 },
      }),
      constants: plainConstants({}),
      legs: outOfRange,
      // 200 ms after the last valid pulse, at 700 ms, the hold is over.
      atMs: 910,
    },
  ],
});

it(
  'S6 takes in integers and MISSING alone: each field as it is, or as missing',
  () => {
    checkDrives(
      fc.property(arbitraryDrive, (drive) => {
        const given = createInputs();
        const fields = Object.keys(given) as (keyof Inputs)[];
        play(sourceCore.createController(drive.constants), drive, {
          before: (inputs) => {
            Object.assign(given, inputs, {
              currentMa: [...inputs.currentMa],
              wheelDegS: [...inputs.wheelDegS],
            });
          },
          after: (inputs) => {
            for (const name of fields) {
              // The slot is written back as the one in force.
              if (name === 'slot' || name === 'currentMa' || name === 'wheelDegS') continue;
              const want = meant(name, given[name]);
              if (inputs[name] + 0 !== want) expect([name, inputs[name]]).toEqual([name, want]);
            }
            for (let i = 0; i < drive.constants.vehicle[V.MOTORS]!; i++) {
              expectSame(inputs.currentMa[i]! + 0, meant('currentMa', given.currentMa[i]));
              const measured = drive.constants.vehicle[V.HAS_WHEEL_SPEED] === 1;
              const wheel = measured ? given.wheelDegS[i] : undefined;
              expectSame(inputs.wheelDegS[i]! + 0, meant('wheelDegS', wheel));
            }
          },
          threw: fail,
          offered: () => {},
        });
      }),
      {
        title: 'S6 took in something else',
        where: 'tests/limits/s06.test.ts -t integers',
        seed: 606,
        runs: 30,
      },
    );
  },
  LONG,
);

it(
  'S6 gives the same outputs whatever an invalid channel holds',
  () => {
    let scrambled = 0;
    checkDrives(
      fc.property(arbitraryDrive, (drive) => {
        const noise = createNoise(4711);
        playTwins(drive, drive.constants, {
          change: (inputs) => {
            if (isValid(drive, inputs)) return;
            scrambled++;
            const other = [MISSING, Number.NaN, 'x', 32767, -1][noise.below(5)];
            Object.assign(inputs, { throttleUs: other, steerUs: 1500 + noise.below(900) });
            inputs.ageMs = noise.below(300);
          },
        });
      }),
      {
        title: 'S6 looked at an invalid channel',
        where: 'tests/limits/s06.test.ts -t same',
        seed: 607,
        runs: 100,
      },
    );
    if (!REPLAYS) expect(scrambled).toBeGreaterThan(500);
  },
  LONG,
);

function isValid({ constants }: Drive, { throttleUs, steerUs, ageMs }: Inputs): boolean {
  return (
    createStick(constants.vehicle, V.THROTTLE_LOW_US).valid(meant('throttleUs', throttleUs)) &&
    createStick(constants.vehicle, V.STEER_LOW_US).valid(meant('steerUs', steerUs)) &&
    meant('ageMs', ageMs) >= 0
  );
}

/** What a field may be taken for: an integer of its width, or missing. */
function meant(name: keyof Inputs, value: unknown): number {
  if (name === 'guest') return value === 0 ? 0 : 1;
  const most = name === 'timeMs' ? 0x7fffffff : 32767;
  const whole = typeof value === 'number' && Number.isInteger(value);
  // -0 is the integer 0.
  return whole && value >= -most - 1 && value <= most ? value + 0 : MISSING;
}

function expectSame(value: number, want: number): void {
  if (value !== want) expect(value).toBe(want);
}

function fail(error: unknown): never {
  throw error;
}
