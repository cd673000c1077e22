import {
  type Constants,
  type Controller,
  createController,
  type Inputs,
  type Outputs,
} from '../../lib/index.ts';
import { withCrc } from './arbitrary-constants.ts';
import type { Core } from './judge.ts';
import { type Changes, changed } from './plain-constants.ts';

/**
 * A core that drives with other constants than it was given, as if it did not heed those in the
 * code.
 */
export function heedless(name: string, change: { vehicle?: Changes; setup?: Changes }): Core {
  return {
    name,
    createController: (constants: Constants) =>
      createController(
        withCrc({
          vehicle: changed(constants.vehicle, change.vehicle ?? {}),
          setups: constants.setups.map((setup) => changed(setup, change.setup ?? {})),
          crc: 0,
        }),
      ),
  };
}

/**
 * A core whose step ends in a fault of ours.
 *
 * @param spoil changes the outputs; gets those of the tick before as well
 */
export function spoilt(
  name: string,
  spoil: (outputs: Outputs, before: Outputs, inputs: Inputs) => void,
): Core {
  return wrapped(name, (core) => {
    let before: Outputs | undefined;
    return {
      step(inputs, outputs) {
        core.step(inputs, outputs);
        spoil(outputs, before ?? { ...outputs, drive: [0, 0, 0, 0], steer: 0 }, inputs);
        before = { ...outputs, drive: [...outputs.drive] };
      },
      offerSetup: core.offerSetup,
    };
  });
}

/** A core with something around it. */
export function wrapped(name: string, wrap: (core: Controller) => Controller): Core {
  return { name, createController: (constants) => wrap(createController(constants)) };
}
