import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import { coreBundle } from '../../harness/replay/core-bundle.ts';
import { createLimitsAside } from '../../harness/replay/limits-aside.ts';
import { type ReplayOptions, replay } from '../../harness/replay/replay.ts';
import { planReplay } from '../../harness/replay/replay-plan.ts';

const run = join(demoGarage('hatch'), 'runs/hall-evening.csv');
const { constants } = await planReplay(run, {});
const names = constants.setups.map((_, i) => `s${i}`);
const code = await coreBundle(constants, names);

/** The core, but for a motor that is driven too hard in every tick. */
const wild = `${code}
(function (create) {
  axlewright.createController = function (constants) {
    var core = create(constants);
    return { step: function (i, o) { core.step(i, o); o.drive[0] = 1500; } };
  };
})(axlewright.createController);`;

/** The core, but for a tick that throws now and then. */
const thrower = `${code}
(function (create) {
  axlewright.createController = function (constants) {
    var core = create(constants), n = 0;
    return { step: function (i, o) { if (++n % 500 === 0) throw 'gone'; core.step(i, o); } };
  };
})(axlewright.createController);`;

describe('Limits judged in a thread of their own', () => {
  it.each([
    ['a healthy core', code, true],
    ['a core that breaks them', wild, false],
    ['a core that throws', thrower, false],
  ])('say the same as beside the core, of %s', async (_what, bundle, held) => {
    const options: ReplayOptions = { run, read: {}, bundle, constants, engine: 'node' };
    const beside = await replay(options);
    expect(await replay({ ...options, aside: true })).toEqual(beside);
    expect(beside.held).toBe(held);
  });

  it('end the replay with the error that they threw', async () => {
    const aside = createLimitsAside('throw new Error("no such core");', constants);
    const none = new Int32Array();
    await expect(aside.take(none, none, 0)).rejects.toThrow('no such core');
    await aside.dispose();
  });
});

describe('S15 in a replay', () => {
  it.each(['node', 'quickjs'] as const)('is broken by a tick that throws in %s', async (engine) => {
    const { limits } = await replay({ run, read: {}, bundle: thrower, constants, engine });
    const { held, detail } = limits.find(({ id }) => id === 'S15')!;
    expect(held).toBe(false);
    expect(detail).toContain('gone');
  });
});
