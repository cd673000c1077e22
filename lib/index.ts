export { Cause, Flag, Found, Layout, Reaction, State } from './codes.ts';
export { type Constants, FORMAT, S, STEER_HOLD, TABLE_POINTS, V } from './constants.ts';
export { type Core, createCore } from './controller.ts';
export { constantsCrc } from './crc32.ts';
export { SETUP_LIMITS, VEHICLE_LIMITS } from './limits.ts';
export { type Controller, createController } from './loader.ts';
export { HEAT_STEP_MS } from './motor-guard.ts';
export {
  BLOCK_HEADER,
  BLOCK_MAGIC,
  createRecorder,
  type Recorder,
  recordWords,
} from './recorder.ts';
export { createInputs, createOutputs, type Inputs, MISSING, type Outputs } from './signals.ts';
