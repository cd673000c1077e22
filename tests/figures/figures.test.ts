import { describe, expect, it } from 'vitest';
import { withScriptFile } from '../../harness/engines/command-engine.ts';
import { nodeEngine } from '../../harness/engines/node-engine.ts';
import { bytesByPart } from '../../harness/figures/bundle-bytes.ts';
import { missesGoal } from '../../harness/figures/figure.ts';
import { figureBundle } from '../../harness/figures/figure-bundle.ts';
import { heapGrowthOf } from '../../harness/figures/heap-growth.ts';
import { figureTable } from '../../harness/figures/table.ts';
import { tickScript } from '../../harness/figures/tick-script.ts';
import { countInstructions } from '../../harness/figures/valgrind.ts';
import { Flag, State } from '../../lib/index.ts';
import { need } from '../needs.ts';

const valgrind = need('valgrind');
const duk = need('duk');
const mujs = need('mujs');

describe('bytes', () => {
  it('the parts of the core add up to its size', async () => {
    const [total, ...parts] = await bytesByPart('core');
    expect(total!.most).toBe(10240);
    expect(parts.length).toBeGreaterThan(10);
    expect(parts.reduce((sum, { value }) => sum + value!, 0)).toBe(total!.value);
  });
});

describe('the measured tick', async () => {
  const steady = await figureBundle('core', { sensors: true, fades: false });
  const fading = await figureBundle('core', { sensors: true, fades: true });

  it.each([
    ['drives', steady, false, 0],
    ['drives and cross-fades at its end, however long', fading, true, Flag.FADING],
  ] as const)('%s', async (_what, { code }, fades, flag) => {
    for (const ticks of [100, 950, 1900, 5000]) {
      const script = tickScript({ bundle: code, ticks, steps: true, fades });
      const [state, flags] = (await nodeEngine.run(script)).split(' ').map(Number);
      expect(state, `${ticks} ticks`).toBe(State.DRIVING);
      expect(flags! & Flag.FADING, `${ticks} ticks`).toBe(flag);
    }
  });

  it('costs instructions in proportion to its ticks', async () => {
    if (valgrind === null || duk === null) return;
    const { code } = steady;
    const count = async (ticks: number) => {
      const script = tickScript({ bundle: code, ticks, steps: true, fades: false });
      const { count, printed } = await withScriptFile(script, (file) =>
        countInstructions('duk', [file]),
      );
      expect(printed).toMatch(/^2 \d+\n$/);
      return count;
    };
    const [base, once, twice] = await Promise.all([count(50), count(100), count(150)]);
    const perTick = (once - base) / 50;
    expect(perTick).toBeGreaterThan(1000);
    expect((twice - once) / 50 / perTick).toBeGreaterThan(0.8);
    expect((twice - once) / 50 / perTick).toBeLessThan(1.25);
  });
});

describe('heap growth', () => {
  it('is seen on every engine, when a program keeps a record each tick', async () => {
    const leaky = `var axlewright = {}, kept = [];
      function keep(inputs, outputs) { kept.push({ at: kept.length }); outputs.state = 2; }
      axlewright.createController = function () { return { step: keep }; };
      axlewright.createInputs = function () { return { currentMa: [0, 0] }; };
      axlewright.createOutputs = function () { return { state: 0, flags: 0 }; };
      axlewright.boot = function () {
        return { tick: function () { if (kept.length < 300000) keep(0, {}); } };
      };`;
    const growth = (await heapGrowthOf(leaky, 100_000)).filter(
      ({ what }) => what === 'heap growth a tick',
    );
    expect(growth.map(({ where }) => where)).toEqual(['node', 'quickjs', 'duktape', 'mujs']);
    for (const { where, value, note } of growth) {
      if (value === null) {
        expect(valgrind === null || (where === 'mujs' ? mujs : duk) === null, note).toBe(true);
      } else {
        expect(value, where).toBeGreaterThan(8);
      }
    }
  });
});

describe('the table', () => {
  it('says which goals are missed, above or below, and what was not measured', () => {
    const base = { what: 'w', where: 'e', unit: 'u' };
    const above = { ...base, value: 11, most: 10 };
    const below = { ...base, value: 9, least: 10 };
    const met = { ...base, value: 10, most: 10, least: 10 };
    const none = { ...base, value: null, most: 10, note: 'no such engine' };
    expect([above, below, met, none].map(missesGoal)).toEqual([true, true, false, false]);
    const table = figureTable([above, below, met, none]);
    expect(table).toContain('≤ 10, MISSED');
    expect(table).toContain('≥ 10, MISSED');
    expect(table).toContain('not measured');
    expect(table).toContain('(1) no such engine');
  });
});
