import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { setupCrc } from '../../harness/check/mirror.ts';
import { setupFits } from '../../harness/check/setup-fits.ts';
import {
  type Constants,
  createController,
  createInputs,
  createOutputs,
  Layout,
  S,
  SETUP_LIMITS,
  State,
  V,
  VEHICLE_LIMITS,
} from '../../lib/index.ts';
import { arbitraryConstants, withCrc } from '../limits/arbitrary-constants.ts';
import { type Changes, changed, plainConstants } from '../limits/plain-constants.ts';

const plain = plainConstants({});
const [setup] = plain.setups as [number[]];

/** Whether a controller takes the constants, whatever they are. */
function takes(constants: unknown): boolean {
  const controller = createController(constants as Constants);
  const outputs = createOutputs();
  controller.step(createInputs(), outputs);
  return outputs.state !== State.FAULT;
}

function takesVehicle(change: Changes): boolean {
  return takes(withCrc({ ...plain, vehicle: changed(plain.vehicle, change) }));
}

function takesSetup(change: Changes): boolean {
  const list = changed(setup, change);
  const offered = createController(plain).offerSetup(0, list, setupCrc(list)) === 1;
  const loaded = takes(withCrc({ ...plain, setups: [list] }));
  // At power-up and later the same is refused, and the monitor of S14 knows it too.
  expect([offered, setupFits(plain, list, setupCrc(list))]).toEqual([loaded, loaded]);
  return loaded;
}

describe('the loader takes', () => {
  it('the plain constants', () => {
    expect(takes(plain)).toBe(true);
  });

  it('any constants inside the limits that agree with each other', () => {
    fc.assert(
      fc.property(arbitraryConstants, (constants) => takes(constants)),
      { seed: 721, numRuns: 500 },
    );
  });
});

describe('the loader refuses', () => {
  const vehicleFields = VEHICLE_LIMITS.length / 2;
  const setupFields = SETUP_LIMITS.length / 2;

  it('each vehicle constant one below and one above its range', () => {
    for (let i = 0; i < V.COUNT; i++) {
      const least = i < vehicleFields ? VEHICLE_LIMITS[2 * i]! : 0;
      const most = i < vehicleFields ? VEHICLE_LIMITS[2 * i + 1]! : 20000;
      expect([i, takesVehicle({ [i]: least - 1 }), takesVehicle({ [i]: most + 1 })]).toEqual([
        i,
        false,
        false,
      ]);
    }
  });

  it('each setup constant one below and one above its range', () => {
    for (let i = 0; i < S.COUNT; i++) {
      const least = i < setupFields ? SETUP_LIMITS[2 * i]! : 0;
      const most = i < setupFields ? SETUP_LIMITS[2 * i + 1]! : 20000;
      expect([i, takesSetup({ [i]: least - 1 }), takesSetup({ [i]: most + 1 })]).toEqual([
        i,
        false,
        false,
      ]);
    }
  });

  it('anything but integers, anywhere', () => {
    const odd = [0.5, Number.NaN, Infinity, 2 ** 32, '5', null, undefined, true, 5n, [5], {}];
    for (const value of odd as number[]) {
      for (let i = 0; i < V.COUNT; i++) {
        const vehicle = changed(plain.vehicle, { [i]: value });
        expect([i, takes({ ...plain, vehicle })]).toEqual([i, false]);
      }
      for (let i = 0; i < S.COUNT; i++) {
        const list = changed(setup, { [i]: value });
        expect([i, createController(plain).offerSetup(0, list, plain.crc)]).toEqual([i, 0]);
      }
    }
  });

  it('lists that are too short, too long, or have a hole', () => {
    const hole = [...plain.vehicle];
    delete hole[V.TICK_MS];
    for (const vehicle of [plain.vehicle.slice(1), [...plain.vehicle, 0], hole, []]) {
      expect(takes(withCrc({ ...plain, vehicle }))).toBe(false);
    }
    const gap = [...setup];
    delete gap[S.HOLD_MS];
    for (const list of [setup.slice(1), [...setup, 0], gap, []]) {
      expect(takes(withCrc({ ...plain, setups: [list] }))).toBe(false);
      expect(createController(plain).offerSetup(0, list, setupCrc(list))).toBe(0);
    }
  });

  it('no setup, and more than sixteen', () => {
    const many = (count: number) => withCrc({ ...plain, setups: Array(count).fill(setup) });
    expect([0, 1, 16, 17].map((count) => takes(many(count)))).toEqual([false, true, true, false]);
  });

  it('a CRC that does not fit, down to each single bit', () => {
    for (let bit = 0; bit < 32; bit++) {
      expect(takes({ ...plain, crc: plain.crc ^ (1 << bit) })).toBe(false);
      expect(createController(plain).offerSetup(0, setup, setupCrc(setup) ^ (1 << bit))).toBe(0);
    }
    // The same bits as an unsigned number are another number.
    expect(takes({ ...plain, crc: plain.crc >>> 0 })).toBe(plain.crc >= 0);
  });

  it('whatever else it is given, without throwing', () => {
    const parts = fc.record({ vehicle: fc.anything(), setups: fc.anything(), crc: fc.anything() });
    fc.assert(
      fc.property(fc.oneof(fc.anything(), parts), (what) => {
        expect(takes(what)).toBe(false);
        expect(createController(plain).offerSetup(0, what as number[], 0)).toBe(0);
      }),
      { seed: 722, numRuns: 500 },
    );
  });

  it.each<[string, Changes]>([
    ['a layout with another number of motors', { [V.MOTORS]: 4 }],
    ['one motor in a layout of two', { [V.LAYOUT]: Layout.TRACKED, [V.MOTORS]: 1 }],
    ['a gap time no longer than a tick', { [V.GAP_MS]: 10 }],
    ['less than 100 us of throttle below the centre', { [V.THROTTLE_LOW_US]: 1401 }],
    ['less than 100 us of throttle above the centre', { [V.THROTTLE_HIGH_US]: 1599 }],
    ['less than 100 us of steering below the centre', { [V.STEER_LOW_US]: 1401 }],
    ['less than 100 us of steering above the centre', { [V.STEER_HIGH_US]: 1599 }],
    ['a cut-off above the low voltage', { [V.SUPPLY_CUT_MV]: 6401 }],
    ['a low voltage above the warning', { [V.SUPPLY_LOW_MV]: 7001 }],
    ['a heat limit at its warning', { [V.HEAT_LIMIT_K]: 60 }],
    ['a start as hot as the warning', { [V.HEAT_START_K]: 60 }],
    ['a winding that a long tick would make unstable', { [V.WINDING_MJ_K]: 2 }],
    ['a housing that a long tick would make unstable', { [V.HOUSING_MJ_K]: 5 }],
    ['front tables that differ straight on', { [V.FRONT_INSIDE]: 10001 }],
  ])('%s', (_name, change) => {
    expect(takesVehicle(change)).toBe(false);
  });

  it.each<[string, Changes]>([
    ['a cut straight on', { [S.CUT_TABLE]: 1 }],
    ['a fall faster than the stop', { [S.FALL]: 5001 }],
    ['a rise that the gate would hold back', { [S.RISE]: 5001 }],
    ['a loss position between full lock and holding still', { [S.LOSS_STEER]: 1500 }],
    ['a pivot without tracks', { [S.PIVOT]: 1 }],
  ])('%s', (_name, change) => {
    expect(takesSetup(change)).toBe(false);
  });

  it.each([-1, 1, 0.5, Number.NaN, Infinity, '0', undefined, null, [0], {}])(
    'a setup for slot %s',
    (slot) => {
      const controller = createController(plain);
      expect(controller.offerSetup(slot as number, setup, setupCrc(setup))).toBe(0);
    },
  );
});
