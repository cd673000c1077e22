import { Layout } from '../../lib/codes.ts';
import { FORMAT, V } from '../../lib/constants.ts';
import { flag, type Row, scaled, table } from './baked-row.ts';
import { frontPathRatio, radians } from './geometry.ts';
import { heatConstants, heatSteps } from './heat-constants.ts';
import { rotorInertia, wheelInertia } from './inertia.ts';
import type { Vehicle } from './records.ts';
import { tyreConstant } from './tyre-constant.ts';

/** Every constant of a vehicle, in the units of lib/constants.ts. */
export function vehicleRows(vehicle: Vehicle): Row[] {
  const { layout, tickMs, gapMs, limits } = vehicle;
  return [
    scaled(V.FORMAT, 'layout', FORMAT, 1),
    scaled(V.LAYOUT, 'layout', LAYOUTS[layout].code, 1),
    scaled(V.MOTORS, 'layout', LAYOUTS[layout].motors, 1),
    scaled(V.TICK_MS, 'tickMs', tickMs, 1),
    scaled(V.GAP_MS, 'gapMs', gapMs, 1),
    ...receiverRows(vehicle),
    ...sensorRows(vehicle),
    ...supplyRows(vehicle),
    ...motorRows(vehicle),
    ...heatRows(vehicle),
    scaled(V.BLIND_CAP, 'limits.blindCapPercent', limits.blindCapPercent, 10),
    {
      index: V.GATE_RISE,
      field: 'limits.riseCeilingPercentPerS',
      value: gateRise(limits.riseCeilingPercentPerS, tickMs),
    },
    {
      index: V.GATE_DWELL,
      field: 'limits.dwellMs',
      value: Math.floor(limits.dwellMs / tickMs),
    },
    scaled(V.SPEED_LAG_MS, 'limits.speedLagMs', limits.speedLagMs, 1),
    ...tractionRows(vehicle),
    ...frontRows(vehicle),
  ];
}

const LAYOUTS = {
  single: { code: Layout.SINGLE, motors: 1 },
  pair: { code: Layout.PAIR, motors: 2 },
  twoPairs: { code: Layout.TWO_PAIRS, motors: 4 },
  tracked: { code: Layout.TRACKED, motors: 2 },
};

/** Permille a tick: a late tick may count for two; one more for rounding; full at most. */
function gateRise(percentPerS: number, tickMs: number): number {
  const inTwoTicks = (Math.round(percentPerS * 10) * 2 * tickMs) / 1000;
  return Math.min(Math.ceil(inTwoTicks) + 1, 1000);
}

function receiverRows({ receiver }: Vehicle): Row[] {
  const channel = (name: 'throttle' | 'steering', low: number): Row[] => [
    scaled(low, `receiver.${name}.lowUs`, receiver[name].lowUs, 1),
    scaled(low + 1, `receiver.${name}.centreUs`, receiver[name].centreUs, 1),
    scaled(low + 2, `receiver.${name}.highUs`, receiver[name].highUs, 1),
    flag(low + 3, `receiver.${name}.reversed`, receiver[name].reversed),
  ];
  return [
    ...channel('throttle', V.THROTTLE_LOW_US),
    ...channel('steering', V.STEER_LOW_US),
    scaled(V.PULSE_MARGIN_US, 'receiver.marginUs', receiver.marginUs, 1),
  ];
}

function sensorRows({ sensors }: Vehicle): Row[] {
  return [
    flag(V.HAS_SUPPLY, 'sensors.supply', sensors.supply),
    flag(V.HAS_CURRENT, 'sensors.current', sensors.current),
    flag(V.HAS_GYRO, 'sensors.gyro', sensors.gyro),
  ];
}

function supplyRows({ battery }: Vehicle): Row[] {
  return [
    scaled(V.SUPPLY_REFERENCE_MV, 'battery.referenceV', battery.referenceV, 1000),
    scaled(V.SUPPLY_WARN_MV, 'battery.warnV', battery.warnV, 1000),
    scaled(V.SUPPLY_LOW_MV, 'battery.lowV', battery.lowV, 1000),
    scaled(V.SUPPLY_CUT_MV, 'battery.cutV', battery.cutV, 1000),
    scaled(V.SUPPLY_HYSTERESIS_MV, 'battery.hysteresisV', battery.hysteresisV, 1000),
    scaled(V.SUPPLY_CUT_MS, 'battery.cutTimeMs', battery.cutTimeMs, 1),
    scaled(V.SUPPLY_FLOOR, 'battery.floorPercent', battery.floorPercent, 10),
    scaled(V.SUPPLY_NOMINAL_MV, 'battery.openCircuitV', battery.openCircuitV, 1000),
  ];
}

function motorRows({ motor }: Vehicle): Row[] {
  return [
    scaled(V.MOTOR_MOHM, 'motor.resistanceOhm', motor.resistanceOhm, 1000),
    scaled(V.CURRENT_LIMIT_MA, 'motor.currentLimitMa', motor.currentLimitMa, 1),
    scaled(V.STALL_SHARE, 'motor.stallSharePercent', motor.stallSharePercent, 10),
    scaled(V.STALL_MIN_MA, 'motor.continuousCurrentMa', leastStallMa(motor), 1),
    scaled(V.STALL_MS, 'motor.stallTimeMs', motor.stallTimeMs, 1),
  ];
}

/** A motor that its ceiling holds back when it stalls draws that, but for noise. */
function leastStallMa({ continuousCurrentMa, currentLimitMa }: Vehicle['motor']): number {
  if (currentLimitMa === 0) return continuousCurrentMa;
  return Math.min(continuousCurrentMa, Math.floor(currentLimitMa * HELD));
}

/** Share of the ceiling that a stalled motor surely draws. */
const HELD = 0.9;

function heatRows({ motor }: Vehicle): Row[] {
  const heat = heatConstants(motor);
  const steps = heatSteps(motor);
  return [
    { index: V.WINDING_MJ_K, field: 'motor.heat', value: heat.winding },
    { index: V.WINDING_MW_K, field: 'motor.heat', value: heat.windingOut },
    { index: V.HOUSING_MJ_K, field: 'motor.heat', value: heat.housing },
    { index: V.HOUSING_MW_K, field: 'motor.heat', value: heat.housingOut },
    { index: V.COPPER_PPM_K, field: 'motor.heat', value: heat.copper },
    { index: V.HEAT_WARN_K, field: 'motor.maxWindingC', value: steps.warn },
    { index: V.HEAT_LIMIT_K, field: 'motor.maxWindingC', value: steps.limit },
    { index: V.HEAT_START_K, field: 'motor.startWindingC', value: steps.start },
  ];
}

/** What a motor's current tells of the drive: lib/traction.ts. */
function tractionRows(vehicle: Vehicle): Row[] {
  const { motor, massKg, wheelbaseMm, trackMm, wheelRadiusMm, sensors, battery } = vehicle;
  // Also N/A but for the gear's losses.
  const emf = tyreConstant(vehicle);
  const lock = Math.tan(radians(vehicle.steeringLockDeg));
  return [
    flag(V.HAS_WHEEL_SPEED, 'sensors.wheelSpeed', sensors.wheelSpeed),
    scaled(V.EMF_UV, 'motor.noLoadSpeedRpm', emf, 1000),
    scaled(V.THRUST_MN_A, 'motor.gearEfficiencyPercent', emf * motor.gearEfficiencyPercent, 10),
    // The gear passes on a part of what the motor's own friction leaves.
    scaled(
      V.NO_LOAD_MA,
      'motor.noLoadCurrentMa',
      Math.min(motor.noLoadCurrentMa / (motor.gearEfficiencyPercent / 100), 10000),
      1,
    ),
    scaled(V.MASS_G, 'massKg', Math.min(massKg, 90), 1000),
    scaled(V.DRAG_MN, 'massKg', Math.min(massKg, 90) * 9.81, ROLLING),
    scaled(V.SIDE_LEAD, 'trackMm', Math.min((lock * trackMm) / 2 / wheelbaseMm, 0.999), 1000),
    scaled(V.CURVATURE, 'wheelbaseMm', Math.min(lock / wheelbaseMm, 0.032), 1_000_000),
    scaled(V.TOP_SPEED_MM_S, 'motor.noLoadSpeedRpm', topSpeed(battery.openCircuitV, emf), 1000),
    scaled(V.CURRENT_ERROR_MA, 'sensors.currentErrorMa', sensors.currentErrorMa, 1),
    scaled(V.MODEL_ERROR, 'motor.modelErrorPercent', motor.modelErrorPercent, 10),
    scaled(V.WHEEL_UM_DEG, 'wheelRadiusMm', (wheelRadiusMm * 2 * Math.PI) / 360, 1000),
    flag(V.FRONT_AVERAGED, 'frontDrive', vehicle.frontDrive === 'averaged'),
    scaled(V.ROTATING_G, 'motor.gearRatio', Math.min(turningMass(vehicle), 1000), 1000),
  ];
}

/** Without load, m/s; where the motor is unknown, as good a guess as any. */
function topSpeed(volts: number, emf: number): number {
  return emf > 0 ? Math.min(Math.max(volts / emf, 0.001), 32) : 5;
}

/** Rotor and wheels of one motor, referred to the ground, kg. */
function turningMass(vehicle: Vehicle): number {
  const rotor = rotorInertia(vehicle) * vehicle.motor.gearRatio ** 2;
  const wheels = wheelsOfMotor(vehicle) * wheelInertia(vehicle);
  return (rotor + wheels) * (1000 / vehicle.wheelRadiusMm) ** 2;
}

function wheelsOfMotor({ layout, frontDrive, plant }: Vehicle): number {
  if (layout === 'single') return plant.drivenAxle === 'all' ? 4 : 2;
  if (layout === 'twoPairs') return 1;
  return layout === 'tracked' || frontDrive === 'averaged' ? 2 : 1;
}

/** Millinewtons of rolling resistance a newton of weight; common practice, no source. */
const ROLLING = 30;

/** Only "twoPairs" has front motors; any other layout never reads these, and a 0 is one byte. */
function frontRows({ layout, wheelbaseMm, trackMm, steeringLockDeg }: Vehicle): Row[] {
  const footprint = { wheelbase: wheelbaseMm, track: trackMm };
  const lock = radians(steeringLockDeg);
  const ratio = (side: 'inside' | 'outside') => (share: number) =>
    layout === 'twoPairs' ? frontPathRatio(footprint, share * lock, side) : 0;
  return [
    ...table(V.FRONT_INSIDE, 'steeringLockDeg', ratio('inside')),
    ...table(V.FRONT_OUTSIDE, 'steeringLockDeg', ratio('outside')),
  ];
}
