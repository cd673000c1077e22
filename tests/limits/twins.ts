import { expect } from 'vitest';
import {
  type Constants,
  createInputs,
  createOutputs,
  type Inputs,
  type Outputs,
} from '../../lib/index.ts';
import type { Drive } from './arbitrary-drive.ts';
import { play } from './play.ts';
import { sourceCore } from './source-core.ts';

/** In what the second core's drive differs from the first one's. */
export interface Twin {
  /** Changes a copy of the inputs before the second core takes them. */
  change?: (inputs: Inputs) => void;
  /** Changes the inputs before either core takes them. */
  changeBoth?: (inputs: Inputs) => void;
  /** true = the second core is offered no setups. */
  withoutOffers?: boolean;
  /** Bits of the flags that may differ; default 0. */
  ignoredFlags?: number;
}

/** Drives two cores beside each other and expects the same outputs, to the last bit. */
export function playTwins(drive: Drive, constants: Constants, twin: Twin): void {
  const second = sourceCore.createController(constants);
  const kept = ~(twin.ignoredFlags ?? 0);
  const inputs = createInputs();
  const outputs = createOutputs();
  play(sourceCore.createController(constants), drive, {
    before(given) {
      twin.changeBoth?.(given);
      Object.assign(inputs, given, { currentMa: [...given.currentMa] });
      twin.change?.(inputs);
    },
    after(_given, own) {
      second.step(inputs, outputs);
      if (same(outputs, own, kept)) return;
      const other = { ...outputs, flags: outputs.flags & kept };
      expect(other).toEqual({ ...own, flags: own.flags & kept });
    },
    threw(error) {
      throw error;
    },
    offered(slot, setup, crc) {
      if (!twin.withoutOffers) second.offerSetup(slot as number, setup as number[], crc);
    },
  });
}

/** The quick way to tell that there is nothing to tell. */
function same(a: Outputs, b: Outputs, kept: number): boolean {
  return (
    a.drive.every((command, i) => Object.is(command, b.drive[i])) &&
    Object.is(a.steer, b.steer) &&
    Object.is(a.throttle, b.throttle) &&
    Object.is(a.demand, b.demand) &&
    Object.is(a.cut, b.cut) &&
    Object.is(a.limit, b.limit) &&
    a.enable === b.enable &&
    a.state === b.state &&
    a.cause === b.cause &&
    a.slot === b.slot &&
    (a.flags & kept) === (b.flags & kept)
  );
}
