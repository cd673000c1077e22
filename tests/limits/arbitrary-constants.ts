import fc from 'fast-check';
import {
  type Constants,
  constantsCrc,
  Layout,
  S,
  SETUP_LIMITS,
  STEER_HOLD,
  TABLE_POINTS,
  V,
  VEHICLE_LIMITS,
} from '../../lib/index.ts';

type Range = readonly [least: number, most: number];

/** Where the constants of real vehicles lie; four draws out of five come from here. */
const USUAL_VEHICLE: Readonly<Record<number, Range>> = {
  [V.TICK_MS]: [5, 20],
  [V.GAP_MS]: [50, 300],
  [V.THROTTLE_LOW_US]: [900, 1100],
  [V.THROTTLE_CENTRE_US]: [1450, 1550],
  [V.THROTTLE_HIGH_US]: [1900, 2100],
  [V.STEER_LOW_US]: [900, 1100],
  [V.STEER_CENTRE_US]: [1450, 1550],
  [V.STEER_HIGH_US]: [1900, 2100],
  [V.PULSE_MARGIN_US]: [0, 150],
  [V.SUPPLY_REFERENCE_MV]: [0, 8400],
  [V.SUPPLY_WARN_MV]: [6400, 7200],
  [V.SUPPLY_LOW_MV]: [6000, 6400],
  [V.SUPPLY_CUT_MV]: [5000, 6000],
  [V.SUPPLY_HYSTERESIS_MV]: [20, 400],
  [V.SUPPLY_CUT_MS]: [50, 500],
  [V.SUPPLY_FLOOR]: [100, 600],
  [V.MOTOR_MOHM]: [100, 4000],
  [V.CURRENT_LIMIT_MA]: [500, 12000],
  [V.STALL_SHARE]: [600, 950],
  [V.STALL_MIN_MA]: [100, 1000],
  [V.STALL_MS]: [100, 500],
  [V.WINDING_MJ_K]: [100, 4000],
  [V.WINDING_MW_K]: [5, 200],
  [V.HOUSING_MJ_K]: [500, 20000],
  [V.HOUSING_MW_K]: [5, 200],
  [V.COPPER_PPM_K]: [0, 4000],
  [V.HEAT_WARN_K]: [10, 60],
  [V.HEAT_LIMIT_K]: [40, 120],
  [V.HEAT_START_K]: [0, 20],
  [V.BLIND_CAP]: [100, 500],
  [V.GATE_RISE]: [20, 300],
  [V.GATE_DWELL]: [0, 8],
  [V.SPEED_LAG_MS]: [50, 500],
  [V.SUPPLY_NOMINAL_MV]: [7000, 9000],
  [V.EMF_UV]: [500, 16000],
  [V.THRUST_MN_A]: [400, 12000],
  [V.NO_LOAD_MA]: [20, 500],
  [V.MASS_G]: [300, 5000],
  [V.DRAG_MN]: [50, 1500],
  [V.SIDE_LEAD]: [50, 400],
  [V.CURVATURE]: [500, 6000],
  [V.TOP_SPEED_MM_S]: [400, 9000],
  [V.CURRENT_ERROR_MA]: [10, 200],
  [V.MODEL_ERROR]: [0, 300],
  [V.WHEEL_UM_DEG]: [200, 800],
  [V.ROTATING_G]: [10, 3000],
};

const USUAL_SETUP: Readonly<Record<number, Range>> = {
  [S.THROTTLE_DEAD_BAND]: [20, 100],
  [S.FORWARD_LIMIT]: [500, 1000],
  [S.REVERSE_LIMIT]: [400, 1000],
  [S.THROTTLE_SMOOTHING_MS]: [0, 60],
  [S.STEER_DEAD_BAND]: [0, 60],
  [S.LEFT_LIMIT]: [500, 1000],
  [S.RIGHT_LIMIT]: [500, 1000],
  [S.STEER_SMOOTHING_MS]: [0, 60],
  [S.STEER_RATE]: [1000, 10000],
  [S.HOLD_MS]: [50, 300],
  [S.NEUTRAL_MS]: [100, 400],
  [S.REARM_MS]: [500, 1000],
  [S.RISE]: [800, 6000],
  [S.FALL]: [800, 8000],
  [S.STOP]: [1500, 10000],
  [S.DWELL_MS]: [0, 150],
  [S.CUT_CEILING]: [100, 700],
  [S.GUEST_CAP]: [100, 500],
  [S.FADE_MS]: [0, 600],
  [S.SPIN_K]: [20, 300],
  [S.SPIN_H]: [100, 1500],
  [S.FREE_K]: [20, 300],
  [S.FREE_H]: [100, 1500],
  [S.JAM_K]: [20, 300],
  [S.JAM_H]: [100, 1500],
  [S.FOUND_HOLD_MS]: [0, 400],
  [S.TRIM]: [200, 900],
  [S.LIMP_CAP]: [100, 600],
  [S.RAMP_MS]: [50, 1500],
  [S.YAW_AUTHORITY]: [0, 400],
  [S.YAW_GAIN]: [0, 1500],
  [S.YAW_INTEGRAL_GAIN]: [0, 1500],
  [S.YAW_UNDERSTEER]: [0, 600],
  [S.YAW_GRIP_MM_S2]: [2000, 9000],
};

/**
 * Constants that the loader accepts: every layout, every fit of sensors, one to three setups, each
 * constant over its whole range in lib/limits.ts, and mostly where real vehicles lie.
 */
export const arbitraryConstants: fc.Arbitrary<Constants> = vehicles().chain((vehicle) =>
  fc
    .array(setupsFor(vehicle), { minLength: 1, maxLength: 3 })
    .map((setups) => withCrc({ vehicle, setups, crc: 0 })),
);

/** The same constants with the CRC that belongs to them. */
export function withCrc(constants: Constants): Constants {
  return { ...constants, crc: constantsCrc(constants) };
}

function vehicles(): fc.Arbitrary<number[]> {
  const fields = VEHICLE_LIMITS.length / 2;
  const values = integers(fields, VEHICLE_LIMITS, USUAL_VEHICLE);
  return fc.tuple(values, table(9000, 14000), table(9000, 14000)).map(([head, inside, outside]) => {
    const k = [...head, ...inside, ...outside];
    k[V.FRONT_OUTSIDE] = k[V.FRONT_INSIDE]!;
    return agree(k);
  });
}

/** Setups that serve this vehicle. */
export function setupsFor(vehicle: readonly number[]): fc.Arbitrary<number[]> {
  const fields = SETUP_LIMITS.length / 2;
  return fc
    .tuple(integers(fields, SETUP_LIMITS, USUAL_SETUP), table(0, 9000), fc.boolean())
    .map(([head, cut, risesWithLock]) => {
      const k = [...head, ...(risesWithLock ? cut.sort((a, b) => a - b) : cut)];
      k[S.CUT_TABLE] = 0;
      if (k[S.LOSS_STEER]! > 1000) k[S.LOSS_STEER] = STEER_HOLD;
      if (vehicle[V.LAYOUT] !== Layout.TRACKED) k[S.PIVOT] = 0;
      k[S.FALL] = Math.min(k[S.FALL]!, k[S.STOP]!);
      const fastest = Math.floor((vehicle[V.GATE_RISE]! * 1000) / (2 * vehicle[V.TICK_MS]!));
      k[S.RISE] = Math.min(k[S.RISE]!, fastest);
      return k;
    });
}

function integers(
  count: number,
  limits: readonly number[],
  usual: Readonly<Record<number, Range>>,
): fc.Arbitrary<number[]> {
  const each = Array.from({ length: count }, (_, i) => {
    const whole = fc.integer({ min: limits[2 * i]!, max: limits[2 * i + 1]! });
    const range = usual[i];
    if (range === undefined) return whole;
    const near = fc.integer({ min: range[0], max: range[1] });
    return fc.oneof({ arbitrary: near, weight: 14 }, { arbitrary: whole, weight: 1 });
  });
  return fc.tuple(...each);
}

function table(least: number, most: number): fc.Arbitrary<number[]> {
  const near = fc.integer({ min: least, max: most });
  const whole = fc.integer({ min: 0, max: 20000 });
  const length = { minLength: TABLE_POINTS, maxLength: TABLE_POINTS };
  return fc.oneof(
    { arbitrary: fc.array(near, length), weight: 9 },
    { arbitrary: fc.array(whole, length), weight: 1 },
  );
}

/** Bends a vehicle's constants until they agree with each other as the loader demands. */
function agree(k: number[]): number[] {
  k[V.MOTORS] = k[V.LAYOUT] === Layout.SINGLE ? 1 : k[V.LAYOUT] === Layout.TWO_PAIRS ? 4 : 2;
  const tick = k[V.TICK_MS]!;
  k[V.GAP_MS] = Math.max(k[V.GAP_MS]!, tick + 1);
  for (const low of [V.THROTTLE_LOW_US, V.STEER_LOW_US]) {
    k[low + 1] = Math.min(Math.max(k[low + 1]!, 600), 2400);
    k[low] = Math.min(k[low]!, k[low + 1]! - 100);
    k[low + 2] = Math.max(k[low + 2]!, k[low + 1]! + 100);
  }
  k[V.SUPPLY_LOW_MV] = Math.max(k[V.SUPPLY_LOW_MV]!, k[V.SUPPLY_CUT_MV]!);
  k[V.SUPPLY_WARN_MV] = Math.max(k[V.SUPPLY_WARN_MV]!, k[V.SUPPLY_LOW_MV]!);
  k[V.HEAT_WARN_K] = Math.min(k[V.HEAT_WARN_K]!, 299);
  k[V.HEAT_LIMIT_K] = Math.max(k[V.HEAT_LIMIT_K]!, k[V.HEAT_WARN_K]! + 1);
  k[V.HEAT_START_K] = Math.min(k[V.HEAT_START_K]!, k[V.HEAT_WARN_K]! - 1);
  // With a margin for heat that is worked out in steps of some ticks.
  const longest = k[V.GAP_MS]! + 100;
  const flow = (k[V.WINDING_MW_K]! * longest) / 1000;
  if (k[V.WINDING_MJ_K]! > 0) k[V.WINDING_MJ_K] = Math.max(k[V.WINDING_MJ_K]!, Math.ceil(flow) + 1);
  const loss = flow + (k[V.HOUSING_MW_K]! * longest) / 1000;
  if (k[V.HOUSING_MJ_K]! > 0) k[V.HOUSING_MJ_K] = Math.max(k[V.HOUSING_MJ_K]!, Math.ceil(loss) + 1);
  // Room for the slowest rise a setup can have.
  k[V.GATE_RISE] = Math.max(k[V.GATE_RISE]!, Math.ceil((50 * 2 * tick) / 1000));
  return k;
}
