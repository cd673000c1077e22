import { expect, test } from 'vitest';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import { createDetections } from '../../harness/replay/detections.ts';
import { outputWidth } from '../../harness/replay/row-layout.ts';
import { loadGarage } from '../../harness/setup/load-garage.ts';
import { planInGarage } from '../../harness/simulate/plan-simulation.ts';
import { simulate } from '../../harness/simulate/simulate.ts';
import { Layout } from '../../lib/index.ts';

// What the README tells the reader to try.

async function frontLostAt(setup: string, fault: string[]): Promise<number | undefined> {
  const garage = await loadGarage(demoGarage('hatch'));
  const plan = planInGarage(garage, { setup: [setup], manoeuvre: 'starts', fault });
  const { rows, trace } = simulate({ ...plan, constants: plan.setups[0]!.constants });
  const gatherer = createDetections(Layout.PAIR);
  for (let i = 0; i < rows.count; i++)
    gatherer.observe(trace.t[i]!, rows.outputs, i * outputWidth(rows.motors));
  return gatherer.finish().detections.find(({ kind }) => kind === 'frontFree')?.fromS;
}

test.each(['vinyl', 'carpet', 'concrete'])(
  'starts on %s: a lost front drive is told in the second start after, an intact one never',
  async (setup) => {
    expect(await frontLostAt(setup, [])).toBeUndefined();
    const told = await frontLostAt(setup, ['lostDrive@7:frontDrive']);
    expect(told).toBeGreaterThan(10);
    expect(told).toBeLessThan(12.5);
  },
);
