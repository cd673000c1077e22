import { Cause, MISSING, S, State } from '../../lib/index.ts';
import { limitSuite } from './limit-suite.ts';
import { heedless, spoilt } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM, type Leg } from './scripted.ts';

/** Full speed from 310 ms on, no pulse from 910 ms on, pulses again from 1510 ms on. */
const lossLegs: Leg[] = [
  ARM,
  { ticks: 60, throttle: 1000 },
  { ticks: 60, raw: { throttleUs: MISSING } },
  { ticks: 60, throttle: 1000 },
];

limitSuite(4, {
  exercised: 30,
  mutants: [
    {
      core: heedless('a core that holds on for too long', { setup: { [S.HOLD_MS]: 500 } }),
      constants: plainConstants({}),
      legs: lossLegs,
      // 200 ms after the last valid pulse, at 900 ms, the hold is over; the next tick must stop.
      atMs: 1110,
    },
    {
      core: spoilt('a core that moves on when the signal is back', (outputs, _before, inputs) => {
        const stopped = outputs.state === State.LOCKED && outputs.cause === Cause.SIGNAL_LOST;
        if (stopped && inputs.throttleUs !== MISSING) outputs.drive[0] = 100;
      }),
      constants: plainConstants({}),
      legs: lossLegs,
      atMs: 1510,
    },
    {
      core: spoilt('a core that leaves the drive on', (outputs) => {
        if (outputs.cause === Cause.SIGNAL_LOST) outputs.enable = 1;
      }),
      constants: plainConstants({}),
      legs: lossLegs,
      // Standstill at 1300 ms, 20 ticks of 50 permille after 1110 ms; then two ticks of grace.
      atMs: 1320,
    },
  ],
});
