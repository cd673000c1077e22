import { describe, expect, it } from 'vitest';
import { Cause, V } from '../../lib/index.ts';
import { type Bench, createBench } from '../lib/bench.ts';
import { type Changes, plainConstants } from '../limits/plain-constants.ts';
import published from './motor.json' with { type: 'json' };

/** A standing vehicle with this heat model; stall and current ceiling are off. */
function benchWith(tickMs: number, heat: Changes): Bench {
  const vehicle = {
    [V.TICK_MS]: tickMs,
    [V.GAP_MS]: 200,
    [V.GATE_RISE]: 1000,
    [V.STALL_MS]: 0,
    [V.CURRENT_LIMIT_MA]: 0,
    [V.COPPER_PPM_K]: 0,
    [V.HOUSING_MJ_K]: 0,
    ...heat,
  };
  return createBench(plainConstants({ vehicle }));
}

/**
 * I2t, as thermal overload relays have it: from a start at p the rated current, r times the rated
 * current passes the limit after t = T ln((r^2 - p^2) / (r^2 - 1)). In the core that is one body
 * without copper's rise: rated 3 A at 1 Ohm hold 300 K over 30 mW/K; T = 30 J/K / 30 mW/K = 1000 s.
 */
describe('I2t trip times of thermal overload protection, first order (motor.json, i2t)', () => {
  const body = {
    [V.MOTOR_MOHM]: 1000,
    [V.WINDING_MJ_K]: 30000,
    [V.WINDING_MW_K]: 30,
    [V.HEAT_WARN_K]: 299,
    [V.HEAT_LIMIT_K]: 300,
  };

  /** Seconds until the core stops a motor that carries r times its rated current. */
  function tripTime(r: number, startK: number): number {
    const bench = benchWith(100, { ...body, [V.HEAT_START_K]: startK });
    const ma = Math.round(3000 * r);
    bench.step(1, { currentMa: [ma, 0, 0, 0] });
    let ticks = 0;
    while (bench.outputs.cause === Cause.NONE && ticks < 20000) {
      bench.step();
      ticks++;
    }
    expect(bench.outputs.cause).toBe(Cause.OVERHEATED);
    return ticks / 10;
  }

  it.each(Object.entries(published.i2t.values))(
    '%s',
    (name, { cold_t_over_tau, preload0p8_t_over_tau }) => {
      const r = Number(name.slice(2));
      // One tick of 100 ms decides, the next one stops; a step of heat is no longer than 200 ms.
      expect(Math.abs(tripTime(r, 0) - 1000 * cold_t_over_tau)).toBeLessThan(0.5);
      // A preload of 0.8 In is a start at 0.64 of the limit.
      expect(Math.abs(tripTime(r, 192) - 1000 * preload0p8_t_over_tau)).toBeLessThan(0.5);
    },
  );

  it('never trips at the rated current', () => {
    const bench = benchWith(100, body);
    bench.step(100_000, { currentMa: [2999, 0, 0, 0] });
    expect(bench.outputs.cause).toBe(Cause.NONE);
  });
});

/** A winding and a core, as the published example has them. */
interface Network {
  /** W, as a function of the winding's rise over ambient, K. */
  windingLoss: (rise: number, time: number) => number;
  coreLoss: number;
}

const { G, CONVECTION, WINDING, CORE } = { G: 10, CONVECTION: 25, WINDING: 2500, CORE: 25000 };
const AMBIENT_C = 20;
/** Copper: loss given at 95 degrees Celsius, 0.303 % more a kelvin. */
const copper = (rise: number) => 1 + 3.03e-3 * (rise + AMBIENT_C - 95);
const period = (time: number) => (time % 600 < 360 ? 100 : 1000);

/** Rises of winding and core over ambient at a time, K, by Runge and Kutta's method, step 1 s. */
function integrate({ windingLoss, coreLoss }: Network, until: number): [number, number] {
  let state: [number, number] = [0, 0];
  const slope = ([w, c]: [number, number], time: number): [number, number] => [
    (windingLoss(w, time) - G * (w - c)) / WINDING,
    (coreLoss + G * (w - c) - CONVECTION * c) / CORE,
  ];
  for (let t = 0; t < until; t++) {
    const at = (k: [number, number], h: number): [number, number] => [
      state[0] + h * k[0],
      state[1] + h * k[1],
    ];
    // The loss jumps at whole seconds; inside a step it is that of its beginning.
    const a = slope(state, t);
    const b = slope(at(a, 0.5), t);
    const c = slope(at(b, 0.5), t);
    const d = slope(at(c, 1), t);
    state = [0, 1].map((i) => state[i]! + (a[i]! + 2 * b[i]! + 2 * c[i]! + d[i]!) / 6) as [
      number,
      number,
    ];
  }
  return state;
}

const modelica = published.thermal_two_body_modelica;

describe('two-body heat: Modelica Standard Library, Thermal.HeatTransfer.Examples.Motor', () => {
  it.each(Object.entries(modelica.degC))(
    'the reference model of this test reproduces the published temperatures after %s s',
    (seconds, [winding, core]) => {
      const network = {
        windingLoss: (rise: number, time: number) => period(time) * copper(rise),
        coreLoss: 500,
      };
      const [w, c] = integrate(network, Number(seconds));
      expect(Math.abs(w + AMBIENT_C - winding!)).toBeLessThan(0.01);
      expect(Math.abs(c + AMBIENT_C - core!)).toBeLessThan(0.01);
    },
  );

  it.each([
    [100, modelica.steady_degC_P100],
    [1000, modelica.steady_degC_P1000],
  ])('and its steady state at %i W', (loss, [winding, core]) => {
    const network = { windingLoss: (rise: number) => loss * copper(rise), coreLoss: 500 };
    const [w, c] = integrate(network, 20000);
    expect(Math.abs(w + AMBIENT_C - winding!)).toBeLessThan(0.01);
    expect(Math.abs(c + AMBIENT_C - core!)).toBeLessThan(0.01);
  });

  /**
   * The same machine for the core, all capacities, conductances and powers divided by 1000, which
   * leaves the temperatures as they are: 2.5 and 25 J/K, 10 and 25 mW/K, 1 mOhm. At ambient
   * temperature copper has 0.77275 of its resistance at 95 degrees, and rises by 0.392 % a kelvin.
   */
  const cold = copper(0);
  const scaled = {
    [V.MOTOR_MOHM]: 1,
    [V.WINDING_MJ_K]: WINDING,
    [V.WINDING_MW_K]: G,
    [V.HOUSING_MJ_K]: CORE,
    [V.HOUSING_MW_K]: CONVECTION,
    [V.HEAT_WARN_K]: 1,
    [V.HEAT_LIMIT_K]: 300,
  };
  const milliampere = (watt: number) => Math.round(1000 * Math.sqrt((watt * cold) / 1000 / 1e-3));

  /** Rise of the winding over ambient, K, told by what heat leaves between 1 and 300 K. */
  const riseOf = ({ outputs }: Bench) => 300 - (outputs.limit * 299) / 1000;

  it("the core's winding follows the reference over two hours, with no loss in the iron", () => {
    const bench = benchWith(100, {
      ...scaled,
      [V.COPPER_PPM_K]: Math.round((3.03e-3 / cold) * 1e6),
    });
    const network = {
      windingLoss: (rise: number, time: number) => period(time) * copper(rise),
      coreLoss: 0,
    };
    let seconds = 0;
    for (const until of [360, 600, 960, 1200, 1800, 3600, 6960, 7200]) {
      for (; seconds < until; seconds++) {
        bench.step(10, { currentMa: [milliampere(period(seconds)), 0, 0, 0] });
      }
      const [winding] = integrate(network, until);
      expect(Math.abs(riseOf(bench) - winding)).toBeLessThan(0.1);
    }
  });

  it('the core answers a step of loss as the closed form of two bodies, by its eigenvalues', () => {
    const bench = benchWith(100, scaled);
    const watt = 0.8;
    const ma = Math.round(Math.sqrt(watt / 1e-3) * 1000);
    // In units of J/K and W/K: w' = (P - G1 (w - h)) / Cw, h' = (G1 (w - h) - G2 h) / Ch.
    const [cw, ch, g1, g2] = [2.5, 25, 0.01, 0.025];
    const trace = -(g1 / cw + (g1 + g2) / ch);
    const determinant = (g1 * g2) / (cw * ch);
    const root = Math.sqrt(trace ** 2 / 4 - determinant);
    const [fast, slow] = [trace / 2 - root, trace / 2 + root];
    const steady = watt / g1 + watt / g2;
    // w(0) = 0 and w'(0) = P / Cw fix the shares of both modes.
    const slowShare = (watt / cw + fast * steady) / (slow - fast);
    const fastShare = -steady - slowShare;
    for (let minute = 1; minute <= 120; minute++) {
      bench.step(600, { currentMa: [ma, 0, 0, 0] });
      const t = 60 * minute;
      const want = steady + slowShare * Math.exp(slow * t) + fastShare * Math.exp(fast * t);
      expect(Math.abs(riseOf(bench) - want)).toBeLessThan(0.1);
    }
    expect(riseOf(bench)).toBeGreaterThan(0.9 * steady);
  });
});
