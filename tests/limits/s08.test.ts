import { V } from '../../lib/index.ts';
import { limitSuite } from './limit-suite.ts';
import { heedless } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM } from './scripted.ts';

limitSuite(8, {
  exercised: 18,
  mutants: [
    {
      core: heedless('a core that lets a motor stall for too long', {
        vehicle: { [V.STALL_MS]: 800 },
      }),
      constants: plainConstants({}),
      // V d / R = 7400 mV / 500 mOhm * d = 14.8 mA a permille: the current of a motor held still.
      legs: [
        ARM,
        { ticks: 80, throttle: 370, currentMa: ({ drive }) => drive.map((d) => (14.8 * d) | 0) },
      ],
      // Above 500 mA from 330 ms on; 400 ms later, at 720 ms, the next tick must stop.
      atMs: 730,
    },
    {
      core: heedless('a core that does not heed the current ceiling', {
        vehicle: { [V.CURRENT_LIMIT_MA]: 10000 },
      }),
      constants: plainConstants({}),
      legs: [
        ARM,
        { ticks: 60, throttle: 1000, currentMa: ({ drive }) => drive.map((d) => 10 * d) },
      ],
      // From 480 permille and 4800 mA the ceiling is 480 + 200 mA * 500 mOhm / 7400 mV = 493.5.
      atMs: 550,
    },
    {
      core: heedless('a core that does not heed the heat', { vehicle: { [V.WINDING_MJ_K]: 0 } }),
      constants: plainConstants({
        vehicle: { [V.WINDING_MJ_K]: 500, [V.WINDING_MW_K]: 1 },
      }),
      legs: [
        ARM,
        {
          ticks: 600,
          throttle: 550,
          currentMa: ({ drive }) => drive.map((d) => (d === 0 ? 0 : 4000)),
        },
      ],
      // (4 A)^2 * 0.5 Ohm = 8 W heat 0.5 J/K by 16 K/s from 310 ms on; at 80 K half is left of the
      // drive. What flows off, 1 mW/K, costs some 25 ms, and steps of heat one or two times 200 ms.
      atMs: 5635,
      within: 110,
    },
  ],
});
