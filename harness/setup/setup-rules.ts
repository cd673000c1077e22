import type { Setup, Vehicle } from './records.ts';
import type { Rule } from './rule.ts';

/** Rules between the fields of a setup. */
export const setupRules: readonly Rule<Setup>[] = [
  {
    fields: ['arming.rearmMs', 'arming.neutralMs'],
    broken: ({ arming }) =>
      arming.rearmMs >= arming.neutralMs
        ? undefined
        : {
            found: `${arming.rearmMs} ms`,
            expected: `at least neutralMs, ${arming.neutralMs} ms`,
            cure: 'After a fault arming must not be quicker than before one.',
          },
  },
  {
    fields: ['slew.stopPercentPerS', 'slew.fallPercentPerS'],
    broken: ({ slew }) =>
      slew.stopPercentPerS >= slew.fallPercentPerS
        ? undefined
        : {
            found: `${slew.stopPercentPerS} %/s`,
            expected: `at least fallPercentPerS, ${slew.fallPercentPerS} %/s`,
            cure: 'A controlled stop must not be slower than an eased throttle.',
          },
  },
  {
    fields: ['link.steeringOnLoss', 'steering.leftLimitPercent', 'steering.rightLimitPercent'],
    broken: ({ link, steering }) => {
      const { steeringOnLoss } = link;
      const { leftLimitPercent, rightLimitPercent } = steering;
      if (steeringOnLoss === 'hold') return undefined;
      if (steeringOnLoss <= leftLimitPercent && steeringOnLoss >= -rightLimitPercent) {
        return undefined;
      }
      return {
        found: `${steeringOnLoss} %`,
        expected: `${-rightLimitPercent} to ${leftLimitPercent} %, the end limits of the steering`,
        cure: 'Lower it in magnitude, or write "hold" or 0.',
      };
    },
  },
];

/** A vehicle together with a setup for it. */
export interface Pair {
  vehicle: Vehicle;
  setup: Setup;
}

/** Rules between a setup and the vehicle it is for; the fields are the setup's. */
export const pairRules: readonly Rule<Pair>[] = [
  {
    fields: ['split.pivotPercent'],
    broken: ({ vehicle, setup }) =>
      setup.split.pivotPercent === 0 || vehicle.layout === 'tracked'
        ? undefined
        : {
            found: `${setup.split.pivotPercent} %, but the vehicle's layout is "${vehicle.layout}"`,
            expected: '0 unless the layout is "tracked"',
            cure: 'Remove it: a wheeled car does not turn on the spot.',
          },
  },
  {
    fields: ['split.frontSharePercent'],
    broken: ({ vehicle, setup }) =>
      setup.split.frontSharePercent === 100 || vehicle.layout === 'twoPairs'
        ? undefined
        : {
            found:
              `${setup.split.frontSharePercent} %, ` +
              `but the vehicle's layout is "${vehicle.layout}"`,
            expected: '100 unless the layout is "twoPairs"',
            cure: 'Remove it: there are no front motors to share with.',
          },
  },
  {
    fields: ['yawAssist.authorityPercent'],
    broken: ({ vehicle, setup }) => {
      const { authorityPercent } = setup.yawAssist;
      const isSplit = vehicle.layout === 'pair' || vehicle.layout === 'twoPairs';
      if (authorityPercent === 0 || (isSplit && vehicle.sensors.gyro)) return undefined;
      const lack = isSplit ? 'has no sensors.gyro' : `has the layout "${vehicle.layout}"`;
      return {
        found: `${authorityPercent} %, but the vehicle ${lack}`,
        expected: '0 unless the vehicle has sensors.gyro and the layout "pair" or "twoPairs"',
        cure: isSplit
          ? 'Write 0, or fit a gyro and say so in vehicle.ts.'
          : 'Write 0: it works by sharing power between the wheels of an axle.',
      };
    },
  },
  {
    fields: ['slew.risePercentPerS'],
    broken: ({ vehicle, setup }) => {
      const ceiling = vehicle.limits.riseCeilingPercentPerS;
      if (setup.slew.risePercentPerS <= ceiling) return undefined;
      return {
        found: `${setup.slew.risePercentPerS} %/s`,
        expected: `at most the vehicle's limits.riseCeilingPercentPerS, ${ceiling} %/s`,
        cure: `Lower it to ${ceiling} or less.`,
      };
    },
  },
  {
    fields: ['slew.dwellMs'],
    broken: ({ vehicle, setup }) => {
      const least = vehicle.limits.dwellMs;
      if (setup.slew.dwellMs >= least) return undefined;
      return {
        found: `${setup.slew.dwellMs} ms`,
        expected: `at least the vehicle's limits.dwellMs, ${least} ms`,
        cure: `Raise it to ${least} or more.`,
      };
    },
  },
  ...(['spin', 'free', 'jam'] as const).map(
    (name): Rule<Pair> => ({
      fields: [`traction.${name}.reaction`],
      broken: ({ vehicle, setup }) => {
        const { reaction } = setup.traction[name];
        if (vehicle.sensors.current || reaction === 'off' || reaction === 'report')
          return undefined;
        return {
          found: `"${reaction}", but the vehicle has no current sensors`,
          expected: '"off" or "report" unless sensors.current is true',
          cure: 'Remove it, or say in vehicle.ts that the hub measures currents.',
        };
      },
    }),
  ),
];
