import { type Constants, V } from '../../lib/constants.ts';
import { type Controller, createController } from '../../lib/loader.ts';
import { createRecorder, type Recorder } from '../../lib/recorder.ts';
import {
  createInputs,
  createOutputs,
  type Inputs,
  MISSING,
  type Outputs,
} from '../../lib/signals.ts';
import type { Ports } from './ports.ts';

/** A core wired to a hub's ports. */
export interface Hub {
  /** Reads the ports, steps the core, writes the ports. Call it once a tick; it never throws. */
  tick(): void;
  /** As `Controller.offerSetup`. */
  offerSetup: Controller['offerSetup'];
  /** What the core consumed in the last tick. */
  inputs: Inputs;
  /** What the core commanded in the last tick. */
  outputs: Outputs;
  /** The recorder, or null if there is none. */
  recorder: Recorder | null;
  /** 1 while the drive is off because a port that writes threw. */
  failed: number;
}

/**
 * Wires a core to a hub. Nothing moves until `tick` has seen a fresh neutral throttle.
 *
 * @param ports see Ports; those a hub lacks are left out
 * @param constants baked constants, from the bundle
 * @param records records in a block of the recorder, 1 to 255; 0 = no recorder
 * @param blocks blocks in its ring, 1 or more
 */
export function boot(
  ports: Partial<Ports>,
  constants: Constants,
  records: number,
  blocks: number,
): Hub {
  const controller = createController(constants);
  const motors = constants.vehicle[V.MOTORS]!;
  const inputs = createInputs();
  const outputs = createOutputs();
  const recorder = records > 0 ? createRecorder(motors, records, blocks, constants.crc) : null;
  const sense = createSense(ports, motors, inputs);
  const command = createCommand(ports, motors, outputs);
  const hub = {
    tick: tick,
    offerSetup: controller.offerSetup,
    inputs: inputs,
    outputs: outputs,
    recorder: recorder,
    failed: 0,
  };

  function tick(): void {
    sense();
    if (hub.failed === 1) {
      // The core must not drive on unseen: to it the signal is lost, so it locks and arms anew.
      inputs.throttleUs = MISSING;
      inputs.steerUs = MISSING;
    }
    controller.step(inputs, outputs);
    if (outputs.enable === 0) hub.failed = 0;
    if (command(hub.failed === 0 ? outputs.enable : 0) === 1) {
      hub.failed = 1;
      command(0);
    }
    if (recorder !== null && recorder.put(inputs, outputs) === 1) {
      write(ports.writeBlock, recorder.ring, recorder.done, recorder.blockWords);
    }
  }

  return hub;
}

/** Returns the function that fills the inputs from the ports. */
function createSense(ports: Partial<Ports>, motors: number, inputs: Inputs): () => void {
  const nowMs = ports.nowMs;
  const readThrottleUs = ports.readThrottleUs;
  const readSteerUs = ports.readSteerUs;
  const readInputAgeMs = ports.readInputAgeMs;
  const readSlot = ports.readSlot;
  const readGuest = ports.readGuest;
  const readBatteryMv = ports.readBatteryMv;
  const readYawRate = ports.readYawRate;
  const readCurrentMa = ports.readCurrentMa;
  const readWheelDegS = ports.readWheelDegS;

  function sense(): void {
    inputs.timeMs = read(nowMs, 0);
    inputs.throttleUs = read(readThrottleUs, 0);
    inputs.steerUs = read(readSteerUs, 0);
    inputs.ageMs = read(readInputAgeMs, 0);
    inputs.slot = read(readSlot, 0);
    inputs.guest = readGuest ? read(readGuest, 0) : 0;
    inputs.batteryMv = read(readBatteryMv, 0);
    inputs.yawRateMradS = read(readYawRate, 0);
    for (let i = 0; i < motors; i++) {
      inputs.currentMa[i] = read(readCurrentMa, i);
      inputs.wheelDegS[i] = read(readWheelDegS, i);
    }
  }

  return sense;
}

/** Returns the function that writes the outputs to the ports; it gives 1 if one of them threw. */
function createCommand(
  ports: Partial<Ports>,
  motors: number,
  outputs: Outputs,
): (enable: number) => number {
  const writeDrive = ports.writeDrive;
  const writeEnable = ports.writeEnable;
  const writeSteer = ports.writeSteer;

  function command(enable: number): number {
    // Off before the commands change, on only after they have.
    let threw = enable === 0 ? write(writeEnable, 0, 0, 0) : 0;
    for (let i = 0; i < motors; i++) {
      threw |= write(writeDrive, i, enable === 0 ? 0 : outputs.drive[i]!, 0);
    }
    threw |= write(writeSteer, outputs.steer, 0, 0);
    return enable === 0 ? threw : threw | write(writeEnable, 1, 0, 0);
  }

  return command;
}

/** What a port returns; MISSING if there is none or it throws. */
function read(port: ((index: number) => number) | undefined, index: number): number {
  if (typeof port !== 'function') return MISSING;
  try {
    return port(index);
  } catch {
    return MISSING;
  }
}

/** Calls a port if there is one; 1 if it threw. */
function write<T>(
  port: ((a: T, b: number, c: number) => void) | undefined,
  a: T,
  b: number,
  c: number,
): number {
  if (typeof port !== 'function') return 0;
  try {
    port(a, b, c);
  } catch {
    return 1;
  }
  return 0;
}
