import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Constants, Flag, Layout, Reaction, S, TABLE_POINTS, V } from '../../lib/index.ts';
import { withCrc } from './arbitrary-constants.ts';
import { arbitraryDrive } from './arbitrary-drive.ts';
import { checkDrives, REPLAYS } from './check-drives.ts';
import { LONG, limitSuite } from './limit-suite.ts';
import { looseStart, spinConstants } from './loose-wheels.ts';
import { playLowered } from './lowered.ts';
import { spoilt } from './mutants.ts';
import { changed, plainConstants } from './plain-constants.ts';
import { ARM, scripted } from './scripted.ts';

limitSuite(12, {
  exercised: 28,
  mutants: [
    {
      core: spoilt('a core whose protection raises a motor', ({ drive, limit }) => {
        if (limit < 1000 && drive[0] !== 0) drive[0] = 1000;
      }),
      constants: plainConstants({}),
      legs: [ARM, { ticks: 60, batteryMv: 6500 }, { ticks: 40, throttle: 1000, batteryMv: 6500 }],
      atMs: 910,
    },
    {
      core: spoilt('a core that commands more than the split asks for', ({ drive, demand }) => {
        if (demand > 0) drive[1] = Math.min(1000, drive[1]! + 30);
      }),
      constants: plainConstants({}),
      // (370 - 100) / 900 = 300 permille, reached by 20 a tick in the fifteenth tick.
      legs: [ARM, { ticks: 40, throttle: 370 }],
      // 290 + 30 in the fourteenth: 280 + 30 > 301.
      atMs: 440,
    },
    {
      core: spoilt('a core whose traction raises a motor', ({ drive, flags }) => {
        if ((flags & Flag.TRACTION_LIMIT) !== 0) drive[0]! += 30;
      }),
      constants: spinConstants(Reaction.TRIM),
      legs: looseStart(40),
      // Half of 600 permille is reached by 20 a tick: 280 + 30 in the fourteenth.
      atMs: 440,
    },
    {
      core: spoilt('a core whose traction raises the inside motor past the outside one', (own) => {
        if ((own.flags & Flag.TRACTION_LIMIT) !== 0) own.drive[0] = own.drive[1]! + 1;
      }),
      constants: spinConstants(Reaction.TRIM),
      legs: looseStart(40, 500),
      // With 400 permille of cut half of 600 leaves the inside one 180: 180 + 1 in the ninth tick.
      atMs: 390,
    },
    {
      core: spoilt('a core that drives on where it was to cut', ({ drive, found }, before) => {
        if (found !== 0) drive[1] = before.drive[1]! + 20;
      }),
      constants: spinConstants(Reaction.RAMP),
      legs: looseStart(40),
      // The first tick in which spin is found.
      atMs: 360,
      within: 30,
    },
  ],
});

it('S12 lets an inside front motor follow its side of the rear to what no command passes', () => {
  const vehicle: Record<number, number> = { [V.LAYOUT]: Layout.TWO_PAIRS, [V.MOTORS]: 4 };
  for (let i = 0; i < TABLE_POINTS; i++) {
    vehicle[V.FRONT_INSIDE + i] = 14000;
    vehicle[V.FRONT_OUTSIDE + i] = i === 0 ? 14000 : 13000;
  }
  const constants = plainConstants({ vehicle });
  const { verdicts, ticks } = scripted(constants, [ARM, { ticks: 60, throttle: 748, steer: 500 }]);
  // 720 permille less 400 of 1000, times 1.4: more than the greatest command, 1000, would be left.
  expect(ticks.at(-1)!.drive).toEqual([432, 720, 604, 936]);
  expect(verdicts.S12!.held).not.toBe(false);
});

it(
  'S12 a core that reacts to what it finds drives no motor harder than one that only reports',
  () => {
    let drives = 0;
    let lowering = 0;
    const property = fc.property(arbitraryDrive, fc.nat(), (drive, choice) => {
      const [reports, reacts] = reactionPair(drive.constants, choice);
      const segments = drive.segments.map((segment) => ({ ...segment, ...QUIET }));
      const { below, raised } = playLowered({ ...drive, constants: reports, segments }, reacts);
      drives++;
      if (below > 0) lowering++;
      expect(raised).toBe('');
    });
    checkDrives(property, {
      title: 'S12 a reaction raised a motor',
      where: 'tests/limits/s12.test.ts -t reacts',
      seed: 712,
      runs: 300,
    });
    if (REPLAYS) return;
    const share = (100 * lowering) / drives;
    expect(share, 'share of drives in which a reaction lowered, percent').toBeGreaterThan(20);
  },
  LONG,
);

it('S12 a core whose reaction raises a motor is told from one that only reports', () => {
  const raises = spoilt('a core whose reaction raises', ({ drive, flags }) => {
    if ((flags & Flag.TRACTION_LIMIT) !== 0) drive[1] = Math.min(1000, drive[1]! * 3);
  });
  const raised = fc.sample(arbitraryDrive, { seed: 712, numRuns: 100 }).filter((drive, i) => {
    const [reports, reacts] = reactionPair(drive.constants, i);
    const segments = drive.segments.map((segment) => ({ ...segment, ...QUIET }));
    return playLowered({ ...drive, constants: reports, segments }, reacts, raises).raised !== '';
  });
  expect(raised.length).toBeGreaterThan(5);
});

/** Both drive with the same setup, and samples are numbers for the plan of the currents. */
const QUIET = { slot: 0, offer: undefined, junk: 0 };

/** What the motors and the mass are; drawn one by one they would fit no vehicle. */
const MOTOR = [
  ...[V.MOTOR_MOHM, V.EMF_UV, V.THRUST_MN_A, V.NO_LOAD_MA, V.MASS_G, V.ROTATING_G, V.DRAG_MN],
  ...[V.TOP_SPEED_MM_S, V.CURRENT_ERROR_MA, V.MODEL_ERROR, V.COPPER_PPM_K, V.CURRENT_LIMIT_MA],
  ...[V.SUPPLY_REFERENCE_MV, V.SUPPLY_NOMINAL_MV, V.STALL_MIN_MA],
];
const plain = plainConstants({}).vehicle;

/** Thresholds that any sign of a loss passes within a few ticks. */
const SOON = {
  ...{ [S.SPIN_K]: 20, [S.FREE_K]: 20, [S.JAM_K]: 20 },
  ...{ [S.SPIN_H]: 50, [S.FREE_H]: 50, [S.JAM_H]: 50 },
};

/**
 * The same constants with findings that are only reported, and with other reactions. Left out is
 * what rests on the commands themselves, for that is another matter with lower ones: yaw assist
 * and steering at speed, which change what is asked, and the heat and the stall of a motor, which
 * stop what is driven harder. With two pairs trim lets go of the ratio between them, so that
 * neither slew rate nor current ceiling, shared by all, is the same: there all are cut instead.
 */
function reactionPair(constants: Constants, choice: number): [Constants, Constants] {
  const reactions = [Reaction.TRIM, Reaction.RAMP, Reaction.LIMP, Reaction.STOP];
  const hasSensors = { [V.HAS_CURRENT]: 1, [V.HAS_WHEEL_SPEED]: 0 };
  const vehicle = changed(constants.vehicle, {
    ...hasSensors,
    [V.STALL_MS]: 0,
    [V.WINDING_MJ_K]: 0,
    ...Object.fromEntries(MOTOR.map((at) => [at, plain[at]!])),
  });
  const pairs = vehicle[V.LAYOUT] === Layout.TWO_PAIRS;
  const [spin, free, jam] = [0, 1, 2].map((at) => reactions[(choice >> (2 * at)) & 3]!);
  const driving = (kinds: readonly number[]): Constants =>
    withCrc({
      vehicle,
      setups: constants.setups.map((setup) =>
        changed(setup, {
          [S.YAW_AUTHORITY]: 0,
          [S.STEER_AT_SPEED]: 1000,
          [S.PIVOT]: 0,
          ...SOON,
          [S.SPIN_REACTION]: kinds[0]!,
          [S.FREE_REACTION]: kinds[1]!,
          [S.JAM_REACTION]: kinds[2]!,
        }),
      ),
      crc: 0,
    });
  const calm = pairs && spin === Reaction.TRIM ? Reaction.RAMP : spin!;
  return [
    driving([Reaction.REPORT, Reaction.REPORT, Reaction.REPORT]),
    driving([calm, free!, jam!]),
  ];
}
