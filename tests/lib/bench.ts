import {
  type Constants,
  type Controller,
  createController,
  createInputs,
  createOutputs,
  type Inputs,
  type Outputs,
  S,
  State,
  V,
} from '../../lib/index.ts';

/** A controller with inputs that stay as they are until they are changed. */
export interface Bench {
  readonly controller: Controller;
  readonly inputs: Inputs;
  /** What the last tick commanded. */
  readonly outputs: Outputs;
  /** One tick after another; the clock goes on by the nominal tick before each but the first. */
  step(ticks?: number, change?: Partial<Inputs>): Outputs;
}

/** A bench at power-up: both sticks at their centre, a full supply, no current. */
export function createBench(constants: Constants): Bench {
  const { vehicle } = constants;
  const controller = createController(constants);
  const outputs = createOutputs();
  const inputs: Inputs = {
    ...createInputs(),
    timeMs: 0,
    throttleUs: vehicle[V.THROTTLE_CENTRE_US]!,
    steerUs: vehicle[V.STEER_CENTRE_US]!,
    ageMs: 0,
    batteryMv: 7400,
    yawRateMradS: 0,
    currentMa: [0, 0, 0, 0],
  };
  let started = false;

  function step(ticks = 1, change: Partial<Inputs> = {}): Outputs {
    Object.assign(inputs, change);
    for (let i = 0; i < ticks; i++) {
      if (started) inputs.timeMs = (inputs.timeMs + vehicle[V.TICK_MS]!) | 0;
      started = true;
      controller.step(inputs, outputs);
    }
    return outputs;
  }

  return { controller, inputs, outputs, step };
}

/** A bench that has just been armed. */
export function createArmedBench(constants: Constants): Bench {
  const bench = createBench(constants);
  bench.step(1 + Math.ceil(constants.setups[0]![S.NEUTRAL_MS]! / constants.vehicle[V.TICK_MS]!));
  if (bench.outputs.state !== State.READY) throw new Error('the bench did not arm');
  return bench;
}

/** Pulse of a stick with 1500 +- 500 us; `position` permille, even. */
export function pulse(position: number): number {
  return 1500 + position / 2;
}
