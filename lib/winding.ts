import { V } from './constants.ts';
import { Fit } from './fit.ts';

/**
 * Heat of each motor's winding, two bodies: Cw dw/dt = i^2 R (1 + a w) - G1 (w - h);
 * Ch dh/dt = G1 (w - h) - G2 h, with w and h the rises of winding and housing over ambient. An I2t
 * limit is the same with h = 0 and a = 0.
 */
export interface Windings {
  /** Rise of each winding over ambient, K. */
  rise: number[];
  /** Resistance of winding `m` as described, at that heat, mOhm. */
  ohm(m: number): number;
  /** Bit of each motor from its limit on until it has cooled to where derating begins. */
  hot: number;
  /**
   * @param m index of the motor
   * @param square mean of the current's square, mA^2
   * @param time how long it flowed, ms
   * @returns what heat leaves of the drive, permille, 0 to 1000
   */
  run(m: number, square: number, time: number): number;
}

/** Far beyond any limit, but a number still, whatever a current sensor says and for how long. */
const MOST_K = 100000;

/** @param vehicle constants of the vehicle */
export function createWindings(vehicle: number[]): Windings {
  const resistance = vehicle[V.MOTOR_MOHM];
  const capacity = vehicle[V.WINDING_MJ_K];
  const outward = vehicle[V.WINDING_MW_K];
  const housing = vehicle[V.HOUSING_MJ_K];
  const away = vehicle[V.HOUSING_MW_K];
  const copper = vehicle[V.COPPER_PPM_K];
  const warn = vehicle[V.HEAT_WARN_K];
  const greatest = vehicle[V.HEAT_LIMIT_K];
  const start = vehicle[V.HEAT_START_K];
  const cold = housing === 0 ? 0 : start;
  const warmed = resistance * (1 + (copper / 1000000) * start);
  const rises = [start, start, start, start];
  const ohms = [warmed, warmed, warmed, warmed];
  const bodies = [cold, cold, cold, cold];
  const windings = { rise: rises, ohm: ohm, hot: 0, run: run };

  function run(m: number, square: number, time: number): number {
    if (capacity === 0) return 1000;
    let rise = rises[m];
    // mA^2 mOhm = 1e-9 W; the result in mW.
    const heating = ((square / 1000000) * resistance * (1000000 + copper * rise)) / 1000000;
    const body = bodies[m];
    const flow = outward * (rise - body);
    rise += ((heating - flow) * time) / 1000 / capacity;
    if (rise > MOST_K) rise = MOST_K;
    if (housing > 0) bodies[m] = body + ((flow - away * body) * time) / 1000 / housing;
    if (rise >= greatest) windings.hot |= 1 << m;
    else if (rise < warn) windings.hot &= ~(1 << m);
    rises[m] = rise;
    ohms[m] = resistance * (1 + (copper / 1000000) * rise);
    if (rise <= warn) return 1000;
    return rise < greatest ? ((greatest - rise) * 1000) / (greatest - warn) : 0;
  }

  function ohm(m: number): number {
    return Fit.BYTES_COUNT ? resistance * (1 + (copper / 1000000) * rises[m]) : ohms[m];
  }

  return windings;
}
