import fc from 'fast-check';
import { it } from 'vitest';
import { setupCrc } from '../../harness/check/mirror.ts';
import { Flag, S } from '../../lib/index.ts';
import { arbitraryDrive } from './arbitrary-drive.ts';
import { checkDrives } from './check-drives.ts';
import { LONG, limitSuite } from './limit-suite.ts';
import { spoilt, wrapped } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM } from './scripted.ts';
import { playTwins } from './twins.ts';

const plain = plainConstants({});

limitSuite(14, {
  exercised: 50,
  mutants: [
    {
      core: wrapped('a core that does not check the CRC', (core) => ({
        step: core.step,
        offerSetup: (slot, setup) => core.offerSetup(slot, setup, setupCrc(setup)),
      })),
      constants: plain,
      legs: [ARM, { ticks: 10, offer: { slot: 0, setup: plain.setups[0]!, crc: 1 } }],
      atMs: 300,
    },
    {
      core: wrapped('a core that refuses what is valid', (core) => ({
        step: core.step,
        offerSetup: () => 0,
      })),
      constants: plain,
      legs: [ARM, { ticks: 10, offer: { slot: 0, setup: plain.setups[0]! } }],
      atMs: 300,
    },
    {
      core: spoilt('a core that changes setup with a bump', (outputs, before) => {
        if (outputs.slot !== before.slot) outputs.steer = 500;
      }),
      constants: plainConstants({ setups: [{}, { [S.LEFT_LIMIT]: 500 }] }),
      legs: [ARM, { ticks: 20, steer: 1000 }, { ticks: 40, steer: 1000, slot: 1 }],
      atMs: 510,
    },
  ],
});

it(
  'S14 drives on after a refused setup as if none had been offered',
  () => {
    checkDrives(
      fc.property(arbitraryDrive, (drive) => {
        const segments = drive.segments.map(({ offer, ...segment }) => {
          const fault = offer && (offer.fault === 'none' ? 'crc' : offer.fault);
          return { ...segment, offer: offer && { ...offer, fault: fault! } };
        });
        playTwins({ ...drive, segments }, drive.constants, {
          withoutOffers: true,
          ignoredFlags: Flag.SETUP_REFUSED,
        });
      }),
      {
        title: 'S14 changed something for a refused setup',
        where: 'tests/limits/s14.test.ts -t refused',
        seed: 614,
        runs: 60,
      },
    );
  },
  LONG,
);
