import { expect, test } from 'vitest';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import type { Manoeuvre } from '../../harness/manoeuvres/manoeuvre.ts';
import { createScript, ramp } from '../../harness/manoeuvres/script.ts';
import type { PlantVariation } from '../../harness/plant/vary-plant.ts';
import { readInputs } from '../../harness/replay/read-row.ts';
import { inputWidth, Out, outputWidth } from '../../harness/replay/row-layout.ts';
import { loadGarage } from '../../harness/setup/load-garage.ts';
import { planInGarage } from '../../harness/simulate/plan-simulation.ts';
import { type SimulationResult, simulate } from '../../harness/simulate/simulate.ts';
import {
  type Constants,
  createController,
  createInputs,
  createOutputs,
  Found,
  V,
} from '../../lib/index.ts';

// A lost front drive in the simulated hatch, which has no wheel-speed sensor: told from starts, by
// back-EMF alone. How often, over many floors, errors and drivers, says npm run study:traction.

const garage = await loadGarage(demoGarage('hatch'));

/** A start each so many seconds, for so long; as many before the front drive is lost, and after. */
const EACH_S = 2.5;
const POWER_S = 1.2;
const BEFORE = 4;
const AFTER = 3;
const LOST_S = BEFORE * EACH_S - 0.1;

const starts: Manoeuvre = {
  name: 'starts',
  source: 'Of this test, no source.',
  meaning: 'Only for this test.',
  headline: ['topSpeed'],
  kind: 'straight',
  title: 'Start after start',
  durationS: () => (BEFORE + AFTER) * EACH_S,
  createDriver: () =>
    createScript((t, sticks) => {
      const since = t % EACH_S;
      const throttle = 0.8 + 0.1 * (Math.floor(t / EACH_S) % 3);
      sticks.throttle = since < POWER_S ? throttle * ramp(since, 0.1) : 0;
    }),
};

/** The car as it is not: its motors differ from the description, its sensors are noisy. */
const motor = { resistance: 1.15, constant: 0.85, friction: 1.1, startC: 70 };
const variation: PlantVariation = {
  mass: 1.02,
  friction: 1,
  rolling: 1.2,
  motors: [motor, { ...motor, resistance: 1.13 }],
  battery: { voltage: 0.95, resistance: 2 },
  sensors: { current: { step: 24, noise: 15, noiseShare: 0.05, offset: 20, most: 12000 } },
};

function drive(surface: string, isLost: boolean) {
  const wishes = { setup: ['carpet'], surface, variation, manoeuvre: 'top-speed', seed: 7 };
  const plan = planInGarage(garage, wishes);
  const { constants } = plan.setups[0]!;
  const fault = { kind: 'lostDrive', constraint: 'frontDrive' } as const;
  const faults = isLost ? [{ fault, fromS: LOST_S, toS: Infinity }] : [];
  return { constants, result: simulate({ ...plan, constants, faults, manoeuvre: starts }) };
}

/** Time of each tick with the finding, s, as a core tells whose inputs are the mirror image. */
function mirroredAt({ rows, trace }: SimulationResult, constants: Constants): number[] {
  const core = createController(constants);
  const inputs = createInputs();
  const outputs = createOutputs();
  const times: number[] = [];
  for (let i = 0; i < rows.count; i++) {
    readInputs(rows.inputs, i * inputWidth(2), 2, inputs);
    inputs.steerUs = 2 * constants.vehicle[V.STEER_CENTRE_US]! - inputs.steerUs;
    inputs.yawRateMradS = -inputs.yawRateMradS;
    const [left, right] = inputs.currentMa;
    inputs.currentMa[0] = right!;
    inputs.currentMa[1] = left!;
    core.step(inputs, outputs);
    if ((outputs.found & Found.FRONT_FREE) !== 0) times.push(trace.t[i]!);
  }
  return times;
}

/** Time of each tick with the finding as the core in the drive told, s. */
function toldAt({ rows, trace }: SimulationResult): number[] {
  return [...trace.t.slice(0, rows.count)].filter(
    (_, i) => (rows.outputs[i * outputWidth(2) + Out.FOUND]! & Found.FRONT_FREE) !== 0,
  );
}

test.each(garage.surfaces.map(({ name }) => name))(
  'a lost front drive is found within three starts on %s, and in no start before',
  (surface) => {
    const { constants, result } = drive(surface, true);
    expect(constants.vehicle[V.HAS_WHEEL_SPEED]).toBe(0);
    const told = toldAt(result);
    expect(told.length).toBeGreaterThan(0);
    expect(told[0]).toBeGreaterThan(LOST_S + EACH_S);
    expect(mirroredAt(result, constants)).toEqual(told);
  },
);

test.each(garage.surfaces.map(({ name }) => name))(
  'it is not found in starts on %s in which all wheels pull',
  (surface) => {
    const { constants, result } = drive(surface, false);
    expect(toldAt(result)).toEqual([]);
    expect(mirroredAt(result, constants)).toEqual([]);
  },
);
