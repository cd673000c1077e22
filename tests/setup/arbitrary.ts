import fc from 'fast-check';
import { heatConstants } from '../../harness/setup/heat-constants.ts';
import { RECORDS } from '../../harness/setup/list-fields.ts';
import type { Setup, Vehicle } from '../../harness/setup/records.ts';
import { type SchemaNode, schemaNode } from '../../harness/setup/schema-node.ts';
import { HEAT_STEP_MS } from '../../lib/index.ts';

/** Vehicles over the whole range of every field, bent where a rule binds fields to each other. */
export function arbitraryVehicle(): fc.Arbitrary<Vehicle> {
  return (arbitraryOf(schemaNode(RECORDS.vehicle)) as fc.Arbitrary<Vehicle>).map(bentVehicle);
}

/** Setups over the whole range of every field that serve this vehicle. */
export function arbitrarySetup(vehicle: Vehicle): fc.Arbitrary<Setup> {
  const all = arbitraryOf(schemaNode(RECORDS.setup)) as fc.Arbitrary<Setup>;
  return all.map((setup) => bentSetup(vehicle, setup));
}

function arbitraryOf(node: SchemaNode): fc.Arbitrary<unknown> {
  if (node.node === 'variant') {
    const kinds = [...node.options].map(([word, option]) =>
      arbitraryOf(option).map((fields) => ({ [node.key]: word, ...Object(fields) })),
    );
    return fc.oneof(...kinds);
  }
  if (node.node === 'group') {
    const entries = [...node.entries].map(([name, entry]) => [name, arbitraryOf(entry)] as const);
    return fc.record(Object.fromEntries(entries), { noNullPrototype: true });
  }
  const { kind, min = 0, max = 1, whole, choices } = node.meta;
  if (kind === 'flag') return fc.boolean();
  if (kind === 'text') return fc.constant('a');
  const number = whole ? fc.integer({ min, max }) : fc.double({ min, max, noNaN: true });
  if (kind === 'number') return number;
  const words = fc.constantFrom(...(choices ?? []));
  return node.meta.min === undefined ? words : fc.oneof(words, number);
}

function bentVehicle(raw: Vehicle): Vehicle {
  const vehicle = structuredClone(raw);
  const { limits, receiver, layout, tickMs } = vehicle;
  vehicle.gapMs = Math.max(vehicle.gapMs, 2 * tickMs);
  limits.dwellMs = Math.min(limits.dwellMs, 100 * tickMs);
  limits.riseCeilingPercentPerS = Math.min(
    limits.riseCeilingPercentPerS,
    Math.floor(500_000 / tickMs) / 10,
  );
  for (const channel of [receiver.throttle, receiver.steering]) {
    channel.lowUs = Math.min(channel.lowUs, 2300);
    channel.centreUs = Math.min(Math.max(channel.centreUs, channel.lowUs + 100), 2400);
    channel.highUs = Math.max(channel.highUs, channel.centreUs + 100);
  }
  if (layout !== 'pair') vehicle.frontDrive = 'none';
  if (layout !== 'single')
    Object.assign(vehicle.plant, { drivenAxle: 'rear', differential: 'open' });
  const widest = 5 * vehicle.wheelbaseMm;
  vehicle.trackMm = Math.min(vehicle.trackMm, widest);
  vehicle.plant.frontTrackMm = Math.min(vehicle.plant.frontTrackMm, widest);
  // The centre of the turn lies outside the inner front wheel, with an eleventh of R to spare.
  const front = vehicle.plant.frontTrackMm || vehicle.trackMm;
  const share = (vehicle.plant.ackermannPercent / 100) * (front / (2 * vehicle.wheelbaseMm));
  const sharpest = (Math.atan(0.9 / Math.max(share, 0.01)) * 180) / Math.PI;
  if (layout !== 'tracked') {
    vehicle.steeringLockDeg = Math.min(vehicle.steeringLockDeg, sharpest * 0.9999);
  }
  if (layout === 'twoPairs') {
    // The inside front wheel rolls twice as far as the inside rear one at R = t/2 + L / sqrt(3).
    const least = vehicle.trackMm / 2 + vehicle.wheelbaseMm / Math.sqrt(3);
    const most = (Math.atan(vehicle.wheelbaseMm / least) * 180) / Math.PI;
    vehicle.steeringLockDeg = Math.min(vehicle.steeringLockDeg, most * 0.9999);
  }
  vehicle.cgToFrontAxleMm = Math.min(vehicle.cgToFrontAxleMm, vehicle.wheelbaseMm * 0.99);
  const inertia = vehicle.massKg * (vehicle.wheelbaseMm / 1000) ** 2;
  const clamped = Math.min(Math.max(vehicle.yawInertiaKgM2, inertia * 0.011), inertia * 3.9);
  vehicle.yawInertiaKgM2 = Math.min(Math.max(clamped, 0.000001), 500);
  bendMotor(vehicle);
  bendBattery(vehicle);
  return vehicle;
}

function bendMotor({ motor, sensors, wheelRadiusMm, gapMs }: Vehicle): void {
  const stall = (motor.nominalVoltageV / motor.resistanceOhm) * 1000;
  motor.noLoadCurrentMa = Math.min(motor.noLoadCurrentMa, stall * 0.99);
  const ungeared = (motor.noLoadSpeedRpm * 2 * Math.PI * wheelRadiusMm) / 60_000;
  motor.gearRatio = Math.min(Math.max(motor.gearRatio, ungeared / 59), ungeared / 0.021);
  if (!sensors.current) motor.currentLimitMa = 0;
  else if (motor.currentLimitMa > 0) {
    motor.currentLimitMa = Math.max(motor.currentLimitMa, motor.continuousCurrentMa);
  }
  motor.maxWindingC = Math.min(
    Math.max(motor.maxWindingC, motor.ambientC + 11),
    motor.ambientC + 300,
  );
  const warn = motor.ambientC + 0.7 * (motor.maxWindingC - motor.ambientC);
  motor.startWindingC = Math.min(Math.max(motor.startWindingC, motor.ambientC), warn);
  if (motor.heat.kind === 'twoBody') {
    const { heat } = motor;
    const out = heat.windingToHousingWPerK + heat.housingToAmbientWPerK;
    const seconds = ((gapMs + HEAT_STEP_MS) / 1000) * 2.1;
    heat.windingJPerK = Math.max(heat.windingJPerK, seconds * heat.windingToHousingWPerK + 0.02);
    heat.housingJPerK = Math.max(heat.housingJPerK, seconds * out + 0.02);
  }
  const { winding, windingOut } = heatConstants(motor);
  if (windingOut < 1 || windingOut > 1_000_000 || winding > 10_000_000) {
    motor.heat = { kind: 'none' };
  }
}

function bendBattery({ battery, sensors }: Vehicle): void {
  if (!sensors.supply) battery.referenceV = 0;
  battery.warnV = Math.min(battery.warnV, battery.openCircuitV * 0.99);
  // In whole mV a threshold must still lie below the next.
  if (!sensors.supply || battery.warnV < 0.1) battery.warnV = 0;
  battery.lowV = battery.warnV < 0.1 ? 0 : Math.min(battery.lowV, battery.warnV - 0.01);
  battery.cutV = battery.lowV < 0.1 ? 0 : Math.min(battery.cutV, battery.lowV - 0.01);
}

function bentSetup(vehicle: Vehicle, raw: Setup): Setup {
  const setup = structuredClone(raw);
  const { arming, slew, link, steering, split } = setup;
  arming.rearmMs = Math.max(arming.rearmMs, arming.neutralMs);
  slew.stopPercentPerS = Math.max(slew.stopPercentPerS, slew.fallPercentPerS);
  slew.risePercentPerS = Math.min(slew.risePercentPerS, vehicle.limits.riseCeilingPercentPerS);
  slew.dwellMs = Math.max(slew.dwellMs, vehicle.limits.dwellMs);
  if (link.steeringOnLoss !== 'hold') {
    const right = -steering.rightLimitPercent;
    link.steeringOnLoss = Math.min(Math.max(link.steeringOnLoss, right), steering.leftLimitPercent);
  }
  if (vehicle.layout !== 'tracked') split.pivotPercent = 0;
  if (vehicle.layout !== 'twoPairs') split.frontSharePercent = 100;
  const isSplit = vehicle.layout === 'pair' || vehicle.layout === 'twoPairs';
  if (!isSplit || !vehicle.sensors.gyro) setup.yawAssist.authorityPercent = 0;
  const { spin, free, jam } = setup.traction;
  if (!vehicle.sensors.current) for (const each of [spin, free, jam]) each.reaction = 'off';
  return setup;
}
