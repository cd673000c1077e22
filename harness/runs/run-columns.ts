import { Layout } from '../../lib/codes.ts';

/** One column of a run that the core knows. */
export interface RunColumn {
  /** Header of the column; where there is a unit, it is the name's last part. */
  name: string;
  /** Unit as written in the metadata; empty for codes and counts. */
  unit: string;
  /** Whether the core consumed it or produced it. */
  part: 'input' | 'output';
  /** What the value means. */
  meaning: string;
}

/**
 * The columns of a run, in their order in the file.
 *
 * @param layout decides the motors, in the order of every array of the core
 */
export function runColumns(layout: Layout): RunColumn[] {
  const motors = motorNames(layout);
  const currents = motors.map((motor) =>
    input(
      `current_${motor}_ma`,
      'mA',
      `Current of the ${label(motor)}, positive when it drives forward`,
    ),
  );
  const drives = motors.map((motor) =>
    output(
      `drive_${motor}_permille`,
      'permille',
      `Command of the ${label(motor)}, forward positive`,
    ),
  );
  const wheels = motors.map((motor) =>
    input(
      `wheel_${motor}_deg_s`,
      'deg/s',
      `Speed of the wheel of the ${label(motor)}, forward positive`,
    ),
  );
  return [...BEFORE_CURRENTS, ...currents, YAW_RATE, ...wheels, ...drives, ...AFTER_DRIVES];
}

/** Names of the motors of a layout, in the order of every array of the core. */
export function motorNames(layout: Layout): readonly string[] {
  return MOTORS[layout];
}

/** The column of that name in any layout; undefined for a column the core does not know. */
export function knownColumn(name: string): RunColumn | undefined {
  return KNOWN.get(name);
}

/** Names of all columns the core knows, in any layout. */
export function knownNames(): string[] {
  return [...KNOWN.keys()];
}

/** A run without these columns cannot be replayed. */
export const REQUIRED_COLUMNS = ['time_ms', 'throttle_us', 'steer_us'] as const;

/** Name of a layout in metadata and mapping files, as in a vehicle description. */
export const LAYOUT_NAMES = ['single', 'pair', 'twoPairs', 'tracked'] as const;

const MOTORS: Record<Layout, readonly string[]> = {
  [Layout.SINGLE]: ['motor'],
  [Layout.PAIR]: ['left', 'right'],
  [Layout.TWO_PAIRS]: ['rear_left', 'rear_right', 'front_left', 'front_right'],
  [Layout.TRACKED]: ['left', 'right'],
};

const BEFORE_CURRENTS: RunColumn[] = [
  input('time_ms', 'ms', 'Time since boot, 32-bit, may wrap'),
  input('throttle_us', 'us', 'Throttle servo pulse'),
  input('steer_us', 'us', 'Steering servo pulse'),
  input('input_age_ms', 'ms', 'Age of the newest frame that held these pulses'),
  input('slot', '', 'Wanted setup slot, from 0'),
  input('guest', '', 'Guest cap: 0 = off, any other value = on'),
  input('battery_mv', 'mV', 'Supply voltage'),
];

const YAW_RATE = input('yaw_rate_mrad_s', 'mrad/s', 'Yaw rate, left positive');

const AFTER_DRIVES: RunColumn[] = [
  output('steer_permille', 'permille', 'Steering command in full lock, left positive'),
  output('enable', '', '1 = bridges driven, 0 = drive off'),
  output('state', '', 'State of the supervisor: lib/codes.ts, State'),
  output('cause', '', 'Why the core last stopped by itself: lib/codes.ts, Cause'),
  output('flags', '', 'What limits the drive, bit by bit: lib/codes.ts, Flag'),
  output('throttle_permille', 'permille', 'Throttle after shaping, fraction cut off'),
  output('demand_permille', 'permille', 'Drive demand after the supervisor, fraction cut off'),
  output('cut_permille', 'permille', 'Inside cut after the split, fraction cut off'),
  output('limit_permille', 'permille', 'What protection leaves of the commands, fraction cut off'),
  output('speed_mm_s', 'mm/s', 'Estimated speed over ground, forward positive, fraction cut off'),
  output('found', '', 'Findings present, bit by bit and motor by motor: lib/codes.ts, Found'),
  output('spin_permille', 'permille', 'How sure the surest spin is, fraction cut off'),
  output('free_permille', 'permille', 'How sure the surest lost drive is, fraction cut off'),
  output('jam_permille', 'permille', 'How sure the surest jam is, fraction cut off'),
  output('assist_permille', 'permille', 'Change of the inside cut by yaw assist, fraction cut off'),
];

const LAYOUTS = [Layout.SINGLE, Layout.PAIR, Layout.TWO_PAIRS, Layout.TRACKED];

const KNOWN: ReadonlyMap<string, RunColumn> = new Map(
  LAYOUTS.flatMap((layout) => runColumns(layout)).map((column) => [column.name, column]),
);

function label(motor: string): string {
  return motor === 'motor' ? motor : `${motor.replace('_', ' ')} motor`;
}

function input(name: string, unit: string, meaning: string): RunColumn {
  return { name, unit, part: 'input', meaning };
}

function output(name: string, unit: string, meaning: string): RunColumn {
  return { name, unit, part: 'output', meaning };
}
