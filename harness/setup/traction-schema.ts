import * as v from 'valibot';
import { choice, group, quantityOr } from './field.ts';

const NEEDS = 'Anything but "off" and "report" needs sensors.current.';

/** How soon and how surely something is to be found. */
function sense(within: number, wrong: string) {
  return {
    findWithinMs: quantityOr(within, {
      unit: 'ms',
      min: 10,
      max: 2000,
      meaning:
        'Mean time in which it is found. Together with falseAlarmsPerHour it says how small a ' +
        'deviation is found at all: half the time needs one about 1.4 times as large.',
      wrong,
    }),
    falseAlarmsPerHour: quantityOr(0.05, {
      unit: '1/h',
      min: 0.0001,
      max: 60,
      meaning:
        'Mean number of alarms an hour that pure sensor noise may raise; what the motor’s ' +
        'constants may be wrong by is allowed for besides: motor.modelErrorPercent.',
      wrong: 'Too high: alarms that mean nothing. Too low: found later, or only when it is gross.',
    }),
  };
}

const spin = group(
  'A driven wheel breaks loose: it gains speed faster than its current explains.',
  {
    reaction: v.optional(
      choice(['off', 'report', 'trim', 'cut', 'limp', 'stop'], {
        meaning:
          '"report" only tells; "trim" leaves that motor trimPercent while it lasts; "cut" takes ' +
          'all motors to nothing and brings them back over rampMs; "limp" caps all motors at ' +
          `limpCapPercent, and "stop" stops, until re-armed. ${NEEDS}`,
        wrong: '"cut" or more where the floor lets every start spin: the car jerks or gives up.',
      }),
      'report',
    ),
    ...sense(40, 'Too short: only gross spins are found. Too long: the wheel has dug in by then.'),
  },
);

const free = group(
  'The drive of a side is lost, as when a shaft slips: its current stays at no-load while load ' +
    'is due. It stays until re-armed: check the shafts. Also a lost front drive, where ' +
    'frontDrive is "averaged" and motor.heat "twoBody", or wheel speeds are measured: told from ' +
    'straight starts at half throttle or more, within two or three of them, once two have been ' +
    'learnt from since the setup came into force. findWithinMs and falseAlarmsPerHour do not ' +
    'move that: they reckon with noise from tick to tick, while starts differ by floor and tyres.',
  {
    reaction: v.optional(
      choice(['off', 'report', 'limp', 'stop'], {
        meaning:
          '"report" only tells; "limp" caps all motors at limpCapPercent, and "stop" stops, ' +
          `until re-armed. ${NEEDS}`,
        wrong: '"report" with nobody watching: one side pulls, and the loose shaft eats its gear.',
      }),
      'report',
    ),
    ...sense(
      200,
      'Too short: rolling downhill counts as a lost drive. Too long: the gear suffers.',
    ),
  },
);

const jam = group('A motor is held fast: stall current without speed.', {
  reaction: v.optional(
    choice(['off', 'report', 'cut', 'stop'], {
      meaning:
        '"report" only tells; "cut" takes all motors to nothing and brings them back over ' +
        `rampMs; "stop" stops until re-armed. ${NEEDS}`,
      wrong: '"report" only: the motor heats until motor.stallTimeMs has passed.',
    }),
    'report',
  ),
  ...sense(100, 'Too short: a heavy start counts as a jam. Too long: winding and gear suffer.'),
});

/** Schema of `traction` in a setup. */
export const tractionSchema = group(
  'What is told from the motors’ currents, and what it brings about. Without sensors.current ' +
    'nothing is looked for.',
  {
    spin: v.optional(spin, {}),
    free: v.optional(free, {}),
    jam: v.optional(jam, {}),
    trimPercent: quantityOr(60, {
      unit: '%',
      min: 0,
      max: 100,
      meaning: 'What "trim" leaves of the command of the motor whose wheel has broken loose.',
      zero: 'That motor is switched off while its wheel spins.',
      wrong: 'Too high: the wheel spins on. Too low: the car swerves to that side.',
    }),
    limpCapPercent: quantityOr(40, {
      unit: '%',
      min: 0,
      max: 100,
      meaning: 'No motor is driven harder than this under "limp".',
      zero: 'The car stands until re-armed.',
      wrong: 'Too high: no protection. Too low: no way home.',
    }),
    rampMs: quantityOr(600, {
      unit: 'ms',
      min: 10,
      max: 10000,
      meaning:
        'Time from nothing back to the full command after "cut", and of letting go of "trim".',
      wrong: 'Too short: the wheel breaks loose again at once. Too long: the car feels dead.',
    }),
    holdMs: quantityOr(150, {
      unit: 'ms',
      min: 0,
      max: 10000,
      meaning: 'A finding stays at least this long after the last sign of it.',
      zero: 'It goes as soon as its signs go.',
      wrong: 'Too short: the reaction chatters. Too long: power stays away when the wheel grips.',
    }),
  },
);
