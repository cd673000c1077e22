import type { Problem } from '../problems.ts';
import { motorSchema } from './motor-schema.ts';
import { noLoadSpeed } from './no-load-speed.ts';
import type { LoadedVehicle } from './records.ts';
import { MOST_TYRE_CONSTANT, tyreConstant } from './tyre-constant.ts';

/** Current of a stalled motor beyond which no small model has leads, A. */
const STALL_A = 150;
/** Share of the weight that an axle bears at most, and at least. */
const MOST_SHARE = 0.85;
/** Top speeds of models, m/s. */
const SLOW = 0.15;
const FAST = 30;

/** Values of a vehicle that are in their ranges, but together make no likely car, or no sense. */
export function vehicleNotes(vehicle: LoadedVehicle): Problem[] {
  const { file, motor, battery, sensors } = vehicle;
  const { wheelbaseMm, cgToFrontAxleMm, cgHeightMm, trackMm } = vehicle;
  const stall = battery.openCircuitV / (motor.resistanceOhm + battery.internalResistanceOhm);
  const sag = (battery.internalResistanceOhm * motor.continuousCurrentMa) / 1000;
  const rear = cgToFrontAxleMm / wheelbaseMm;
  const top = (noLoadSpeed(vehicle) / motor.nominalVoltageV) * battery.openCircuitV;
  const notes = idleGuards(vehicle);
  const note = (field: string, message: string, cure: string) =>
    notes.push({ file, field, message, cure });
  if (stall > STALL_A) {
    const found = `a stalled motor would draw ${stall.toFixed(0)} A.`;
    note('motor.resistanceOhm', found, 'Is it in ohm, winding, leads and bridge together?');
  }
  if (sag > battery.openCircuitV / 3) {
    const found = `the pack would lose ${sag.toFixed(1)} V at one motor’s continuous current.`;
    note('battery.internalResistanceOhm', found, 'Is it in ohm, of the whole pack?');
  }
  if (rear > MOST_SHARE || rear < 1 - MOST_SHARE) {
    const [share, axle] = rear > 0.5 ? [rear, 'rear'] : [1 - rear, 'front'];
    const found = `puts ${(100 * share).toFixed(0)} % of the weight on the ${axle} axle.`;
    note('cgToFrontAxleMm', found, 'It is wheelbaseMm times rear axle load over weight, in mm.');
  }
  if (cgHeightMm > trackMm / 2) {
    const found = `${cgHeightMm} mm is more than half of the track: it tips before it slides.`;
    note('cgHeightMm', found, 'Is it in mm, of the centre of gravity, not of the roof?');
  }
  if (top < SLOW || top > FAST) {
    const found = `gives a top speed of ${Number(top.toPrecision(2))} m/s.`;
    note('motor.noLoadSpeedRpm', found, 'Check it, gearRatio and wheelRadiusMm.');
  } else if (sensors.current && tyreConstant(vehicle) === 0) {
    const least = (motor.nominalVoltageV / MOST_TYRE_CONSTANT).toPrecision(2);
    const found =
      'makes a motor whose speed the core takes for unknown: no spin, lost drive or jam is found.';
    const cure = `Check it, gearRatio and wheelRadiusMm: from ${least} m/s on a motor is known.`;
    note('motor.noLoadSpeedRpm', found, cure);
  }
  return notes;
}

/**
 * Guards that are asked for and see nothing. A stall time of 0 says that this is known, while the
 * heat model may stay for the simulation; the default alone was not asked for.
 */
function idleGuards({ file, motor, sensors }: LoadedVehicle): Problem[] {
  const { heat, stallTimeMs } = motor;
  const isHeated = heat.kind !== 'none';
  if (sensors.current || stallTimeMs === 0) return [];
  if (!isHeated && stallTimeMs === motorSchema.entries.stallTimeMs.default) return [];
  const what = isHeated ? 'nothing keeps a winding from burning or' : 'nothing';
  return [
    {
      file,
      field: isHeated ? 'motor.heat' : 'motor.stallTimeMs',
      message: `works by sensors.current, which is false: ${what} stops a stalled motor.`,
      cure:
        'If the hub measures the currents, set sensors.current to true; else fuse each motor, ' +
        'and set motor.stallTimeMs to 0 to say that you know.',
    },
  ];
}
