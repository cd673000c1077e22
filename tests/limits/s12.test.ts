import { Flag, Reaction } from '../../lib/index.ts';
import { limitSuite } from './limit-suite.ts';
import { looseStart, spinConstants } from './loose-wheels.ts';
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
    {
      core: spoilt('a core whose traction raises a motor', ({ drive, flags }) => {
        if ((flags & Flag.TRACTION_LIMIT) !== 0) drive[0]! += 30;
      }),
      constants: spinConstants(Reaction.TRIM),
      legs: looseStart(40),
      // Half of 600 permille is reached by 20 a tick: 280 + 30 in the fourteenth.
      atMs: 440,
    },
    {
      core: spoilt('a core whose traction raises the inside motor past the outside one', (own) => {
        if ((own.flags & Flag.TRACTION_LIMIT) !== 0) own.drive[0] = own.drive[1]! + 1;
      }),
      constants: spinConstants(Reaction.TRIM),
      legs: looseStart(40, 500),
      // With 400 permille of cut half of 600 leaves the inside one 180: 180 + 1 in the ninth tick.
      atMs: 390,
    },
    {
      core: spoilt('a core that drives on where it was to cut', ({ drive, found }, before) => {
        if (found !== 0) drive[1] = before.drive[1]! + 20;
      }),
      constants: spinConstants(Reaction.RAMP),
      legs: looseStart(40),
      // The first tick in which spin is found.
      atMs: 360,
      within: 30,
    },
  ],
});
