import * as v from 'valibot';
import { choice, flagOr, group, quantity, quantityOr, text, wholeOr } from './field.ts';
import { motorSchema } from './motor-schema.ts';
import { plantSchema } from './plant-schema.ts';

/** Calibration of one servo-pulse channel. `reversed` says what a pulse above the centre means. */
function channel(meaning: string, reversed: string) {
  return group(meaning, {
    lowUs: quantityOr(1000, {
      unit: 'us',
      min: 500,
      max: 2500,
      meaning: 'Shortest pulse the receiver sends: stick at one end.',
      wrong: 'Too low: full command is never reached. Too high: it is reached too early.',
    }),
    centreUs: quantityOr(1500, {
      unit: 'us',
      min: 500,
      max: 2500,
      meaning: 'Pulse with the stick at rest.',
      wrong: 'Off: the car creeps or pulls to one side, or never finds neutral and never arms.',
    }),
    highUs: quantityOr(2000, {
      unit: 'us',
      min: 500,
      max: 2500,
      meaning: 'Longest pulse the receiver sends: stick at the other end.',
      wrong: 'Too high: full command is never reached. Too low: it is reached too early.',
    }),
    reversed: flagOr(false, {
      meaning: reversed,
      wrong: 'The car does the opposite of what the stick says. Try it with the wheels in the air.',
    }),
  });
}

const receiver = group('Servo pulses that arrive from the receiver.', {
  throttle: v.optional(
    channel(
      'The throttle channel.',
      'false: a pulse above the centre drives forward. true: one below it does.',
    ),
    {},
  ),
  steering: v.optional(
    channel(
      'The steering channel.',
      'false: a pulse above the centre steers left. true: one below it does.',
    ),
    {},
  ),
  marginUs: quantityOr(100, {
    unit: 'us',
    min: 0,
    max: 400,
    meaning: 'A pulse this far outside its calibration is invalid and counts as lost.',
    zero: 'A pulse 1 us past its end counts as lost.',
    wrong: 'Too small: drop-outs at full stick. Too large: noise is taken for a command.',
  }),
});

const battery = group('The pack that feeds the motors.', {
  openCircuitV: quantity({
    unit: 'V',
    min: 1,
    max: 32,
    meaning: 'Voltage of the charged pack without load; assumed where none is measured.',
    wrong: 'Without a supply sensor stall currents and ceilings are judged by the wrong voltage.',
  }),
  internalResistanceOhm: quantity({
    unit: 'ohm',
    min: 0,
    max: 10,
    meaning: 'Drop of voltage per ampere drawn: (V1 - V2) / (I2 - I1) at two loads.',
    zero: 'The voltage never sags.',
    wrong: 'Too low: a simulated pack never sags and yours does.',
  }),
  referenceV: quantityOr(0, {
    unit: 'V',
    min: 0,
    max: 32,
    meaning:
      'Full command never means more than this voltage, so that a fresh pack drives like a ' +
      'used one; needs sensors.supply.',
    zero: 'Not compensated: full command means whatever the pack gives.',
    wrong: 'Too low: power is given away. Above the pack’s voltage: it does nothing.',
  }),
  warnV: quantityOr(0, {
    unit: 'V',
    min: 0,
    max: 32,
    meaning: 'Below this the drive is derated, more the lower; needs sensors.supply.',
    zero: 'No derating; then lowV and cutV are 0 as well.',
    wrong: 'Too high: weak from the start. Too low: the cut-off comes without warning.',
  }),
  lowV: quantityOr(0, {
    unit: 'V',
    min: 0,
    max: 32,
    meaning: 'Here derating has reached floorPercent; needs sensors.supply.',
    zero: 'Derating is stretched over all voltages below warnV; then cutV is 0 as well.',
    wrong: 'Too close to warnV: power goes all at once.',
  }),
  cutV: quantityOr(0, {
    unit: 'V',
    min: 0,
    max: 32,
    meaning: 'Below this for cutTimeMs the drive stops and latches; needs sensors.supply.',
    zero: 'Never.',
    wrong:
      'Too low: cells are ruined and may swell. Too high: a sag in a hard start stops the car.',
  }),
  hysteresisV: quantityOr(0.2, {
    unit: 'V',
    min: 0,
    max: 5,
    meaning: 'The supply must rise by this before derating is eased.',
    zero: 'Derating is eased as soon as the voltage recovers.',
    wrong: 'Too small: the car surges as the pack sags and recovers. Too large: stays derated.',
  }),
  cutTimeMs: quantityOr(500, {
    unit: 'ms',
    min: 10,
    max: 10000,
    meaning: 'How long the supply must stay below cutV.',
    wrong:
      'Too short: one hard start stops the car. Too long: cells are drained below their limit.',
  }),
  floorPercent: quantityOr(30, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'What is left of the drive at lowV.',
    zero: 'At lowV the car stands still.',
    wrong: 'Too high: the pack is pulled down to its cut-off. Too low: no way home.',
  }),
});

const sensors = group('What this vehicle measures. A sensor that is fitted must deliver.', {
  supply: flagOr(false, {
    meaning: 'The hub measures the supply voltage.',
    wrong: 'true without a sensor: the blind cap stays on. false with one: no guard for the cells.',
  }),
  current: flagOr(false, {
    meaning: 'The hub measures the current of each motor.',
    wrong:
      'true without a sensor: the blind cap stays on. false with one: no guard for the motors.',
  }),
  gyro: flagOr(false, {
    meaning: 'The hub measures the yaw rate.',
    wrong: 'true without a sensor: every sample counts as lost.',
  }),
  wheelSpeed: flagOr(false, {
    meaning: 'The hub measures the speed of each motor’s wheel.',
    wrong: 'true without a sensor: every sample counts as lost. false: speed is told by current.',
  }),
  currentErrorMa: quantityOr(60, {
    unit: 'mA',
    min: 1,
    max: 10000,
    meaning: 'Greatest error of one sample of current: its step, noise and offset together.',
    wrong: 'Too small: false alarms. Too large: a wheel that spins is found late or never.',
  }),
});

const limits = group('Limits of the vehicle that hold whatever a setup says.', {
  blindCapPercent: quantityOr(40, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'Greatest command while a sensor the vehicle has gives no sample.',
    zero: 'Without its sensors the car does not drive.',
    wrong: 'Too high: motors and cells are unguarded at full power.',
  }),
  riseCeilingPercentPerS: quantityOr(500, {
    unit: '%/s',
    min: 5,
    max: 10000,
    meaning:
      'Steepest rise of any command that the last stage lets pass, by tick count; at most full ' +
      'command in two ticks.',
    wrong: 'Too high: a fault upstream reaches the gears. Too low: every setup feels slow.',
  }),
  dwellMs: quantityOr(50, {
    unit: 'ms',
    min: 0,
    max: 1000,
    meaning: 'Least time at zero between directions, in whole ticks; at most 100 ticks.',
    zero: 'A setup may reverse a motor without a rest.',
    wrong: 'Too short: a reversal shocks shafts and bridges.',
  }),
  speedLagMs: quantityOr(400, {
    unit: 'ms',
    min: 1,
    max: 10000,
    meaning: 'Time constant from command to speed, for the speed estimate without sensors.',
    wrong: 'Too short: steering is limited before the car is fast. Too long: it comes too late.',
  }),
});

/** Schema of `vehicle.ts`. */
export const vehicleSchema = group('The car: geometry, motors, pack, receiver, sensors.', {
  name: text(40, {
    meaning: 'Name of the vehicle, as in reports and in the bundle’s header.',
    wrong: 'Runs of two cars get mixed up.',
  }),
  scale: quantity({
    unit: '1:n',
    min: 1,
    max: 200,
    meaning: 'The n of the scale 1:n; 12 for a 1:12 model.',
    wrong: 'Only figures scaled to the full-size car are wrong.',
  }),
  layout: choice(['single', 'pair', 'twoPairs', 'tracked'], {
    meaning:
      'How the motors are laid out: one motor; left and right on one axle; rear and front pair; ' +
      'left and right track or skid-steered side.',
    wrong: 'Commands reach the wrong motors. Try it with the wheels in the air.',
  }),
  frontDrive: v.optional(
    choice(['none', 'averaged'], {
      meaning:
        'How the front wheels of a "pair" are driven: not at all, or through a differential that ' +
        'averages both rear sides.',
      wrong: 'A simulated car pulls itself round bends that yours does not, or the reverse.',
    }),
    'none',
  ),
  tickMs: wholeOr(10, {
    unit: 'ms',
    min: 1,
    max: 100,
    meaning: 'Nominal time between two ticks of the core on the hub.',
    wrong: 'Shorter than the hub’s: every tick counts as late. Longer: commands rise too slowly.',
  }),
  gapMs: wholeOr(60, {
    unit: 'ms',
    min: 5,
    max: 1000,
    meaning: 'Two ticks further apart than this count as a loss of signal; at least two ticks.',
    wrong: 'Too short: stops without need. Too long: a hub that hangs drives on unnoticed.',
  }),
  massKg: quantity({
    unit: 'kg',
    min: 0.02,
    max: 100,
    meaning: 'Mass ready to drive, with pack and body.',
    wrong: 'Acceleration and grip of a simulated car are out in proportion.',
  }),
  wheelbaseMm: quantity({
    unit: 'mm',
    min: 30,
    max: 3000,
    meaning: 'Front axle to rear axle; for tracks the length of track on the ground.',
    wrong: 'Too long: bends are taken for wider than they are and the cut is too small.',
  }),
  trackMm: quantity({
    unit: 'mm',
    min: 20,
    max: 3000,
    meaning: 'Middle of the left to middle of the right driven wheel, or track.',
    wrong: 'Too wide: the geometric cut is too large.',
  }),
  cgToFrontAxleMm: quantity({
    unit: 'mm',
    min: 1,
    max: 3000,
    meaning:
      'Front axle back to the centre of gravity: wheelbase times rear axle load over weight.',
    wrong: 'Too small: a simulated car steers better than yours. Too large: it ploughs.',
  }),
  cgHeightMm: quantity({
    unit: 'mm',
    min: 1,
    max: 1000,
    meaning: 'Ground to the centre of gravity.',
    wrong: 'Too low: load transfer, and the risk of a roll-over, come out too small.',
  }),
  yawInertiaKgM2: quantity({
    unit: 'kg m²',
    min: 0.000001,
    max: 500,
    meaning:
      'Moment of inertia about the vertical axis; not measured, about massKg times wheelbase in ' +
      'metres squared over 5.',
    wrong: 'Too large: a simulated car turns in lazily and is hard to stop turning.',
  }),
  wheelRadiusMm: quantity({
    unit: 'mm',
    min: 5,
    max: 1000,
    meaning: 'Rolling radius of a driven wheel under load; for tracks that of the sprocket.',
    wrong: 'Speeds over ground are out in proportion.',
  }),
  steeringLockDeg: quantity({
    unit: 'deg',
    min: 5,
    max: 60,
    meaning:
      'Steering angle at full lock, mean of both front wheels; for tracks the angle whose ' +
      'wheelbase / tan is the tightest radius wanted on the move.',
    wrong: 'Too large: the geometric cut is too large and the tail comes round.',
  }),
  receiver: v.optional(receiver, {}),
  motor: motorSchema,
  battery,
  sensors: v.optional(sensors, {}),
  limits: v.optional(limits, {}),
  plant: v.optional(plantSchema, {}),
});
