import * as v from 'valibot';
import { group, quantityOr, text, wordOrQuantityOr } from './field.ts';
import { tractionSchema } from './traction-schema.ts';

const throttle = group('From throttle stick to drive demand.', {
  deadBandPercent: quantityOr(5, {
    unit: '%',
    min: 1,
    max: 30,
    meaning: 'Share of the stick’s travel around its centre that counts as neutral.',
    wrong:
      'Too small: a stick that rests off centre creeps, or never arms. Too large: a numb start.',
  }),
  expoPercent: quantityOr(30, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'Share of cubic in the curve: (1 - e) x + e x^3.',
    zero: 'A straight line.',
    wrong: 'Too much: nothing happens, then everything. Too little: no feel for a slow start.',
  }),
  forwardLimitPercent: quantityOr(100, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'Drive demand at full forward stick.',
    zero: 'No drive forward.',
    wrong: 'Too high for the floor: wheelspin and a car too fast for the room.',
  }),
  reverseLimitPercent: quantityOr(50, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'Drive demand at full reverse stick.',
    zero: 'No drive in reverse.',
    wrong: 'Too high: in reverse a front-steered car swings round at once.',
  }),
  smoothingMs: quantityOr(20, {
    unit: 'ms',
    min: 0,
    max: 1000,
    meaning: 'Time constant of the low-pass on the stick.',
    zero: 'No low-pass.',
    wrong:
      'Too long: the drive lags behind the thumb. Too short: receiver jitter reaches the gears.',
  }),
});

const steering = group('From steering stick to steering command.', {
  deadBandPercent: quantityOr(3, {
    unit: '%',
    min: 0,
    max: 30,
    meaning: 'Share of the stick’s travel around its centre that counts as straight on.',
    zero: 'Every movement of the stick steers.',
    wrong: 'Too small: the servo hums and the car wanders. Too large: no small corrections.',
  }),
  expoPercent: quantityOr(30, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'Share of cubic in the curve: (1 - e) x + e x^3.',
    zero: 'A straight line.',
    wrong: 'Too much: the car turns in suddenly near full lock. Too little: twitchy on straights.',
  }),
  leftLimitPercent: quantityOr(100, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'Steering command at full left stick, of full lock.',
    zero: 'No steering to the left.',
    wrong: 'Too high: tyres rub or the servo stalls against its stop. Too low: wide bends.',
  }),
  rightLimitPercent: quantityOr(100, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'Steering command at full right stick, of full lock.',
    zero: 'No steering to the right.',
    wrong: 'Too high: tyres rub or the servo stalls against its stop. Too low: wide bends.',
  }),
  smoothingMs: quantityOr(0, {
    unit: 'ms',
    min: 0,
    max: 1000,
    meaning: 'Time constant of the low-pass on the stick.',
    zero: 'No low-pass.',
    wrong: 'Too long: you steer into a bend that is already over.',
  }),
  ratePercentPerS: quantityOr(600, {
    unit: '%/s',
    min: 10,
    max: 10000,
    meaning: 'Steepest change of the steering command; 100 % is centre to full lock.',
    wrong: 'Too fast: the split runs ahead of the servo. Too slow: no catching of a slide.',
  }),
  atTopSpeedPercent: quantityOr(100, {
    unit: '%',
    min: 10,
    max: 100,
    meaning: 'What is left of the steering at estimated top speed. 100 = no limit by speed.',
    wrong:
      'Too high: one twitch at speed and the car is over. Too low: it will not go round bends.',
  }),
});

const link = group('What happens when the signal is lost.', {
  holdMs: quantityOr(300, {
    unit: 'ms',
    min: 0,
    max: 1000,
    meaning: 'The last valid inputs are held this long; then a controlled stop begins.',
    zero: 'The first missing frame begins the stop.',
    wrong: 'Too long: a lost car drives on that much further. Too short: stops at every small gap.',
  }),
  steeringOnLoss: wordOrQuantityOr('hold', 'hold', {
    unit: '%',
    min: -100,
    max: 100,
    meaning:
      'Steering during the stop, of full lock, left positive; "hold" leaves it where it was.',
    zero: 'Straight ahead.',
    wrong: 'A jump of the steering at speed upsets the car just when nobody has it in hand.',
  }),
});

const arming = group('What it takes before the drive comes on.', {
  neutralMs: quantityOr(500, {
    unit: 'ms',
    min: 100,
    max: 10000,
    meaning: 'A fresh neutral throttle held this long arms the drive.',
    wrong: 'Too short: the car may start while somebody still holds it. Too long: only a wait.',
  }),
  rearmMs: quantityOr(2000, {
    unit: 'ms',
    min: 500,
    max: 30000,
    meaning: 'The same after a latched fault.',
    wrong: 'Too short: a hot motor or an empty pack is driven again at once.',
  }),
});

const split = group('How motor power is shared between inside and outside of a bend.', {
  geometrySharePercent: quantityOr(50, {
    unit: '%',
    min: 0,
    max: 200,
    meaning:
      'Share of the geometric cut g = 1 - (R - t/2)/(R + t/2), R = wheelbase / tan(angle); ' +
      'with 100 the wheels turn as on a free differential.',
    zero: 'No cut from geometry.',
    wrong: 'Too small: the car ploughs straight on. Too large: the tail comes round under power.',
  }),
  cutAtFullLockPercent: quantityOr(0, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'Cut added at full lock on top of the geometric share.',
    zero: 'Only the geometric share acts.',
    wrong: 'Too small: the car ploughs. Too large: it spins; the best value differs by floor.',
  }),
  cutCurve: quantityOr(1, {
    unit: 'exponent',
    min: 0.5,
    max: 4,
    meaning:
      'Exponent of |steering| in the added cut. 1 = in proportion, 2 = mostly near full lock.',
    wrong:
      'Too low: nervous around the centre. Too high: nothing, then a sudden turn near the lock.',
  }),
  cutCeilingPercent: quantityOr(40, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'The inside cut never passes this.',
    zero: 'No cut at all: both sides always get the same.',
    wrong: 'Too high: a mistake in the other fields can stop the inside wheel altogether.',
  }),
  meanSharePercent: quantityOr(0, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'Who keeps the demand in a bend: 0 the outside motor, 100 the mean of both sides.',
    zero: 'The outside motor keeps the demand; the car loses speed in bends.',
    wrong:
      'Too high: the outside wheel is driven harder in bends than on straights and breaks loose.',
  }),
  frontSharePercent: quantityOr(100, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'Front command over rear command on a straight; only for layout "twoPairs".',
    zero: 'Rear drive only.',
    wrong: 'Too high: the front pushes wide. Too low: the rear does all the work and slides.',
  }),
  pivotPercent: quantityOr(0, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'Command of each track at full steering and no throttle; only for layout "tracked".',
    zero: 'No turning on the spot.',
    wrong:
      'Too high: the vehicle whips round and throws a track. Too low: it cannot turn on the spot.',
  }),
  pivotFadePercent: quantityOr(30, {
    unit: '%',
    min: 0.1,
    max: 100,
    meaning: 'Throttle at which the turn on the spot has faded out; only for layout "tracked".',
    wrong:
      'Too low: a jolt when pulling away in a turn. Too high: one track turns back while driving.',
  }),
});

const yawAssist = group(
  'What takes inside cut away when the gyro says that the car turns in too hard; pairs of motors.',
  {
    authorityPercent: quantityOr(0, {
      unit: '%',
      min: 0,
      max: 60,
      meaning:
        'By how much it may lower the inside cut at most. Beyond a cut of 0 it slows the outside ' +
        'motor instead. Needs sensors.gyro and layout "pair" or "twoPairs".',
      zero: 'No yaw assist.',
      wrong: 'Too small: it sees the tail come round and cannot stop it. Too large: wide bends.',
    }),
    gainPercentPerDegPerS: quantityOr(1, {
      unit: '%/(deg/s)',
      min: 0,
      max: 15,
      meaning: 'Cut taken away for each °/s the car yaws faster than it should.',
      zero: 'Only the integral acts.',
      wrong: 'Too small: it comes too late. Too large: the car twitches in bends.',
    }),
    integralPercentPerDeg: quantityOr(0.5, {
      unit: '%/deg',
      min: 0,
      max: 15,
      meaning: 'Cut taken away for each degree the car has turned too far, as long as it does.',
      zero: 'No integral.',
      wrong: 'Too small: a slow slide goes on. Too large: the car swings from side to side.',
    }),
    understeerDegPerG: quantityOr(0, {
      unit: 'deg/g',
      min: 0,
      max: 30,
      meaning:
        'Understeer gradient of the car it should be like: steering angle beyond Ackermann’s for ' +
        'each g sideways, as "simulate --manoeuvre constant-radius" prints it.',
      zero: 'A car that follows its front wheels at any speed, up to gripG.',
      wrong: 'Too small: only gripG holds the car. Too large: it goes wide where it need not.',
    }),
    gripG: quantityOr(0.5, {
      unit: 'g',
      min: 0.05,
      max: 3,
      meaning:
        'What the floor bears sideways where it is slippery: at most the surface’s frictionLow. ' +
        'The car shall not yaw faster than this over its speed.',
      wrong:
        'Too high: on a slippery patch the tail is round before it acts. Too low: the car goes ' +
        'wide on every floor.',
    }),
  },
);

const slew = group('How fast motor commands may change.', {
  risePercentPerS: quantityOr(300, {
    unit: '%/s',
    min: 5,
    max: 10000,
    meaning: 'Steepest rise of a motor’s magnitude; at most the vehicle’s riseCeilingPercentPerS.',
    wrong: 'Too fast: wheelspin and stripped gears. Too slow: the car feels tied to a rubber band.',
  }),
  fallPercentPerS: quantityOr(600, {
    unit: '%/s',
    min: 5,
    max: 10000,
    meaning: 'Steepest fall of a motor’s magnitude while the throttle is eased.',
    wrong: 'Too fast: lifting off in a bend upsets the car. Too slow: it runs on.',
  }),
  stopPercentPerS: quantityOr(1000, {
    unit: '%/s',
    min: 50,
    max: 10000,
    meaning: 'Fall of a motor’s magnitude in a controlled stop; at least fallPercentPerS.',
    wrong:
      'Too slow: a lost car goes on rolling under power. Too fast: the wheels lock and it slides.',
  }),
  dwellMs: quantityOr(100, {
    unit: 'ms',
    min: 0,
    max: 1000,
    meaning: 'Time at zero between forward and reverse; at least the vehicle’s limits.dwellMs.',
    zero: 'Straight from one direction into the other.',
    wrong: 'Too short: shafts and bridges take the full shock of a reversal.',
  }),
});

const guest = group('The reduced-power switch for guests and children.', {
  capPercent: quantityOr(40, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'No motor is driven harder than this while the guest switch is on.',
    zero: 'Guests cannot drive.',
    wrong: 'Too high: a child drives a car that is too fast for the room.',
  }),
});

/** Schema of a file in `setups/`. */
export const setupSchema = group('All tuning constants of one vehicle for one surface.', {
  name: text(40, {
    meaning: 'Name of this setup, as in reports and in --setup.',
    wrong: 'Two setups of the same name cannot be told apart; they are refused.',
  }),
  surface: text(40, {
    meaning: 'Name of the surface it is meant for; one of surfaces.ts.',
    wrong: 'The best split differs by floor; a setup for carpet may spin on vinyl.',
  }),
  throttle: v.optional(throttle, {}),
  steering: v.optional(steering, {}),
  link: v.optional(link, {}),
  arming: v.optional(arming, {}),
  split: v.optional(split, {}),
  yawAssist: v.optional(yawAssist, {}),
  slew: v.optional(slew, {}),
  traction: v.optional(tractionSchema, {}),
  guest: v.optional(guest, {}),
  fadeMs: quantityOr(500, {
    unit: 'ms',
    min: 0,
    max: 10000,
    meaning: 'Time to cross-fade to this setup when it is chosen while driving.',
    zero: 'The setup changes within one tick; slew still bounds every motor.',
    wrong: 'Too short: the car changes its habits in mid-bend. Too long: you judge the old setup.',
  }),
});
