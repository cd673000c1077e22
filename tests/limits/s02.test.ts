import { MISSING, S } from '../../lib/index.ts';
import { limitSuite } from './limit-suite.ts';
import { heedless, spoilt } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM } from './scripted.ts';

limitSuite(2, {
  exercised: 35,
  mutants: [
    {
      core: heedless('a core that rises one part in a hundred too fast', {
        setup: { [S.RISE]: 2020 },
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 40, throttle: 1000 }],
      // 20.2 instead of 20 permille a tick: after ten ticks it is 2 ahead, 1 of them for rounding.
      atMs: 400,
      within: 10,
    },
    {
      core: heedless('a core that stops too slowly', { setup: { [S.STOP]: 4000 } }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 60, throttle: 1000 }, { ticks: 60, raw: { throttleUs: MISSING } }],
      // The hold time ends 200 ms after the last valid pulse, at 900 ms; the next tick stops.
      atMs: 1110,
    },
    {
      core: spoilt('a core without slew', ({ drive, demand }) => {
        drive[0] = demand | 0;
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 10, throttle: 1000 }],
      atMs: 310,
    },
  ],
});
