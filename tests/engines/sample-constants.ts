import { SETUP_SWITCHES } from '../../harness/figures/setup-switches.ts';
import type { Constants } from '../../lib/index.ts';
import { constantsCrc, Layout, S, TABLE_POINTS, V } from '../../lib/index.ts';

/** The layouts there are, by name. */
export const layouts = {
  single: Layout.SINGLE,
  pair: Layout.PAIR,
  twoPairs: Layout.TWO_PAIRS,
  tracked: Layout.TRACKED,
} as const;

/** The sensors a vehicle may have. */
export type Sensor = 'supply' | 'current' | 'gyro' | 'wheels';

/** Constants by hand, inside lib/limits.ts, that use every stage; not made by the bake. */
export interface SampleOptions {
  layout: keyof typeof layouts;
  /** The sensors there are; true = all, false = none; default true. */
  sensors?: boolean | readonly Sensor[];
  /** Number of setups, 1 to 3; default 2. */
  setups?: number;
  /** What every setup switches off; default nothing. */
  off?: readonly Option[];
}

/** What a setup may switch off. */
export type Option = keyof typeof SETUP_SWITCHES;

/** Names for the setups of `sampleConstants`. */
export const sampleNames = ['hall', 'carpet', 'rain'] as const;

export function sampleConstants(options: SampleOptions): Constants {
  const layout = layouts[options.layout];
  const { sensors = true } = options;
  const vehicle = sampleVehicle(layout, (one) =>
    (typeof sensors === 'boolean' ? sensors && isUsual(one, layout) : sensors.includes(one))
      ? 1
      : 0,
  );
  const setups = [0, 1, 2].slice(0, options.setups ?? 2).map((i) => sampleSetup(layout, i));
  for (const setup of setups) for (const one of options.off ?? []) setup[SETUP_SWITCHES[one]] = 0;
  const constants: Constants = { vehicle, setups, crc: 0 };
  constants.crc = constantsCrc(constants);
  return constants;
}

/** With two pairs the speeds of wheels are measured, elsewhere told from currents. */
function isUsual(sensor: Sensor, layout: number): boolean {
  return sensor !== 'wheels' || layout === Layout.TWO_PAIRS;
}

/** CRC-32 of each setup alone, as `offerSetup` wants it. */
export function setupCrcs(constants: Constants): number[] {
  return constants.setups.map((setup) => constantsCrc({ vehicle: [], setups: [setup], crc: 0 }));
}

function sampleVehicle(layout: number, has: (sensor: Sensor) => number): number[] {
  const k = filled(V.COUNT);
  const motors = layout === Layout.SINGLE ? 1 : layout === Layout.TWO_PAIRS ? 4 : 2;
  put(k, V.FORMAT, [2, layout, motors, 10, 100]);
  put(k, V.THROTTLE_LOW_US, [1000, 1500, 2000, 0]);
  put(k, V.STEER_LOW_US, [1000, 1500, 2000, 1]);
  put(k, V.PULSE_MARGIN_US, [150, has('supply'), has('current'), has('gyro')]);
  put(k, V.SUPPLY_REFERENCE_MV, [7600, 6800, 6200, 5800, 200, 1500, 300]);
  put(k, V.MOTOR_MOHM, [2000, 2400, 800, 700, 600]);
  put(k, V.WINDING_MJ_K, [500, 20, 6000, 30, 3930, 45, 60, 10]);
  put(k, V.BLIND_CAP, [500, 120, 6, 250, 7400]);
  put(k, V.HAS_WHEEL_SPEED, [
    has('wheels'),
    1500,
    1200,
    250,
    1400,
    400,
    150,
    2000,
    4500,
    60,
    150,
    450,
    layout === Layout.PAIR ? 1 : 0,
  ]);
  for (let i = 0; i < TABLE_POINTS; i++) {
    // As in the bake, only two pairs have front motors.
    k[V.FRONT_INSIDE + i] = layout === Layout.TWO_PAIRS ? 10000 + 37 * i : 0;
    k[V.FRONT_OUTSIDE + i] = layout === Layout.TWO_PAIRS ? 10000 + 23 * i : 0;
  }
  return k;
}

function sampleSetup(layout: number, number: number): number[] {
  const k = filled(S.COUNT);
  put(k, S.THROTTLE_DEAD_BAND, [40 + number, 350, 1000 - 100 * number, 600, 30 * number]);
  put(k, S.STEER_DEAD_BAND, [20, 250 + 50 * number, 950, 970, 40, 4000, 600]);
  put(k, S.HOLD_MS, [200, [0, 2000, -300][number]!, 600, 1500]);
  put(k, S.RISE, [2500, 4000, 6000 + 500 * number, 80]);
  put(k, S.CUT_CEILING, [450, 300 * number, 900]);
  put(k, S.PIVOT, [layout === Layout.TRACKED ? 500 : 0, 350, 400, 700 + 100 * number]);
  put(k, S.SPIN_REACTION, [2 + number, 1 + number, 5 - number, 50, 400, 50, 400, 50, 400]);
  put(k, S.FOUND_HOLD_MS, [300, 500, 300, 800, 150 + 30 * number, 400, 300, 50, 3000]);
  for (let i = 0; i < TABLE_POINTS; i++) k[S.CUT_TABLE + i] = i * i * (12 + 5 * number);
  return k;
}

function filled(count: number): number[] {
  return Array.from({ length: count }, () => 0);
}

function put(target: number[], at: number, values: number[]): void {
  values.forEach((value, i) => {
    target[at + i] = value;
  });
}
