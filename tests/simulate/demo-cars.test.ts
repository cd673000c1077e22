import { expect, test } from 'vitest';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import { computeVerdict } from '../../harness/metrics/compute-verdict.ts';
import { loadGarage } from '../../harness/setup/load-garage.ts';
import { planInGarage } from '../../harness/simulate/plan-simulation.ts';
import { simulate } from '../../harness/simulate/simulate.ts';
import { State } from '../../lib/index.ts';

// The cars of the demo club are to be drivable as they come: a beginner holds full lock and full
// throttle, or lets the throttle go in a bend.

test.each(['hatch', 'coupe', 'forwarder'])(
  '%s: no setup lets it spin on its own floor',
  async (car) => {
    const garage = await loadGarage(demoGarage(car));
    for (const { name } of garage.setups) {
      for (const manoeuvre of ['launch-circle', 'lift-off']) {
        if (car === 'forwarder' && manoeuvre === 'lift-off') continue;
        const plan = planInGarage(garage, { setup: [name], manoeuvre });
        const { constants } = plan.setups[0]!;
        for (const seed of [1, 2, 3]) {
          const { trace } = simulate({ ...plan, constants, seed });
          const verdict = computeVerdict(trace, plan.manoeuvre, plan.car);
          expect(verdict.kind, `${name}, ${manoeuvre}: ${verdict.text}`).not.toBe('spin');
        }
      }
    }
  },
);

test.each(['hatch', 'coupe', 'forwarder'])(
  '%s: the stick pulled right back at top speed stops it without a fault',
  async (car) => {
    const garage = await loadGarage(demoGarage(car));
    for (const { name } of garage.setups) {
      const plan = planInGarage(garage, { setup: [name], manoeuvre: 'brake-hard' });
      const { constants } = plan.setups[0]!;
      for (const seed of [1, 2, 3]) {
        const { trace } = simulate({ ...plan, constants, seed });
        expect(trace.state.includes(State.FAULT), `${name}, seed ${seed}`).toBe(false);
      }
    }
  },
);
