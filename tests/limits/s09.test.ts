import { V } from '../../lib/index.ts';
import { limitSuite } from './limit-suite.ts';
import { heedless } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM } from './scripted.ts';

limitSuite(9, {
  exercised: 7,
  mutants: [
    {
      core: heedless('a core that does not derate in time', {
        vehicle: { [V.SUPPLY_WARN_MV]: 6400 },
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 60, throttle: 1000 }, { ticks: 60, throttle: 1000, batteryMv: 6700 }],
      // 6700 + 700 (200/210)^n falls below 7000 mV with n = 18, counted from 910 ms.
      atMs: 1080,
    },
    {
      core: heedless('a core that never cuts off', { vehicle: { [V.SUPPLY_CUT_MV]: 0 } }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 60, throttle: 1000 }, { ticks: 120, throttle: 1000, batteryMv: 5500 }],
      // 5500 + 1900 (200/210)^n falls below 6000 mV with n = 28, at 1180 ms; off 500 ms later.
      atMs: 1680,
    },
    {
      core: heedless('a core without hysteresis', { vehicle: { [V.SUPPLY_HYSTERESIS_MV]: 0 } }),
      constants: plainConstants({}),
      legs: [
        ARM,
        { ticks: 60, throttle: 1000 },
        { ticks: 60, throttle: 1000, batteryMv: 6800 },
        { ticks: 60, throttle: 1000, batteryMv: 7100 },
      ],
      // From 6832 mV at 1500 ms 7100 - 268 (200/210)^n passes 7000 mV with n = 21.
      atMs: 1710,
    },
  ],
});
