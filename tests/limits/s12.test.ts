import { limitSuite } from './limit-suite.ts';
import { spoilt } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM } from './scripted.ts';

limitSuite(12, {
  exercised: 28,
  mutants: [
    {
      core: spoilt('a core whose protection raises a motor', ({ drive, limit }) => {
        if (limit < 1000 && drive[0] !== 0) drive[0] = 1000;
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 60, batteryMv: 6500 }, { ticks: 40, throttle: 1000, batteryMv: 6500 }],
      atMs: 910,
    },
    {
      core: spoilt('a core that commands more than the split asks for', ({ drive, demand }) => {
        if (demand > 0) drive[1] = Math.min(1000, drive[1]! + 30);
      }),
      constants: plainConstants({}),
      // (370 - 100) / 900 = 300 permille, reached by 20 a tick in the fifteenth tick.
      legs: [ARM, { ticks: 40, throttle: 370 }],
      // 290 + 30 in the fourteenth: 280 + 30 > 301.
      atMs: 440,
    },
  ],
});
