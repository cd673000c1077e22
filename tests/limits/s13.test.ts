import fc from 'fast-check';
import { it } from 'vitest';
import { Flag, MISSING, V } from '../../lib/index.ts';
import { withCrc } from './arbitrary-constants.ts';
import { arbitraryDrive } from './arbitrary-drive.ts';
import { checkDrives } from './check-drives.ts';
import { LONG, limitSuite } from './limit-suite.ts';
import { heedless, spoilt } from './mutants.ts';
import { changed, plainConstants } from './plain-constants.ts';
import { ARM, type Leg } from './scripted.ts';
import { playTwins } from './twins.ts';

const supplyLost: Leg[] = [
  ARM,
  { ticks: 60, throttle: 1000 },
  { ticks: 40, throttle: 1000, raw: { batteryMv: MISSING } },
];

limitSuite(13, {
  exercised: 15,
  mutants: [
    {
      core: heedless('a core without a blind cap', { vehicle: { [V.BLIND_CAP]: 1000 } }),
      constants: plainConstants({}),
      legs: supplyLost,
      atMs: 910,
    },
    {
      core: spoilt('a core that says nothing of a lost sensor', (outputs) => {
        outputs.flags &= ~Flag.SENSOR_LOST;
      }),
      constants: plainConstants({}),
      legs: supplyLost,
      atMs: 910,
    },
  ],
});

it(
  'S13 does not look at a sensor that the vehicle does not have',
  () => {
    checkDrives(
      fc.property(arbitraryDrive, (drive) => {
        const { vehicle, setups } = drive.constants;
        const none = { [V.HAS_SUPPLY]: 0, [V.HAS_CURRENT]: 0, [V.HAS_GYRO]: 0 };
        const constants = withCrc({ vehicle: changed(vehicle, none), setups, crc: 0 });
        playTwins({ ...drive, constants }, constants, {
          change: (inputs) => {
            Object.assign(inputs, { batteryMv: 'flat', yawRateMradS: 9999, currentMa: undefined });
          },
        });
      }),
      {
        title: 'S13 looked at a sensor that is not there',
        where: 'tests/limits/s13.test.ts -t have',
        seed: 613,
        runs: 60,
      },
    );
  },
  LONG,
);
