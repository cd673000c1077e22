import { type Clock, createClock } from './clock.ts';
import { Cause, Flag, Layout, State } from './codes.ts';
import { type Constants, FORMAT, S, V } from './constants.ts';
import { constantsCrc } from './crc32.ts';
import { isFitted } from './fit.ts';
import { createGates, type Gates } from './gate.ts';
import { createProtection, type Protection } from './protection.ts';
import { type Axis, createAxis } from './shaping.ts';
import { type Inputs, MISSING, type Outputs, rest } from './signals.ts';
import { createSlew, type Slew } from './slew.ts';
import { createSlots, type Slots } from './slots.ts';
import { createSplit, type Split } from './split.ts';
import { createSteering, type Steering } from './steering.ts';
import { createSupervisor, type Supervisor } from './supervisor.ts';
import { createTraction, type Traction } from './traction.ts';
import { createYawAssist, type YawAssist } from './yaw-assist.ts';

/** The control core of one vehicle. Nothing in it throws and nothing in `step` allocates. */
export interface Core {
  /**
   * One tick: reads `inputs`, whatever they hold, and fills `outputs`. What was consumed of each
   * input is written back to it.
   */
  step(inputs: Inputs, outputs: Outputs): void;
  /**
   * Puts a setup into a slot on board; if the slot is in force, the core fades to it. The setup is
   * not checked here: see `createController` in loader.ts.
   */
  put(slot: number, setup: number[]): void;
  /** Bits of Flag that go out with every tick. */
  notice: number;
}

/**
 * Builds a core. With constants that are not the ones the laptop baked, by their CRC, it stays in
 * State.FAULT with Cause.BAD_CONSTANTS and neutral outputs for good.
 *
 * @param constants baked on the laptop; copied where they can change
 */
export function createCore(constants: Constants): Core {
  if (!isWhole(constants)) return { step: refuse, put: refuse, notice: 0 };
  return createTrusted(constants);
}

/** As `createCore`, of constants that are known to be whole. */
export function createTrusted(constants: Constants): Core {
  const stages = createStages(constants);
  loadStages(stages);
  const core = { step: step, put: stages.slots.put, notice: 0 };

  function step(inputs: Inputs, outputs: Outputs): void {
    takeIn(inputs, stages, MISSING);
    decide(stages, inputs);
    act(stages, outputs, core.notice);
  }

  return core;
}

/** What a core without trustworthy constants does. */
export function refuse(_inputs: unknown, outputs: unknown): void {
  const out = outputs as Outputs;
  rest(out);
  out.state = State.FAULT;
  out.cause = Cause.BAD_CONSTANTS;
}

interface Stages {
  motors: number;
  pivots: boolean;
  speedLag: number;
  /** 1 if the supply voltage is measured. */
  supply: number;
  /** Top speed over full command where the motors do not tell the speed, else 0, m/s. */
  guessed: number;
  clock: Clock;
  slots: Slots;
  pedal: Axis;
  wheel: Axis;
  steering: Steering;
  supervisor: Supervisor;
  yawAssist: YawAssist;
  split: Split;
  traction: Traction;
  protection: Protection;
  slew: Slew;
  gates: Gates;
  /** What is consumed of this tick's inputs. */
  timeMs: number;
  throttleUs: number;
  steerUs: number;
  ageMs: number;
  slot: number;
  guest: number;
  batteryMv: number;
  yawRate: number;
  current: number[];
  wheels: number[];
  /** Lists to hand out in place of those that hold something else. */
  ownCurrent: number[];
  ownWheels: number[];
  /** 1 if wheel speeds are measured. */
  measured: number;
  still: number;
  speed: number;
  internal: number;
  /** Steering command on its way from `decide` to `act`, permille. */
  turned: number;
}

function createStages(constants: Constants): Stages {
  const vehicle = constants.vehicle;
  const protection = createProtection(vehicle);
  return {
    motors: vehicle[V.MOTORS],
    pivots: vehicle[V.LAYOUT] === Layout.TRACKED,
    speedLag: vehicle[V.SPEED_LAG_MS],
    supply: vehicle[V.HAS_SUPPLY],
    guessed:
      (vehicle[V.HAS_CURRENT] + vehicle[V.HAS_WHEEL_SPEED]) * vehicle[V.EMF_UV] > 0
        ? 0
        : vehicle[V.TOP_SPEED_MM_S] / 1000,
    clock: createClock(vehicle[V.TICK_MS], vehicle[V.GAP_MS]),
    slots: createSlots(constants.setups),
    pedal: createAxis(vehicle, V.THROTTLE_LOW_US, S.THROTTLE_DEAD_BAND),
    wheel: createAxis(vehicle, V.STEER_LOW_US, S.STEER_DEAD_BAND),
    steering: createSteering(),
    supervisor: createSupervisor(),
    yawAssist: createYawAssist(vehicle),
    split: createSplit(vehicle),
    traction: createTraction(vehicle, protection.motors.windings),
    protection: protection,
    slew: createSlew(vehicle[V.MOTORS]),
    gates: createGates(vehicle[V.GATE_RISE], vehicle[V.GATE_DWELL]),
    timeMs: 0,
    throttleUs: 0,
    steerUs: 0,
    ageMs: 0,
    slot: 0,
    guest: 0,
    batteryMv: 0,
    yawRate: 0,
    current: [0, 0, 0, 0],
    wheels: [0, 0, 0, 0],
    ownCurrent: [MISSING, MISSING, MISSING, MISSING],
    ownWheels: [MISSING, MISSING, MISSING, MISSING],
    measured: vehicle[V.HAS_WHEEL_SPEED],
    still: 1,
    speed: 0,
    internal: Cause.NONE,
    turned: 0,
  };
}

function loadStages(stages: Stages): void {
  const setup = stages.slots.active;
  stages.pedal.load(setup);
  stages.wheel.load(setup);
  stages.steering.load(setup);
  stages.supervisor.load(setup);
  stages.yawAssist.load(setup);
  stages.split.load(setup);
  stages.traction.load(setup);
  stages.slew.load(setup);
}

/**
 * Leaves an integer of 16 bits (time: 32) or MISSING in every input and, as numbers at hand, in the
 * stages. Of a number that is no such integer the bit operators make another one; of a few other
 * values they make an exception.
 */
function takeIn(inputs: Inputs, stages: Stages, none: number): void {
  stages.timeMs = inputs.timeMs;
  if (typeof stages.timeMs !== 'number' || (stages.timeMs | 0) !== stages.timeMs) {
    stages.timeMs = none;
    inputs.timeMs = none;
  }
  stages.throttleUs = inputs.throttleUs;
  if (
    typeof stages.throttleUs !== 'number' ||
    (stages.throttleUs << 16) >> 16 !== stages.throttleUs
  ) {
    stages.throttleUs = none;
    inputs.throttleUs = none;
  }
  stages.steerUs = inputs.steerUs;
  if (typeof stages.steerUs !== 'number' || (stages.steerUs << 16) >> 16 !== stages.steerUs) {
    stages.steerUs = none;
    inputs.steerUs = none;
  }
  stages.ageMs = inputs.ageMs;
  if (typeof stages.ageMs !== 'number' || (stages.ageMs << 16) >> 16 !== stages.ageMs) {
    stages.ageMs = none;
    inputs.ageMs = none;
  }
  // What is written back of the slot is the one in force.
  const slot = inputs.slot;
  stages.slot = typeof slot === 'number' && (slot << 16) >> 16 === slot ? slot : none;
  stages.batteryMv = inputs.batteryMv;
  if (typeof stages.batteryMv !== 'number' || (stages.batteryMv << 16) >> 16 !== stages.batteryMv) {
    stages.batteryMv = none;
    inputs.batteryMv = none;
  }
  stages.yawRate = inputs.yawRateMradS;
  if (typeof stages.yawRate !== 'number' || (stages.yawRate << 16) >> 16 !== stages.yawRate) {
    stages.yawRate = none;
    inputs.yawRateMradS = none;
  }
  stages.guest = 0;
  if (inputs.guest !== 0) {
    stages.guest = 1;
    inputs.guest = 1;
  }
  takeLists(inputs, stages, none);
}

function takeLists(inputs: Inputs, stages: Stages, none: number): void {
  const motors = stages.motors;
  const own = stages.ownWheels;
  if (takeList(inputs.currentMa, stages.current, motors, none) === 1) {
    inputs.currentMa = handOut(stages.current, stages.ownCurrent, motors);
  }
  if (stages.measured === 0) {
    // The list is handed out, so the hub may have written into it.
    for (let i = 0; i < motors; i++) own[i] = none;
    inputs.wheelDegS = own;
  } else if (takeList(inputs.wheelDegS, stages.wheels, motors, none) === 1) {
    inputs.wheelDegS = handOut(stages.wheels, own, motors);
  }
}

/** Copies a list; 1 if what arrived is not what is consumed. */
function takeList(list: number[], copy: number[], count: number, none: number): number {
  let other = 0;
  for (let i = 0; i < count; i++) {
    const value = list ? list[i] : none;
    copy[i] = value;
    if (typeof value !== 'number' || (value << 16) >> 16 !== value || !list) {
      copy[i] = none;
      other = 1;
    }
  }
  return other;
}

/** What was consumed, in a list of the core's: the one that arrived may be anything. */
function handOut(consumed: number[], own: number[], count: number): number[] {
  for (let i = 0; i < count; i++) own[i] = consumed[i];
  return own;
}

/** First half of a tick: what is wanted, and whether it may be. */
function decide(stages: Stages, inputs: Inputs): void {
  const clock = stages.clock;
  const slots = stages.slots;
  const supervisor = stages.supervisor;
  const throttle = stages.pedal;
  const wheel = stages.wheel;
  clock.run(stages.timeMs);
  const rise = clock.rise;
  const stop = clock.stop;
  if (slots.run(stages.slot, rise) === 1) loadStages(stages);
  inputs.slot = slots.chosen;

  const before = supervisor.phase;
  const us = stages.throttleUs;
  const steerUs = stages.steerUs;
  const age = stages.ageMs;
  let valid = 0;
  if (
    us >= throttle.least &&
    us <= throttle.greatest &&
    steerUs >= wheel.least &&
    steerUs <= wheel.greatest &&
    age >= 0
  ) {
    valid = 1;
    // While nothing may move, no old command may live on in a low-pass until it may.
    const loose = before > State.LOCKED && before < State.STOPPING ? 0 : 1;
    throttle.run(us, rise, stop, loose);
    wheel.run(steerUs, rise, rise, loose);
  }
  const neutral = stages.pivots ? throttle.neutral & centred(stages) : throttle.neutral;
  const internal = stages.internal;
  const supply = stages.protection.cells.fault;
  const motors = stages.protection.motors.fault();
  const own = motors > supply ? motors : supply;
  const fault = internal !== Cause.NONE ? internal : own !== 0 ? own : stages.traction.fault;
  supervisor.run(valid, age, neutral, clock.fault, fault, stages.still, rise, stop);
  stages.turned = stages.steering.run(wheel.value, supervisor.lost, stages.speed, rise);
}

/** 1 if neither the wheel nor what is left of its last command turns the tracks. */
function centred(stages: Stages): number {
  return stages.turned === 0 ? stages.wheel.neutral : 0;
}

/** Second half: the motors. */
function act(stages: Stages, outputs: Outputs, notice: number): void {
  const clock = stages.clock;
  const supervisor = stages.supervisor;
  const split = stages.split;
  const slew = stages.slew;
  const traction = stages.traction;
  const protection = stages.protection;
  const yaw = stages.yawAssist;
  const drive = stages.gates.passed;
  const rise = clock.rise;
  const stop = clock.stop;
  const state = supervisor.phase;
  const steer = stages.turned;
  const guest = stages.guest;
  const throttle = stages.pedal.value;
  const armed = state > State.LOCKED && state < State.STOPPING;
  const demand = armed ? throttle : 0;
  const cap = guest === 0 ? 1000 : stages.slots.active[S.GUEST_CAP] | 0;
  const speed = travel(stages, demand);
  const assisted = yaw.run(stages.yawRate, demand, steer, speed, stages.still, rise, stop);
  split.run(demand, steer, cap, yaw.change);
  const goal = split.goal;
  // Back-EMF needs the voltage of this moment, not the guard's low-passed one.
  const sample = stages.batteryMv;
  const mv = stages.supply === 1 && sample > 0 ? sample : protection.cells.voltage;
  const current = stages.current;
  const wheels = stages.wheels;
  const enable = armed || state === State.STOPPING ? 1 : 0;
  const found = traction.run(goal, drive, mv, current, wheels, steer, armed, enable, rise, stop);
  let flags = protection.run(goal, drive, sample, current, rise, stop);
  // Of its flags TRACTION_LIMIT is the greatest. What lowers a command may use the rate of a
  // controlled stop.
  const lowered = flags !== 0 || found >= Flag.TRACTION_LIMIT;
  slew.run(goal, rise, stop, !armed ? 2 : lowered ? 1 : 0);
  passGates(stages, outputs.drive, enable, cap, stop);

  // Sums, for no two of them share a bit; a bit operator takes many times as long.
  flags += notice + assisted + found;
  if (supervisor.holding === 1) flags += Flag.HOLDING;
  if (guest !== 0) flags += Flag.GUEST;
  if (stages.slots.fading === 1) flags += Flag.FADING;
  if (clock.odd === 1) flags += Flag.CLOCK_ODD;
  outputs.enable = enable;
  outputs.steer = steer | 0;
  outputs.state = state;
  outputs.cause = supervisor.reason;
  outputs.flags = flags;
  outputs.slot = stages.slots.chosen;
  outputs.throttle = throttle;
  outputs.demand = demand;
  outputs.cut = split.cut;
  outputs.limit = protection.left;
  outputs.speed = traction.ground.speed;
  outputs.found = traction.found;
  outputs.spin = traction.spin;
  outputs.free = traction.free;
  outputs.jam = traction.jam;
  outputs.assist = yaw.change;
}

/** Estimated speed over ground, mm/s, forward positive. */
function travel(stages: Stages, demand: number): number {
  if (stages.guessed === 0) return stages.traction.ground.speed;
  const guess = stages.speed * stages.guessed;
  return guess === 0 ? stages.traction.ground.speed : demand < 0 ? 0 - guess : guess;
}

function passGates(stages: Stages, out: number[], enable: number, cap: number, stop: number): void {
  const gates = stages.gates;
  const motors = stages.motors;
  const slew = stages.slew;
  const now = slew.now;
  let still = 1;
  for (let i = 0; i < motors; i++) {
    const wanted = now[i];
    const passed = gates.run(i, wanted, enable, cap);
    if (passed !== 0) still = 0;
    // The gate cuts fractions off; where it held back more, the slew stage must know.
    if (wanted >= passed + 1 || wanted <= passed - 1) slew.settle(i, passed);
    out[i] = passed;
  }
  stages.still = still;
  // In pairs, so that the mirrored vehicle's sum is the same to the last bit.
  let sum = now[0] + now[1];
  if (motors > 2) sum += now[2] + now[3];
  // A first-order guess from the commands; back-EMF does better where currents are measured.
  const speed = stages.speed;
  const mean = (sum < 0 ? 0 - sum : sum) / motors;
  stages.speed = speed + ((mean - speed) * stop) / (stages.speedLag + stop);
  if (sum - sum !== 0) stages.internal = Cause.INTERNAL;
}

/** Whether these are constants of this format as the laptop baked them, and fit. Never throws. */
function isWhole(constants: Constants): boolean {
  try {
    return (
      constants.vehicle[V.FORMAT] === FORMAT &&
      constantsCrc(constants) === constants.crc &&
      isFitted(constants)
    );
  } catch (_) {
    return false;
  }
}
