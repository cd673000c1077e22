import { describe, expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { createBackEmf } from '../../lib/back-emf.ts';
import { V } from '../../lib/index.ts';
import { createLoadShift, KEPT } from '../../lib/load-shift.ts';
import { createVehicleSpeed } from '../../lib/vehicle-speed.ts';
import { createWindings } from '../../lib/winding.ts';
import { SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';

const { vehicle: hatch } = bake(vehicleOf(SAMPLES.hatch), [setupOf({ name: 'a', surface: 'b' })]);
const { vehicle: forwarder } = bake(vehicleOf(SAMPLES.forwarder), [
  setupOf({ name: 'a', surface: 'b' }),
]);
const TICK = 10;

type Pair = readonly [number, number];

/** Ticks with these commands and currents; the rest as when driving straight ahead. */
function rig(vehicle: readonly number[]) {
  const motors = createBackEmf([...vehicle], createWindings([...vehicle]));
  const ground = createVehicleSpeed([...vehicle]);
  const shift = createLoadShift([...vehicle]);
  const pairs = vehicle[V.MOTORS]! / 2;
  const asDriven = { steer: 0, known: 2 * pairs, ms: TICK, still: false };
  const tick = (drive: Pair, currents: Pair, other: Partial<typeof asDriven> = {}) => {
    const { steer, known, ms, still } = { ...asDriven, ...other };
    for (let m = 0; m < 2 * pairs; m++) {
      motors.current[m] = currents[m % 2]!;
      const flows = Math.abs(currents[m % 2]!) > vehicle[V.CURRENT_ERROR_MA]!;
      motors.told[m] = flows ? 1 : drive[m % 2] === 0 ? 0 : 2;
    }
    motors.known = known;
    const stands = still || (drive[0] === 0 && drive[1] === 0);
    ground.speed = stands ? 0 : Math.sign(drive[0]) * 500;
    ground.steer = steer;
    const most = Math.max(...currents.map(Math.abs));
    shift.run(motors, ground, [...drive, ...drive], most, ms);
    const told = (more: number) => (more === KEPT ? KEPT : more > 0 ? 1 : 0);
    return shift.gone.slice(0, 2 * pairs).map(told);
  };
  /** That for so many ms; what the last one tells. */
  const drive = (ms: number, ...rest: Parameters<typeof tick>) => {
    let gone: number[] = [];
    for (let t = 0; t < ms; t += TICK) gone = tick(...rest);
    return gone;
  };
  return { drive, ground };
}

describe('straight ahead', () => {
  test.each([1, -1])('what goes over from one to the other is lost there, way %d', (way) => {
    for (const lost of [0, 1]) {
      const { drive } = rig(hatch);
      expect(drive(700, [way * 500, way * 500], [way * 600, way * 600])).toEqual([0, 0]);
      const after = [0, 1].map((m) => way * (m === lost ? 300 : 900)) as unknown as Pair;
      const gone = drive(10, [way * 500, way * 500], after);
      expect(gone).toEqual([0, 1].map((m) => (m === lost ? 1 : 0)));
    }
  });

  test('what always was so has not gone over', () => {
    const { drive } = rig(hatch);
    for (let i = 0; i < 200; i++) {
      expect(drive(TICK, [500, 500], [500, 700])).toEqual([0, 0]);
    }
  });

  test('a tenth of the greatest current, lately or now, must have gone over', () => {
    for (const [less, tells] of [
      [470, true],
      [490, false],
    ] as const) {
      const { drive } = rig(hatch);
      drive(700, [500, 500], [500, 500]);
      // By less on one side and more on the other: 500 + 500 = less + more.
      const gone = drive(TICK, [500, 500], [less, 1000 - less]);
      expect(gone[0]! > 0).toBe(tells);
    }
    const { drive } = rig(hatch);
    drive(900, [500, 500], [2000, 2000]);
    expect(drive(TICK, [500, 500], [300, 450])).toEqual([0, 0]);
  });

  test('a start tells from its first tick on, whatever was usual before', () => {
    const { drive } = rig(hatch);
    drive(2000, [500, 500], [500, 900]);
    drive(100, [0, 0], [0, 0]);
    expect(drive(TICK, [300, 300], [900, 900])).toEqual([0, 0]);
    expect(drive(TICK, [300, 300], [700, 900])).toEqual([1, 0]);
  });

  test('after a bend, braking or a missing sample it is learnt anew for 600 ms', () => {
    const ends: [Pair, Pair, { steer?: number; known?: number }][] = [
      [[500, 500], [600, 600], { steer: 151 }],
      [[500, 500], [600, 600], { steer: -151 }],
      [[500, 487], [600, 600], {}],
      [[500, 500], [-100, -100], {}],
      [[500, 500], [600, 0], { known: 1 }],
    ];
    for (const [commands, currents, more] of ends) {
      const { drive } = rig(hatch);
      drive(1000, [500, 500], [600, 600]);
      drive(TICK, commands, currents, more);
      expect(drive(600, [500, 500], [500, 700])).toEqual([0, 0]);
      expect(drive(20, [500, 500], [500, 700])).toEqual([0, 0]);
      expect(drive(TICK, [500, 500], [300, 900])).toEqual([1, 0]);
    }
  });

  test('a vehicle that still rolls has not begun anew', () => {
    const { drive, ground } = rig(hatch);
    drive(100, [0, 0], [0, 0]);
    ground.speed = 2000;
    drive(TICK, [0, 0], [-300, -300]);
    expect(drive(TICK, [300, 300], [300, 900])).toEqual([0, 0]);
  });

  test('each pair of two is looked at by itself', () => {
    const four = hatch.map((word, i) => (i === V.MOTORS ? 4 : word));
    const { drive } = rig(four);
    drive(700, [500, 500], [600, 600]);
    expect(drive(TICK, [500, 500], [900, 300])).toEqual([0, 1, 0, 1]);
  });
});

describe('tracks that the ground holds', () => {
  const held: Pair = [70, 70];

  test.each([
    ['after driving along', 1000],
    ['anew', 0],
  ])('what each bears then is not taken for usual, %s', (_, before) => {
    for (const twist of [
      [-100, 270],
      [270, -100],
    ] as const) {
      const { drive } = rig(forwarder);
      if (before) drive(before, [500, 500], [400, 400]);
      else drive(TICK, [500, 400], [400, 400]);
      drive(700, held, twist, { still: true });
      for (let t = 0; t < 800; t += TICK) {
        expect(drive(TICK, [500, 500], [400, 400])).toEqual([0, 0]);
      }
    }
  });

  test('once they drive along, what goes over is lost again', () => {
    const { drive } = rig(forwarder);
    drive(1000, [500, 500], [400, 400]);
    drive(700, held, [-100, 270], { still: true });
    drive(TICK, [500, 500], [400, 400]);
    expect(drive(TICK, [500, 500], [200, 600])).toEqual([1, 0]);
  });
});

describe('tracks in a bend', () => {
  /** Speeds of the tracks for which R explains a share of the voltage between them. */
  function bend(commands: Pair, currents: Pair, ms = 200): number[] {
    const { drive, ground } = rig(forwarder);
    const fall = forwarder[V.MOTOR_MOHM]! / forwarder[V.EMF_UV]!;
    for (const m of [0, 1] as const) {
      ground.along[m] = (7800 * commands[m]) / forwarder[V.EMF_UV]! - fall * currents[m];
    }
    return drive(ms, commands, currents);
  }

  test.each([1, -1])('that scrub, none is lost, way %d', (way) => {
    expect(bend([way * 400, way * 700], [0, way * 700])).toEqual([KEPT, KEPT]);
    expect(bend([way * 700, way * 400], [way * 700, 0])).toEqual([KEPT, KEPT]);
  });

  test.each([1, -1])('that no longer scrub, the one that draws less is lost, way %d', (way) => {
    expect(bend([way * 400, way * 700], [way * 190, way * 300])).toEqual([1, KEPT]);
    expect(bend([way * 400, way * 700], [way * 300, way * 190])).toEqual([KEPT, 1]);
    expect(bend([way * 700, way * 400], [way * 300, way * 190])).toEqual([KEPT, 1]);
  });

  test('it takes time to show, and both must be driven the same way', () => {
    expect(bend([400, 700], [190, 300], 150)).toEqual([0, 0]);
    expect(bend([-100, 700], [190, 300])).toEqual([0, 0]);
    expect(bend([100, 290], [190, 300])).toEqual([0, 0]);
  });
});
