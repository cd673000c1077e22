import type { Vehicle } from './records.ts';
import type { Rule } from './rule.ts';

const NEED_SENSOR = ['referenceV', 'warnV', 'lowV', 'cutV'] as const;

/** Rules between the fields of the battery, and with the supply sensor. */
export const batteryRules: readonly Rule<Vehicle>[] = [
  {
    fields: ['battery.warnV', 'battery.openCircuitV'],
    broken: ({ battery }) =>
      battery.warnV < battery.openCircuitV
        ? undefined
        : {
            found: `${battery.warnV} V`,
            expected: `less than openCircuitV, ${battery.openCircuitV} V`,
            cure: 'Lower warnV, or the drive is derated from the start.',
          },
  },
  below('lowV', 'warnV'),
  below('cutV', 'lowV'),
  ...NEED_SENSOR.map(
    (name): Rule<Vehicle> => ({
      fields: [`battery.${name}`, 'sensors.supply'],
      broken: ({ battery, sensors }) =>
        battery[name] === 0 || sensors.supply
          ? undefined
          : {
              found: `${battery[name]} V, but sensors.supply is false`,
              expected: '0, or a supply sensor that this limit can act on',
              cure:
                'Set sensors.supply to true if the hub measures the supply, else set this to ' +
                '0.',
            },
    }),
  ),
];

/** One threshold lies below the next, or is off. The order holds in mV, as the core gets them. */
function below(lower: 'lowV' | 'cutV', upper: 'warnV' | 'lowV'): Rule<Vehicle> {
  return {
    fields: [`battery.${lower}`, `battery.${upper}`],
    broken: ({ battery }) =>
      battery[lower] === 0 || Math.round(battery[lower] * 1000) < Math.round(battery[upper] * 1000)
        ? undefined
        : {
            found: `${battery[lower]} V`,
            expected: `less than ${upper}, ${battery[upper]} V`,
            cure: `Set warnV > lowV > cutV; with ${upper} 0, ${lower} is 0 as well.`,
          },
  };
}
