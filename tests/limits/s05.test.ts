import fc from 'fast-check';
import { expect, it } from 'vitest';
import { Cause, S, State, V } from '../../lib/index.ts';
import { arbitraryDrive } from './arbitrary-drive.ts';
import { checkDrives } from './check-drives.ts';
import { LONG, limitSuite } from './limit-suite.ts';
import { heedless, spoilt } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { play } from './play.ts';
import { ARM } from './scripted.ts';
import { sourceCore } from './source-core.ts';

limitSuite(5, {
  exercised: 60,
  mutants: [
    {
      core: heedless('a core that arms too early', { setup: { [S.NEUTRAL_MS]: 100 } }),
      constants: plainConstants({}),
      legs: [ARM],
      atMs: 100,
    },
    {
      core: spoilt('a core that creeps off once it is armed', (outputs) => {
        if (outputs.state === State.READY) outputs.drive[0] = 5;
      }),
      constants: plainConstants({}),
      legs: [ARM],
      atMs: 300,
    },
    {
      core: spoilt('a core that follows the stick from power-up on', (outputs) => {
        outputs.drive[0] = outputs.throttle | 0;
      }),
      constants: plainConstants({}),
      legs: [{ ticks: 30, throttle: 1000 }],
      atMs: 0,
    },
  ],
});

it(
  'S5 never moves with constants whose CRC does not fit, whatever arrives',
  () => {
    const spot = fc.record({ index: fc.nat(V.COUNT - 1), bit: fc.nat(30) });
    checkDrives(
      fc.property(arbitraryDrive, spot, (drive, { index, bit }) => {
        const { vehicle, setups, crc } = drive.constants;
        const flipped = vehicle.map((value, i) => (i === index ? value ^ (1 << bit) : value));
        const core = sourceCore.createController({ vehicle: flipped, setups, crc });
        play(core, drive, {
          after: (_inputs, { drive: commands, enable, steer, state, cause }) => {
            expect([...commands, enable, steer]).toEqual([0, 0, 0, 0, 0, 0]);
            expect([state, cause]).toEqual([State.FAULT, Cause.BAD_CONSTANTS]);
          },
          threw: (error) => expect.unreachable(String(error)),
          offered: (_slot, _setup, _crc, accepted) => expect(accepted).toBe(0),
        });
      }),
      {
        title: 'S5 moved with bad constants',
        where: 'tests/limits/s05.test.ts -t CRC',
        seed: 605,
        runs: 40,
      },
    );
  },
  LONG,
);
