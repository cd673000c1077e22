import { limitSuite } from './limit-suite.ts';
import { wrapped } from './mutants.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM } from './scripted.ts';

/** Counts 10 ms a tick, whatever the time stamps say. */
const ownClock = wrapped('a core that does not look at the clock', (core) => {
  let now = 0;
  return {
    step(inputs, outputs) {
      const given = inputs.timeMs;
      now += 10;
      inputs.timeMs = now;
      core.step(inputs, outputs);
      inputs.timeMs = given;
    },
    offerSetup: core.offerSetup,
  };
});

limitSuite(7, {
  exercised: 50,
  mutants: [
    {
      core: ownClock,
      constants: plainConstants({}),
      // The run's clock stands still at 300 ms from here on.
      legs: [ARM, { ticks: 5, throttle: 1000, stepMs: 0 }],
      atMs: 300,
    },
    {
      core: ownClock,
      constants: plainConstants({}),
      legs: [ARM, { ticks: 20, throttle: 500 }, { ticks: 5, throttle: 500, stepMs: 5000 }],
      atMs: 5500,
    },
  ],
});
