import { S } from '../../lib/index.ts';
import { limitSuite } from './limit-suite.ts';
import { heedless, spoilt } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM } from './scripted.ts';

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
  ],
});
