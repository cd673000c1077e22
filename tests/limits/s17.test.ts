import { S } from '../../lib/index.ts';
import { limitSuite } from './limit-suite.ts';
import { heedless } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM } from './scripted.ts';

limitSuite(17, {
  exercised: 28,
  mutants: [
    {
      core: heedless('a core that does not heed the guest cap', {
        setup: { [S.GUEST_CAP]: 1000 },
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 60, throttle: 1000, guest: 1 }],
      // By 20 permille a tick: 420 of 400 in the twenty-first.
      atMs: 510,
    },
  ],
});
