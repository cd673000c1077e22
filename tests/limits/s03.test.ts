import { S, V } from '../../lib/index.ts';
import { limitSuite } from './limit-suite.ts';
import { heedless, spoilt } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM } from './scripted.ts';

limitSuite(3, {
  exercised: 8,
  mutants: [
    {
      core: heedless('a core that does not dwell at zero', {
        vehicle: { [V.GATE_DWELL]: 0 },
        setup: { [S.DWELL_MS]: 0 },
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 60, throttle: 1000 }, { ticks: 60, throttle: -1000 }],
      // From 910 ms on 25 ticks of 40 permille down to zero; the next one goes backwards.
      atMs: 1160,
    },
    {
      core: heedless('a core whose dwell is 20 ms short', { setup: { [S.DWELL_MS]: 80 } }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 60, throttle: 1000 }, { ticks: 60, throttle: -1000 }],
      atMs: 1230,
    },
    {
      core: spoilt('a core that turns a motor round at once', ({ drive, demand }) => {
        if (demand < 0) drive[0] = -Math.abs(drive[0]!);
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 60, throttle: 1000 }, { ticks: 60, throttle: -1000 }],
      atMs: 910,
    },
  ],
});
