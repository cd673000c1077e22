import { createContext, runInContext } from 'node:vm';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeDump } from '../../harness/recorder/decode-dump.ts';
import { Flag, State } from '../../lib/index.ts';
import { type BundleHeader, hex32, verifyBundle } from '../../targets/build/header.ts';
import { boot, type Hub } from '../../targets/generic/boot.ts';
import { generic } from '../../targets/generic/manifest.ts';
import type { Ports } from '../../targets/generic/ports.ts';
import { sampleConstants } from '../engines/sample-constants.ts';
import { sampleBundle } from './sample-bundle.ts';

/** A hub whose ports a test can bend, and what was written to it. */
function bench(sensors = true) {
  const motors = [0, 0];
  const state = { timeMs: 0, throttleUs: 1500, steerUs: 1500, enable: 0, steer: 0, blocks: 0 };
  const ports: Ports = {
    nowMs: () => state.timeMs,
    readThrottleUs: () => state.throttleUs,
    readSteerUs: () => state.steerUs,
    readInputAgeMs: () => 0,
    readBatteryMv: () => 7600,
    readCurrentMa: () => 100,
    readWheelDegS: () => 0,
    readYawRate: () => 0,
    readSlot: () => 0,
    readGuest: () => 0,
    writeDrive: (motor, permille) => {
      motors[motor] = permille;
    },
    writeEnable: (on) => {
      state.enable = on;
    },
    writeSteer: (permille) => {
      state.steer = permille;
    },
    writeBlock: () => {
      state.blocks++;
    },
  };
  const constants = sampleConstants({ layout: 'pair', sensors });
  return { motors, state, ports, constants };
}

type Bench = ReturnType<typeof bench>;

function run({ state }: Bench, hub: Hub, ticks: number, each: () => void = () => {}): void {
  for (let i = 0; i < ticks; i++) {
    state.timeMs += 10;
    hub.tick();
    each();
  }
}

/** Boots, arms and drives forward. */
function driving(on: Bench): Hub {
  const hub = boot(on.ports, on.constants, 20, 3);
  run(on, hub, 100);
  on.state.throttleUs = 1800;
  run(on, hub, 100);
  expect(hub.outputs.state).toBe(State.DRIVING);
  expect(on.motors[0]).toBeGreaterThan(100);
  return hub;
}

/** The ports that read, which a hub can lack or break. */
const READERS = generic.ports.filter((name) => /^(now|read)/.test(name)) as (keyof Ports)[];
/** Without these there is no signal, so the drive has to stop. */
const REQUIRED: (keyof Ports)[] = ['nowMs', 'readThrottleUs', 'readSteerUs', 'readInputAgeMs'];

function breakPort(ports: Ports, name: keyof Ports, how: 'throws' | 'garbage' = 'throws'): void {
  Object.assign(ports, {
    [name]: () => {
      if (how === 'throws') throw new Error(`port ${name} is broken`);
      return 'garbage';
    },
  });
}

describe('a sound hub', () => {
  it('arms on a neutral throttle, drives, steers and records', () => {
    const on = bench();
    const hub = driving(on);
    expect(on.state.enable).toBe(1);
    expect(on.motors).toEqual([hub.outputs.drive[0], hub.outputs.drive[1]]);
    on.state.steerUs = 1300;
    run(on, hub, 50);
    expect(on.state.steer).toBe(hub.outputs.steer);
    expect(on.state.steer).toBeGreaterThan(100);
    // 250 ticks, 20 records a block.
    expect(on.state.blocks).toBe(12);
    expect(hub.recorder!.done).toBeGreaterThanOrEqual(0);
  });

  it('never moves while the throttle has not been neutral since power-up', () => {
    const on = bench();
    on.state.throttleUs = 1900;
    run(on, boot(on.ports, on.constants, 0, 0), 500, () => expect(on.motors).toEqual([0, 0]));
  });

  it('runs on the least ports: clock, sticks, age and drive', () => {
    const on = bench(false);
    const { nowMs, readThrottleUs, readSteerUs, readInputAgeMs, writeDrive } = on.ports;
    const least = { nowMs, readThrottleUs, readSteerUs, readInputAgeMs, writeDrive };
    const hub = boot(least, on.constants, 0, 0);
    expect(hub.recorder).toBeNull();
    run(on, hub, 100);
    on.state.throttleUs = 1800;
    run(on, hub, 100);
    expect(on.motors[1]).toBeGreaterThan(100);
    expect(hub.outputs.flags & Flag.GUEST).toBe(0);
  });

  it('lists in its manifest exactly the ports that are described', () => {
    expect([...generic.ports].sort()).toEqual(Object.keys(bench().ports).sort());
  });
});

describe('a port that reads is broken', () => {
  it.each(REQUIRED)('%s throws while driving: controlled stop, and no motion after', (name) => {
    const on = bench();
    const broken = { now: false };
    const sound = on.ports[name] as (index: number) => number;
    Object.assign(on.ports, {
      [name]: (index: number) => {
        if (broken.now) throw new Error('broken');
        return sound(index);
      },
    });
    const hub = driving(on);
    broken.now = true;
    // Hold 200 ms, stop 1000 permille at 6000 permille/s, gap 100 ms: all within 60 ticks.
    run(on, hub, 60);
    run(on, hub, 300, () => {
      expect(on.motors).toEqual([0, 0]);
      expect(on.state.enable).toBe(0);
    });
  });

  it.each(REQUIRED)('%s absent, throwing or garbage from the start: never moves', (name) => {
    for (const how of ['absent', 'throws', 'garbage'] as const) {
      const on = bench();
      if (how === 'absent') delete (on.ports as Partial<Ports>)[name];
      else breakPort(on.ports, name, how);
      const hub = boot(on.ports, on.constants, 0, 0);
      const rest = () => expect(on.motors, how).toEqual([0, 0]);
      run(on, hub, 200, rest);
      on.state.throttleUs = 1900;
      run(on, hub, 200, rest);
    }
  });

  it.each(['readBatteryMv', 'readCurrentMa'] as const)('%s throws: the blind cap holds', (name) => {
    const on = bench();
    breakPort(on.ports, name);
    const hub = driving(on);
    on.state.throttleUs = 2000;
    run(on, hub, 200);
    expect(hub.outputs.flags & Flag.SENSOR_LOST).toBe(Flag.SENSOR_LOST);
    // V.BLIND_CAP of the sample constants.
    expect(Math.max(...on.motors)).toBeLessThanOrEqual(500);
  });

  it('readGuest throws: the cap is on; absent: off', () => {
    const on = bench();
    breakPort(on.ports, 'readGuest');
    expect(driving(on).outputs.flags & Flag.GUEST).toBe(Flag.GUEST);
    const without = bench();
    delete (without.ports as Partial<Ports>).readGuest;
    expect(driving(without).outputs.flags & Flag.GUEST).toBe(0);
  });
});

describe('a port that writes throws', () => {
  it.each(['writeDrive', 'writeEnable', 'writeSteer'] as const)(
    '%s throws once: the drive is off at once and stays off until a fresh neutral',
    (name) => {
      const on = bench();
      const write = on.ports[name] as (a: number, b: number) => void;
      let broken = 0;
      Object.assign(on.ports, {
        [name]: (a: number, b: number) => {
          if (broken > 0) {
            broken--;
            throw new Error('broken');
          }
          write(a, b);
        },
      });
      const hub = driving(on);
      broken = 1;
      run(on, hub, 1);
      expect(on.state.enable).toBe(0);
      expect(on.motors).toEqual([0, 0]);
      // The throttle is still forward: nothing may move.
      run(on, hub, 300, () => expect(on.motors).toEqual([0, 0]));
      expect(hub.failed).toBe(0);
      expect(hub.outputs.state).toBe(State.LOCKED);
      on.state.throttleUs = 1500;
      run(on, hub, 100);
      on.state.throttleUs = 1800;
      run(on, hub, 100);
      expect(on.motors[0]).toBeGreaterThan(100);
    },
  );

  it('writeDrive of one motor throws for good: the other one and the enable are off', () => {
    const on = bench();
    const write = on.ports.writeDrive;
    let broken = false;
    on.ports.writeDrive = (motor, permille) => {
      if (broken && motor === 0) throw new Error('broken');
      write(motor, permille);
    };
    const hub = driving(on);
    broken = true;
    run(on, hub, 200, () => {
      expect(on.motors[1]).toBe(0);
      expect(on.state.enable).toBe(0);
    });
  });

  it('writeBlock throws: driving goes on, the block is in the ring', () => {
    const on = bench();
    breakPort(on.ports, 'writeBlock');
    const hub = driving(on);
    expect(hub.recorder!.done).toBeGreaterThanOrEqual(0);
  });
});

describe('any mix of broken ports', () => {
  it('tick never throws, and every command stays an integer within its limits', () => {
    const faults = fc.dictionary(
      fc.constantFrom(...generic.ports),
      fc.constantFrom('absent', 'throws', 'garbage', 'sometimes'),
    );
    fc.assert(
      fc.property(faults, fc.integer({ min: 1, max: 9 }), (broken, period) => {
        const on = bench();
        const record = on.ports as unknown as Record<string, unknown>;
        let calls = 0;
        for (const [name, how] of Object.entries(broken)) {
          const sound = record[name] as (...values: unknown[]) => unknown;
          if (how === 'absent') delete record[name];
          else if (how !== 'sometimes') breakPort(on.ports, name as keyof Ports, how as 'throws');
          else {
            record[name] = (...values: unknown[]) => {
              calls++;
              if (calls % period === 0) throw new Error('now and then');
              return sound(...values);
            };
          }
        }
        const hub = boot(on.ports, on.constants, 10, 2);
        const writes = !('writeEnable' in broken || 'writeDrive' in broken);
        run(on, hub, 90, () => checkLimits(on, writes));
        on.state.throttleUs = 2000;
        run(on, hub, 60, () => checkLimits(on, writes));
      }),
      { seed: 13, numRuns: 200 },
    );
  });
});

function checkLimits({ motors, state }: Bench, writes: boolean): void {
  for (const permille of [...motors, state.steer]) {
    expect(Number.isInteger(permille) && Math.abs(permille) <= 1000).toBe(true);
  }
  if (writes && state.enable === 0) expect(motors.every((permille) => permille === 0)).toBe(true);
}

describe('the same in the minified bundle', () => {
  it('boots with a few lines of start script, drives, stops when the stick is lost', async () => {
    const { code } = await sampleBundle({ variant: 'full', minify: true });
    const on = bench();
    const context = createContext({ ports: on.ports });
    runInContext(`${code}\nvar hub = axlewright.boot(ports, 20, 3);`, context);
    const hub = (context as unknown as { hub: Hub }).hub;
    run(on, hub, 100);
    on.state.throttleUs = 1800;
    run(on, hub, 100);
    expect(on.motors[0]).toBeGreaterThan(100);
    expect(hub.recorder!.ring.length).toBe(3 * hub.recorder!.blockWords);
    const dump = decodeDump(new Uint8Array(Int32Array.from(hub.recorder!.ring).buffer));
    expect(dump.powerUps).toHaveLength(1);
    const { header } = verifyBundle(code) as { header: BundleHeader };
    expect(hex32(dump.powerUps[0]!.constants)).toBe(header.constants);
    on.state.throttleUs = 0;
    run(on, hub, 60);
    expect(on.motors).toEqual([0, 0]);
    expect(hub.outputs.state).toBe(State.LOCKED);
    expect(READERS).toHaveLength(10);
  });
});
