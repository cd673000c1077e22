import { Reaction } from '../../lib/index.ts';
import { limitSuite } from './limit-suite.ts';
import { looseStart, spinConstants } from './loose-wheels.ts';
import { spoilt } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM } from './scripted.ts';

limitSuite(11, {
  exercised: 22,
  mutants: [
    {
      core: spoilt('a core that is weaker to the left', ({ drive, steer }) => {
        if (steer > 0) drive[0] = (drive[0]! * 0.9) | 0;
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 30, throttle: 1000, steer: 500 }],
      atMs: 310,
    },
    {
      core: spoilt('a core whose steering is off by one', (outputs) => {
        outputs.steer += outputs.steer > 300 ? 1 : 0;
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 30, throttle: 1000, steer: 500 }],
      // 100 permille a tick: the fourth tick's 400 become 401.
      atMs: 340,
    },
    {
      core: spoilt('a core that finds on the left side only', (outputs) => {
        outputs.found &= 0x555;
      }),
      constants: spinConstants(Reaction.REPORT),
      legs: looseStart(40),
      // Both wheels are loose: its twin, mirrored, has found the right one.
      atMs: 360,
      within: 30,
    },
  ],
});
