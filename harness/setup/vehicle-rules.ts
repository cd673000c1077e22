import { batteryRules } from './battery-rules.ts';
import { frontPathRatio, radians } from './geometry.ts';
import { motorRules } from './motor-rules.ts';
import type { Vehicle } from './records.ts';
import type { Rule } from './rule.ts';

const channelRules = (['throttle', 'steering'] as const).map((name): Rule<Vehicle> => {
  const path = `receiver.${name}`;
  return {
    fields: [`${path}.centreUs`, `${path}.lowUs`, `${path}.highUs`],
    broken: ({ receiver }) => {
      const { lowUs, centreUs, highUs } = receiver[name];
      if (lowUs + 100 <= centreUs && centreUs + 100 <= highUs) return undefined;
      return {
        found: `${lowUs}, ${centreUs}, ${highUs} us for low, centre, high`,
        expected: 'rising pulses at least 100 us apart',
        cure:
          'Read the three pulses off the receiver; for a channel that runs the other way set ' +
          'reversed: true.',
      };
    },
  };
});

/** Rules between the fields of a vehicle. */
export const vehicleRules: readonly Rule<Vehicle>[] = [
  ...channelRules,
  ...batteryRules,
  ...motorRules,
  {
    fields: ['gapMs', 'tickMs'],
    broken: ({ gapMs, tickMs }) =>
      gapMs >= 2 * tickMs
        ? undefined
        : {
            found: `${gapMs} ms`,
            expected: `at least two ticks, ${2 * tickMs} ms`,
            cure: 'Raise gapMs or lower tickMs; else one late tick counts as a loss of signal.',
          },
  },
  {
    fields: ['limits.dwellMs', 'tickMs'],
    broken: ({ limits, tickMs }) =>
      limits.dwellMs <= 100 * tickMs
        ? undefined
        : {
            found: `${limits.dwellMs} ms`,
            expected: `at most 100 ticks, ${100 * tickMs} ms`,
            cure: `Lower it to ${100 * tickMs} or less.`,
          },
  },
  {
    fields: ['limits.riseCeilingPercentPerS', 'tickMs'],
    broken: ({ limits, tickMs }) => {
      // As the core gets them: permille/s, and full command in two ticks at most.
      const most = Math.floor(500_000 / tickMs) / 10;
      if (Math.round(limits.riseCeilingPercentPerS * 10) <= most * 10) return undefined;
      return {
        found: `${limits.riseCeilingPercentPerS} %/s`,
        expected: `at most ${most} %/s, full command in two ticks of ${tickMs} ms`,
        cure: `Lower it to ${most} or less.`,
      };
    },
  },
  {
    fields: ['cgToFrontAxleMm', 'wheelbaseMm'],
    broken: ({ cgToFrontAxleMm, wheelbaseMm }) =>
      cgToFrontAxleMm < wheelbaseMm
        ? undefined
        : {
            found: `${cgToFrontAxleMm} mm`,
            expected: `less than wheelbaseMm, ${wheelbaseMm} mm`,
            cure:
              'The centre of gravity lies between the axles: wheelbase times rear axle load over ' +
              'weight.',
          },
  },
  {
    fields: ['yawInertiaKgM2', 'massKg', 'wheelbaseMm'],
    broken: ({ yawInertiaKgM2, massKg, wheelbaseMm }) => {
      const gyration = 1000 * Math.sqrt(yawInertiaKgM2 / massKg);
      if (gyration >= wheelbaseMm / 10 && gyration <= wheelbaseMm * 2) return undefined;
      const guess = (massKg * wheelbaseMm ** 2) / 5e6;
      return {
        found: `${yawInertiaKgM2} kg m², a radius of gyration of ${round(gyration)} mm`,
        expected:
          `a radius of ${round(wheelbaseMm / 10)} to ${round(wheelbaseMm * 2)} mm ` +
          'for this wheelbase',
        cure: `If it was not measured, write ${round(guess)}.`,
      };
    },
  },
  {
    fields: ['frontDrive', 'layout'],
    broken: ({ frontDrive, layout }) =>
      frontDrive === 'none' || layout === 'pair'
        ? undefined
        : {
            found: `"${frontDrive}" with layout "${layout}"`,
            expected: 'layout "pair" for a front axle driven by both sides of the rear',
            cure: 'Set frontDrive to "none" or layout to "pair".',
          },
  },
  {
    fields: ['plant.drivenAxle', 'layout', 'frontDrive'],
    broken: ({ plant: { drivenAxle }, layout, frontDrive }) => {
      const isPair = layout === 'pair' && frontDrive === 'none';
      const allowed = {
        rear: true,
        front: layout === 'single' || isPair,
        all: layout === 'single',
      };
      if (allowed[drivenAxle]) return undefined;
      return {
        found: `"${drivenAxle}" with layout "${layout}", frontDrive "${frontDrive}"`,
        expected:
          '"front" for a single motor or a pair without frontDrive, "all" for a single motor',
        cure: 'Leave it out: the rear wheels are driven, and the front ones as frontDrive says.',
      };
    },
  },
  {
    fields: ['plant.differential', 'layout'],
    broken: ({ plant: { differential }, layout }) =>
      differential === 'open' || layout === 'single'
        ? undefined
        : {
            found: `"${differential}" with layout "${layout}"`,
            expected:
              'layout "single": with a motor for each wheel there is no differential to lock',
            cure: 'Leave it out.',
          },
  },
  {
    fields: ['steeringLockDeg', 'layout', 'wheelbaseMm', 'trackMm'],
    broken: ({ steeringLockDeg, layout, wheelbaseMm, trackMm }) => {
      if (layout !== 'twoPairs') return undefined;
      const footprint = { wheelbase: wheelbaseMm, track: trackMm };
      const ratio = frontPathRatio(footprint, radians(steeringLockDeg), 'inside');
      const radius = wheelbaseMm / Math.tan(radians(steeringLockDeg));
      if (ratio <= 2 && radius > trackMm / 2) return undefined;
      return {
        found: `${steeringLockDeg} deg, a turn of radius ${round(radius)} mm`,
        expected:
          'a turn in which the inside front wheel rolls at most twice as far as the inside rear ' +
          'one',
        cure: 'Lower it: measure the mean angle of both front wheels at full lock.',
      };
    },
  },
  {
    fields: ['steeringLockDeg', 'layout', 'wheelbaseMm', 'trackMm', 'plant.ackermannPercent'],
    broken: ({ steeringLockDeg, layout, wheelbaseMm, trackMm, plant }) => {
      if (layout === 'tracked') return undefined;
      const front = plant.frontTrackMm > 0 ? plant.frontTrackMm : trackMm;
      const share = (plant.ackermannPercent / 100) * (front / (2 * wheelbaseMm));
      const most = share > 0 ? Math.atan(MOST_INWARD / share) / radians(1) : 90;
      if (steeringLockDeg < most) return undefined;
      return {
        found: `${steeringLockDeg} deg, a turn whose centre lies at the inner front wheel`,
        expected: `less than ${Math.floor(most * 10) / 10} deg for this wheelbase and track`,
        cure: 'Lower it: measure the mean angle of both front wheels at full lock.',
      };
    },
  },
];

/** Half a front track over the radius of the turn: at 1 the inner front wheel stands across. */
const MOST_INWARD = 0.9;

function round(value: number): number {
  return Number(value.toPrecision(3));
}
