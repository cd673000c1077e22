import { Cause, S, State } from '../../lib/index.ts';
import { limitSuite } from './limit-suite.ts';
import { heedless, spoilt } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM, type Leg } from './scripted.ts';

/** A motor held still from 310 ms on, as in s08.test.ts; neutral sticks from 1110 ms on. */
const stall: Leg[] = [
  ARM,
  { ticks: 80, throttle: 370, currentMa: ({ drive }) => drive.map((d) => (14.8 * d) | 0) },
  { ticks: 150 },
];

limitSuite(16, {
  exercised: 8,
  mutants: [
    {
      core: heedless('a core that clears a fault too early', { setup: { [S.REARM_MS]: 500 } }),
      constants: plainConstants({}),
      legs: stall,
      // The stall is forgotten 400 ms after the standstill at 780 ms; 500 ms later it re-arms.
      atMs: 1680,
    },
    {
      core: spoilt('a core that forgets a fault', (outputs) => {
        if (outputs.state !== State.FAULT) return;
        outputs.state = State.LOCKED;
        outputs.cause = Cause.NONE;
      }),
      constants: plainConstants({}),
      legs: stall,
      // 300 permille from 730 ms on by 50 a tick: standstill at 780 ms, fault in the next tick.
      atMs: 790,
    },
    {
      core: spoilt('a core that keeps the drive on with a fault', (outputs) => {
        if (outputs.state === State.FAULT) outputs.enable = 1;
      }),
      constants: plainConstants({}),
      legs: stall,
      // Two ticks of grace after the standstill.
      atMs: 800,
    },
  ],
});
