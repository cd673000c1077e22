import * as v from 'valibot';
import { group, quantity, quantityOr } from './field.ts';

const twoBody = group(
  'Winding and housing as two bodies: the better model if you know four numbers; needs ' +
    'sensors.current.',
  {
    kind: v.literal('twoBody'),
    windingJPerK: quantity({
      unit: 'J/K',
      min: 0.01,
      max: 10000,
      meaning: 'Heat the winding takes up per kelvin: mass of copper in kg times 385.',
      wrong: 'Too large: a burst that burns the winding is let pass. Too small: power goes early.',
    }),
    windingToHousingWPerK: quantity({
      unit: 'W/K',
      min: 0.001,
      max: 1000,
      meaning: 'Heat that flows from winding to housing per kelvin between them.',
      wrong: 'Too large: the winding is hotter than the core believes.',
    }),
    housingJPerK: quantity({
      unit: 'J/K',
      min: 0.01,
      max: 10000,
      meaning: 'Heat the housing takes up per kelvin: mass of steel in kg times 460.',
      wrong: 'Too large: a long drive overheats the motor unnoticed.',
    }),
    housingToAmbientWPerK: quantity({
      unit: 'W/K',
      min: 0.001,
      max: 1000,
      meaning: 'Heat that flows from housing to the air, and into its mount, per kelvin.',
      wrong: 'Too large, as for a motor shut in a body: it overheats on long drives.',
    }),
  },
);

const i2t = group(
  'One body that settles at its limit under continuousCurrentMa (I2t); needs sensors.current.',
  {
    kind: v.literal('i2t'),
    timeConstantS: quantity({
      unit: 's',
      min: 2,
      max: 3600,
      meaning:
        'Time in which the winding warms to 63 % of where it settles under a steady current.',
      wrong: 'Too long: bursts that burn the winding are let pass. Too short: power goes early.',
    }),
  },
);

const none = group('No heat model: nothing guards the windings.', { kind: v.literal('none') });

/** Schema of `motor` in `vehicle.ts`; all motors of a vehicle are alike. */
export const motorSchema = group('One drive motor with its gear; all motors are alike.', {
  resistanceOhm: quantity({
    unit: 'ohm',
    min: 0.001,
    max: 100,
    meaning:
      'Resistance of winding, leads and bridge, cold: voltage over current with the shaft held.',
    wrong: 'Too high: a stall is seen where there is none. Too low: a stall goes unseen.',
  }),
  nominalVoltageV: quantity({
    unit: 'V',
    min: 1,
    max: 32,
    meaning: 'Voltage at which noLoadSpeedRpm and noLoadCurrentMa were measured.',
    wrong: 'Speed and torque of the motor come out in the wrong proportion.',
  }),
  noLoadSpeedRpm: quantity({
    unit: 'rpm',
    min: 100,
    max: 100000,
    meaning: 'Speed of the motor shaft, without gear and load, at nominalVoltageV.',
    wrong: 'Too high: speeds estimated from current are too high, torque too low.',
  }),
  noLoadCurrentMa: quantity({
    unit: 'mA',
    min: 0,
    max: 10000,
    meaning: 'Current the motor draws at that speed, without gear and load.',
    zero: 'The motor has no friction of its own.',
    wrong: 'Too high: a shaft that has slipped out looks like a driven one.',
  }),
  gearRatio: quantity({
    unit: '1',
    min: 0.1,
    max: 1000,
    meaning: 'Turns of the motor for one turn of the wheel.',
    wrong: 'Speeds of the wheels are out by the same factor.',
  }),
  gearEfficiencyPercent: quantityOr(85, {
    unit: '%',
    min: 10,
    max: 100,
    meaning: 'Share of the motor’s torque that the gear passes on to the wheel.',
    wrong: 'Too high: a simulated car pulls harder than yours.',
  }),
  modelErrorPercent: quantityOr(15, {
    unit: '%',
    min: 0,
    max: 50,
    meaning: 'By how much resistance, speed and torque above may be wrong; findings allow for it.',
    zero: 'Taken as exact.',
    wrong: 'Too small: false alarms. Too large: a wheel that spins is found late or never.',
  }),
  continuousCurrentMa: quantity({
    unit: 'mA',
    min: 1,
    max: 32000,
    meaning:
      'Current the motor bears for ever at ambientC. Below it no motor counts as stalled; ' +
      'an I2t heat model settles at its limit under it.',
    wrong: 'Too high: the motor burns slowly. Too low: power is taken away without need.',
  }),
  currentLimitMa: quantityOr(0, {
    unit: 'mA',
    min: 0,
    max: 32000,
    meaning: 'Ceiling on the current of each motor; needs sensors.current.',
    zero: 'No ceiling.',
    wrong: 'Too high: bridge or cells give out first. Too low: the car cannot climb or pull away.',
  }),
  stallTimeMs: quantityOr(500, {
    unit: 'ms',
    min: 0,
    max: 10000,
    meaning: 'A motor that draws stall current this long is stopped; needs sensors.current.',
    zero: 'A stalled motor is never stopped for it.',
    wrong:
      'Too long: smoke. Too short: a hard start from rest counts as a stall, and so does braking ' +
      'with locked wheels, which takes top speed over friction and 9.8 m/s².',
  }),
  stallSharePercent: quantityOr(80, {
    unit: '%',
    min: 10,
    max: 100,
    meaning:
      'Current counts as stall current from this share of supply voltage over resistance; with ' +
      'heat of kind "twoBody" over that of the winding as warm as it is by then.',
    wrong:
      'Too low: climbing counts as a stall. Too high: resistance that grew hides one; copper ' +
      'grows by 0.39 % per K, so without "twoBody" 80 % no longer tells at 64 K more.',
  }),
  maxWindingC: quantityOr(120, {
    unit: '°C',
    min: 40,
    max: 300,
    meaning: 'Winding temperature at which the drive stops; derating begins at 85 % of the way.',
    wrong: 'Too high: varnish and brushes go. Too low: power goes on a warm day.',
  }),
  ambientC: quantityOr(25, {
    unit: '°C',
    min: -20,
    max: 60,
    meaning: 'Temperature of the air around the motors, inside the body on the warmest day.',
    zero: 'Freezing point.',
    wrong: 'Too low: the windings are hotter than the core believes, by the difference.',
  }),
  startWindingC: quantityOr(40, {
    unit: '°C',
    min: -20,
    max: 300,
    meaning: 'Temperature assumed at power-up; a hub that was off does not know how long.',
    zero: 'Freezing point.',
    wrong: 'Too low: a quick change of cells makes the core forget a hot motor.',
  }),
  heat: v.variant('kind', [twoBody, i2t, none]),
});
