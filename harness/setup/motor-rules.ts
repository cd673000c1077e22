import { HEAT_STEP_MS } from '../../lib/index.ts';
import { heatConstants, heatSteps } from './heat-constants.ts';
import { noLoadSpeed } from './no-load-speed.ts';
import type { Vehicle } from './records.ts';
import type { Rule } from './rule.ts';

const temperatures = ['motor.maxWindingC', 'motor.ambientC'] as const;
const heatFields = [
  'motor.heat',
  'motor.heat.windingJPerK',
  'motor.heat.windingToHousingWPerK',
  'motor.heat.housingJPerK',
  'motor.heat.housingToAmbientWPerK',
  'motor.heat.timeConstantS',
] as const;

/** Rules between the fields of the motor, and with the current sensor. */
export const motorRules: readonly Rule<Vehicle>[] = [
  {
    fields: ['motor.noLoadCurrentMa', 'motor.resistanceOhm', 'motor.nominalVoltageV'],
    broken: ({ motor }) => {
      const stall = stallCurrentMa(motor);
      if (motor.noLoadCurrentMa < stall) return undefined;
      return {
        found: `${motor.noLoadCurrentMa} mA`,
        expected: `less than nominalVoltageV / resistanceOhm, ${Math.round(stall)} mA`,
        cure: 'Measure the resistance with the shaft held, and the current with nothing coupled.',
      };
    },
  },
  {
    fields: ['motor.gearRatio', 'motor.noLoadSpeedRpm', 'wheelRadiusMm'],
    broken: (vehicle) => {
      const speed = noLoadSpeed(vehicle);
      if (speed >= 0.02 && speed <= 60) return undefined;
      return {
        found: `a no-load speed of ${Number(speed.toPrecision(3))} m/s`,
        expected: '0.02 to 60 m/s from noLoadSpeedRpm, gearRatio and wheelRadiusMm',
        cure: 'gearRatio is turns of the motor for one turn of the wheel.',
      };
    },
  },
  {
    fields: ['motor.currentLimitMa', 'sensors.current'],
    broken: ({ motor, sensors }) =>
      motor.currentLimitMa === 0 || sensors.current
        ? undefined
        : {
            found: `${motor.currentLimitMa} mA, but sensors.current is false`,
            expected: '0, or current sensors that this limit can act on',
            cure:
              'Set sensors.current to true if the hub measures the currents, else set this ' +
              'to 0.',
          },
  },
  {
    fields: ['motor.currentLimitMa', 'motor.continuousCurrentMa'],
    broken: ({ motor }) =>
      motor.currentLimitMa === 0 || motor.currentLimitMa >= motor.continuousCurrentMa
        ? undefined
        : {
            found: `${motor.currentLimitMa} mA`,
            expected: `0, or at least continuousCurrentMa, ${motor.continuousCurrentMa} mA`,
            cure:
              'Raise it, or no stall is ever seen: below continuousCurrentMa none is looked ' +
              'for.',
          },
  },
  {
    fields: temperatures,
    broken: ({ motor }) =>
      allowedRise(motor) >= 10 && allowedRise(motor) <= 300
        ? undefined
        : {
            found: `${motor.maxWindingC} °C`,
            expected: `10 to 300 K above ambientC, ${motor.ambientC} °C`,
            cure: `Set it from ${motor.ambientC + 10} to ${Math.min(motor.ambientC + 300, 300)}.`,
          },
  },
  {
    fields: ['motor.startWindingC', ...temperatures],
    broken: ({ motor }) => {
      const { start, warn, limit } = heatSteps(motor);
      if (limit < 10 || (start >= 0 && start < warn)) return undefined;
      const expected = `from ambientC, ${motor.ambientC} °C, to below where derating begins`;
      return {
        found: `${motor.startWindingC} °C`,
        expected: `${expected}, ${motor.ambientC + warn} °C`,
        cure: 'Set it between them; 15 K above ambientC suits a car that is used now and then.',
      };
    },
  },
  {
    fields: [...heatFields, 'motor.continuousCurrentMa', 'motor.resistanceOhm', ...temperatures],
    broken: ({ motor }) => {
      if (motor.heat.kind !== 'i2t' || allowedRise(motor) < 10) return undefined;
      const { winding, windingOut } = heatConstants(motor);
      const good = windingOut >= 1 && windingOut <= 1_000_000 && winding <= 10_000_000;
      if (good) return undefined;
      return {
        found: `a conductance of ${windingOut} mW/K and a capacity of ${winding} mJ/K`,
        expected: '1 to 1000000 mW/K and at most 10000000 mJ/K',
        cure:
          'They follow from continuousCurrentMa² resistanceOhm / (maxWindingC - ambientC) and ' +
          'timeConstantS; mend the one that is out, or use kind "twoBody".',
      };
    },
  },
  {
    fields: [...heatFields, 'gapMs'],
    broken: ({ motor, gapMs }) => {
      if (motor.heat.kind !== 'twoBody') return undefined;
      const { winding, windingOut, housing, housingOut } = heatConstants(motor);
      const exchangeMs = 1000 / (windingOut / winding + (windingOut + housingOut) / housing);
      const longest = gapMs + HEAT_STEP_MS;
      if (exchangeMs > longest) return undefined;
      return {
        found: `bodies that exchange their heat in ${Math.round(exchangeMs)} ms`,
        expected: `more than gapMs + ${HEAT_STEP_MS}, ${longest} ms`,
        cure: 'Raise windingJPerK and housingJPerK, or lower the conductances.',
      };
    },
  },
];

function allowedRise(motor: Vehicle['motor']): number {
  return motor.maxWindingC - motor.ambientC;
}

function stallCurrentMa(motor: Vehicle['motor']): number {
  return (motor.nominalVoltageV / motor.resistanceOhm) * 1000;
}
