import { type Clock, createClock } from './clock.ts';
import { Cause, Flag, Layout, State } from './codes.ts';
import { type Constants, S, V } from './constants.ts';
import { crc32Words, createCrcTable } from './crc32.ts';
import { createGate, type Gate } from './gate.ts';
import { int16, int32 } from './integer.ts';
import { checkConstants, checkSetup } from './loader.ts';
import { createProtection, type Protection } from './protection.ts';
import { type Axis, createAxis } from './shaping.ts';
import { type Inputs, MISSING, type Outputs, rest } from './signals.ts';
import { createSlew, type Slew } from './slew.ts';
import { createSlots, type Slots } from './slots.ts';
import { createSplit, type Split } from './split.ts';
import { createSteering, type Steering } from './steering.ts';
import { createSupervisor, type Supervisor } from './supervisor.ts';

/** The control core of one vehicle. Nothing in it throws and nothing in `step` allocates. */
export interface Controller {
  /**
   * One tick: reads `inputs`, whatever they hold, and fills `outputs`. What was consumed of each
   * input is written back to it.
   */
  step(inputs: Inputs, outputs: Outputs): void;
  /**
   * Offers a setup to a slot on board. It is loaded only if it is whole and may be driven with on
   * this vehicle; if its slot is in force, the core fades to it.
   *
   * @param slot from 0
   * @param setup S.COUNT integers; copied
   * @param crc CRC-32 over them, signed 32-bit
   * @returns 1 if it was loaded, 0 if it was refused and nothing changed
   */
  offerSetup(slot: number, setup: number[], crc: number): number;
}

/**
 * Builds a controller. With constants that fail the loader's check it stays in State.FAULT with
 * Cause.BAD_CONSTANTS and neutral outputs for good.
 *
 * @param constants baked on the laptop; copied where they can change
 */
export function createController(constants: Constants): Controller {
  const table = createCrcTable();
  if (!checkConstants(table, constants)) return { step: refuse, offerSetup: refuseSetup };
  const core = createCore(constants);
  loadStages(core);
  let refused = 0;

  function step(inputs: Inputs, outputs: Outputs): void {
    runTick(core, inputs, outputs);
    outputs.flags |= refused;
  }

  function offerSetup(slot: number, setup: number[], crc: number): number {
    const fits =
      int16(slot) === slot &&
      slot >= 0 &&
      slot < constants.setups.length &&
      checkSetup(constants.vehicle, setup) &&
      crc32Words(table, setup, 0, S.COUNT, 0) === crc;
    refused = fits ? 0 : Flag.SETUP_REFUSED;
    if (fits) core.slots.put(slot, setup);
    return fits ? 1 : 0;
  }

  return { step: step, offerSetup: offerSetup };
}

interface Core {
  motors: number;
  pivots: boolean;
  speedLag: number;
  clock: Clock;
  slots: Slots;
  throttle: Axis;
  wheel: Axis;
  steering: Steering;
  supervisor: Supervisor;
  split: Split;
  protection: Protection;
  slew: Slew;
  gates: Gate[];
  drive: number[];
  noCurrents: number[];
  still: number;
  speed: number;
  internal: number;
}

function createCore(constants: Constants): Core {
  const vehicle = constants.vehicle;
  const gates: Gate[] = [];
  for (let i = 0; i < vehicle[V.MOTORS]; i++) {
    gates.push(createGate(vehicle[V.GATE_RISE], vehicle[V.GATE_DWELL]));
  }
  return {
    motors: vehicle[V.MOTORS],
    pivots: vehicle[V.LAYOUT] === Layout.TRACKED,
    speedLag: vehicle[V.SPEED_LAG_MS],
    clock: createClock(vehicle[V.TICK_MS], vehicle[V.GAP_MS]),
    slots: createSlots(constants.setups),
    throttle: createAxis(vehicle, V.THROTTLE_LOW_US, S.THROTTLE_DEAD_BAND),
    wheel: createAxis(vehicle, V.STEER_LOW_US, S.STEER_DEAD_BAND),
    steering: createSteering(),
    supervisor: createSupervisor(),
    split: createSplit(vehicle),
    protection: createProtection(vehicle),
    slew: createSlew(vehicle[V.MOTORS]),
    gates: gates,
    drive: [0, 0, 0, 0],
    noCurrents: [MISSING, MISSING, MISSING, MISSING],
    still: 1,
    speed: 0,
    internal: Cause.NONE,
  };
}

function loadStages(core: Core): void {
  const setup = core.slots.active;
  core.throttle.load(setup);
  core.wheel.load(setup);
  core.steering.load(setup);
  core.supervisor.load(setup);
  core.split.load(setup);
  core.slew.load(setup);
}

/** The order of the tick. Yaw assist belongs before the split, traction before protection. */
function runTick(core: Core, inputs: Inputs, outputs: Outputs): void {
  const clock = core.clock;
  const supervisor = core.supervisor;
  const protection = core.protection;
  takeIn(inputs, core.motors, core.noCurrents);
  clock.step(inputs.timeMs);
  if (core.slots.step(inputs.slot, clock.rise) === 1) loadStages(core);
  inputs.slot = core.slots.slot;

  const valid = shape(core, inputs);
  const neutral = core.throttle.neutral & (core.pivots ? centred(core) : 1);
  const fault = core.internal !== Cause.NONE ? core.internal : protection.cause;
  supervisor.step(
    valid,
    inputs.ageMs,
    neutral,
    clock.cause,
    fault,
    core.still,
    clock.rise,
    clock.stop,
  );
  core.steering.step(core.wheel.value, supervisor.lost, core.speed, clock.rise);
  const armed = supervisor.state === State.READY || supervisor.state === State.DRIVING;
  const demand = armed ? core.throttle.value : 0;

  const cap = inputs.guest === 0 ? 1000 : core.slots.active[S.GUEST_CAP];
  core.split.step(demand, core.steering.value, cap);
  const goal = core.split.goal;
  protection.step(goal, core.drive, inputs.batteryMv, inputs.currentMa, clock.rise, clock.stop);
  core.slew.step(goal, clock.rise, clock.stop, !armed ? 2 : protection.flags !== 0 ? 1 : 0);
  const enable = armed || supervisor.state === State.STOPPING ? 1 : 0;
  passGates(core, enable, cap | 0, clock.stop);
  writeOutputs(core, inputs, outputs, demand, enable);
}

/** Leaves integers or MISSING in every input; `spare` stands in for a list that is none. */
function takeIn(inputs: Inputs, motors: number, spare: number[]): void {
  inputs.timeMs = int32(inputs.timeMs);
  inputs.throttleUs = int16(inputs.throttleUs);
  inputs.steerUs = int16(inputs.steerUs);
  inputs.ageMs = int16(inputs.ageMs);
  inputs.slot = int16(inputs.slot);
  inputs.guest = inputs.guest === 0 ? 0 : 1;
  inputs.batteryMv = int16(inputs.batteryMv);
  inputs.yawRateMradS = int16(inputs.yawRateMradS);
  if (typeof inputs.currentMa !== 'object' || inputs.currentMa === null) {
    for (let i = 0; i < motors; i++) spare[i] = MISSING;
    inputs.currentMa = spare;
  }
  for (let i = 0; i < motors; i++) inputs.currentMa[i] = int16(inputs.currentMa[i]);
}

/** 1 if neither the wheel nor what is left of its last command turns the tracks. */
function centred(core: Core): number {
  return core.steering.value === 0 ? core.wheel.neutral : 0;
}

/** Shapes both sticks if both pulses are valid; else what was shaped last stays. */
function shape(core: Core, inputs: Inputs): number {
  const valid =
    core.throttle.valid(inputs.throttleUs) &
    core.wheel.valid(inputs.steerUs) &
    (inputs.ageMs >= 0 ? 1 : 0);
  if (valid === 1) {
    const rise = core.clock.rise;
    // While nothing may move, no old command may live on in a low-pass until it may.
    const state = core.supervisor.state;
    const loose = state === State.READY || state === State.DRIVING ? 0 : 1;
    core.throttle.step(inputs.throttleUs, rise, core.clock.stop, loose);
    core.wheel.step(inputs.steerUs, rise, rise, loose);
  }
  return valid;
}

function passGates(core: Core, enable: number, cap: number, stop: number): void {
  const now = core.slew.now;
  core.still = 1;
  for (let i = 0; i < core.motors; i++) {
    const gate = core.gates[i];
    gate.step(now[i], enable, cap);
    core.slew.settle(i, gate.value);
    core.drive[i] = gate.value;
    if (gate.value !== 0) core.still = 0;
  }
  // In pairs, so that the mirrored vehicle's sum is the same to the last bit.
  const sum = now[0] + now[1] + (now[2] + now[3]);
  // A first-order guess from the commands; back-EMF does better where currents are measured.
  const mean = (sum < 0 ? 0 - sum : sum) / core.motors;
  core.speed += ((mean - core.speed) * stop) / (core.speedLag + stop);
  if (sum - sum !== 0) core.internal = Cause.INTERNAL;
}

function writeOutputs(
  core: Core,
  inputs: Inputs,
  outputs: Outputs,
  demand: number,
  enable: number,
): void {
  const supervisor = core.supervisor;
  for (let i = 0; i < core.motors; i++) outputs.drive[i] = core.drive[i];
  outputs.enable = enable;
  outputs.steer = core.steering.value | 0;
  outputs.state = supervisor.state;
  outputs.cause = supervisor.cause;
  outputs.flags =
    core.protection.flags |
    (supervisor.holding === 1 ? Flag.HOLDING : 0) |
    (inputs.guest === 1 ? Flag.GUEST : 0) |
    (core.slots.fading === 1 ? Flag.FADING : 0) |
    (core.clock.odd === 1 ? Flag.CLOCK_ODD : 0);
  outputs.slot = core.slots.slot;
  outputs.throttle = core.throttle.value;
  outputs.demand = demand;
  outputs.cut = core.split.cut;
  outputs.limit = core.protection.limit;
}

function refuse(_inputs: Inputs, outputs: Outputs): void {
  rest(outputs);
  outputs.state = State.FAULT;
  outputs.cause = Cause.BAD_CONSTANTS;
}

function refuseSetup(): number {
  return 0;
}
