import { S, V } from '../../lib/index.ts';
import { limitSuite } from './limit-suite.ts';
import { heedless, spoilt } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM, type Leg } from './scripted.ts';

/** Turning in far too fast for a floor that bears 3 m/s^2, after a rest for the gyro. */
const ASSISTED = plainConstants({
  vehicle: { [V.HAS_CURRENT]: 0, [V.SPEED_LAG_MS]: 50 },
  setups: [{ [S.YAW_AUTHORITY]: 250, [S.YAW_GAIN]: 1000, [S.YAW_GRIP_MM_S2]: 3000 }],
});
const TURNING: Leg[] = [
  { ticks: 200 },
  ...Array.from({ length: 60 }, (_, i) => ({
    ticks: 1,
    throttle: 800,
    steer: 200,
    raw: { yawRateMradS: 80 * i },
  })),
];

limitSuite(10, {
  exercised: 18,
  mutants: [
    {
      core: heedless('a core that cuts too deep', { setup: { [S.CUT_CEILING]: 800 } }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 60, throttle: 1000, steer: 1000 }],
      // The table cuts 0.8 of the steering, which comes by 100 permille a tick: 560 in the seventh.
      atMs: 370,
    },
    {
      core: spoilt('a core that pulls to a side', ({ drive, steer }) => {
        if (steer === 0 && drive[1]! > 3) drive[1]! -= 3;
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 60, throttle: 1000 }],
      atMs: 310,
    },
    {
      core: spoilt('a core that mixes up the sides', ({ drive }) => {
        drive.splice(0, 2, drive[1]!, drive[0]!);
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 30, steer: 500 }, { ticks: 60, throttle: 1000, steer: 500 }],
      atMs: 610,
    },
    {
      core: heedless('a core whose yaw assist goes beyond its authority', {
        setup: { [S.YAW_AUTHORITY]: 400 },
      }),
      constants: ASSISTED,
      legs: TURNING,
      atMs: 2090,
    },
    {
      core: spoilt('a core whose yaw assist deepens the cut', (outputs) => {
        outputs.assist = 0 - outputs.assist;
      }),
      constants: ASSISTED,
      legs: TURNING,
      atMs: 2090,
    },
    {
      core: spoilt('a core that slows the outside motor more than it says', ({ assist, drive }) => {
        if (assist < -200) drive[1] = (drive[0]! * 0.7) | 0;
      }),
      constants: ASSISTED,
      legs: TURNING,
      atMs: 2090,
    },
  ],
});
