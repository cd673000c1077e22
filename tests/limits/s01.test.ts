import { limitSuite } from './limit-suite.ts';
import { spoilt } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM } from './scripted.ts';

limitSuite(1, {
  exercised: 95,
  mutants: [
    {
      core: spoilt('a core that commands half permilles', ({ drive }) => {
        if (drive[0] !== 0) drive[0]! += 0.5;
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 20, throttle: 1000 }],
      // The tick in which the motors start.
      atMs: 310,
    },
    {
      core: spoilt('a core that steers twice as far', (outputs) => {
        outputs.steer *= 2;
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 20, steer: 1000 }],
      // 100 permille a tick: the sixth tick's 600 become 1200.
      atMs: 360,
    },
  ],
});
