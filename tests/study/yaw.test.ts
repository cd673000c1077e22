import { beforeAll, describe, expect, test } from 'vitest';
import type { Garage } from '../../harness/setup/load-garage.ts';
import { judgeYaw, SIDESLIP_RESOLUTION, type YawVerdict } from '../../harness/study/judge-yaw.ts';
import { FRICTIONS, planYawDrives } from '../../harness/study/plan-yaw-drives.ts';
import { runYawBend, type YawDrive, type YawResult } from '../../harness/study/run-yaw-bend.ts';
import { studyYaw, yawGarage } from '../../harness/study/study-yaw.ts';
import { yawTable } from '../../harness/study/yaw-table.ts';

/** Bends at and below the limit of grip, one in reverse and one with a driver who looks. */
const SOME = ['power-100-100', 'power-85-100', 'power-50-100', 'reverse-100-100', 'slalom'];
/** The throttle let go in a bend that a driver holds, and at the limit of grip. */
const LIFTED = ['lift-off', 'lift-70-at-2.5'];

describe('a small study of yaw assist: the demo’s hatch, three floors, friction ±25 %', () => {
  let garage: Garage;
  let verdict: YawVerdict;

  beforeAll(async () => {
    garage = await yawGarage();
    const wants = ({ manoeuvre }: { manoeuvre: { name: string } }) =>
      [...SOME, ...LIFTED].includes(manoeuvre.name);
    verdict = judgeYaw(studyYaw(garage, { repeats: 1, seed: 7, wants }));
  });

  test('reaches every goal of the whole study', () => {
    expect(verdict.all.drives).toBe(3 * SOME.length * FRICTIONS.length);
    expect(verdict.stuck.acting).toBeGreaterThan(0);
    expect(verdict.goals.map(({ goal, isMet }) => (isMet ? 'met' : goal))).toEqual(
      Array.from({ length: 3 }, () => 'met'),
    );
  });

  test('is not blind: without yaw assist the balance at full throttle hangs on the floor', () => {
    const full = verdict.rows.find(({ name }) => name === 'power-100-100')!;
    expect(full.spreadWithout).toBeGreaterThan(10);
    expect(full.sideslipWithout).toBeGreaterThan(60);
    expect(full.spreadWith).toBeLessThan(5);
  });

  test('counts sideslip after the throttle was let go, in a bend that a driver holds', () => {
    expect(verdict.lifted.map(({ name, drives, risen }) => [name, drives, risen])).toEqual([
      ['lift-off', 3 * FRICTIONS.length, 0],
    ]);
    expect(verdict.goals[1]!.measured).toContain(
      ` of ${3 * (SOME.length + 1) * FRICTIONS.length} `,
    );
  });

  test('is not blind to a rise of sideslip: a car lifted at the limit is faster by then', () => {
    const [row] = verdict.limit;
    expect(row!.speedWith).toBeGreaterThan(row!.speedWithout);
    expect(row!.worstRise).toBeGreaterThan(1);
  });

  test('plans the drives that are no goal’s after all others, each with draws of its own', () => {
    const bends = planYawDrives(['vinyl', 'carpet'], 2, 9);
    const last = bends.findIndex(({ part }) => part === 'limit');
    expect(bends.slice(last).every(({ part }) => part === 'limit')).toBe(true);
    expect(new Set(bends.map(({ seed }) => seed)).size).toBe(bends.length);
  });

  test('gives the same results from the same seed', () => {
    const [bend] = planYawDrives(['vinyl'], 1, 3);
    expect(runYawBend(garage, bend!)).toEqual(
      runYawBend(garage, planYawDrives(['vinyl'], 1, 3)[0]!),
    );
  });

  test('prints a line a manoeuvre and a line a goal', () => {
    const text = yawTable(verdict);
    for (const name of [...SOME, ...LIFTED, 'all'])
      expect(text).toMatch(new RegExp(`^${name} `, 'm'));
    expect(text.match(/^met {4}/gm)).toHaveLength(3);
  });
});

describe('the judgement', () => {
  const [bend] = planYawDrives(['vinyl'], 1, 1);
  const drives = (balances: (number | undefined)[], sideslip: number): YawDrive[] =>
    balances.map((balance, i) => ({
      friction: FRICTIONS[i]!,
      balance,
      sideslip,
      speed: 2,
      deepest: -100,
      isWhole: true,
    }));
  const result = (change: Partial<YawResult>): YawResult => ({
    bend: bend!,
    without: drives([-5, 0, 1, 2, 5], 20),
    with: drives([0, 0, 1, 2, 5], 20),
    stuck: { atS: 1, friction: 1, before: -50, after: 0, difference: 0 },
    ...change,
  });
  const met = (change: Partial<YawResult>) =>
    judgeYaw([result(change)]).goals.map(({ isMet }) => isMet);

  test('takes half the spread, the same sideslip and no change after 300 ms for reached', () => {
    expect(met({})).toEqual([true, true, true]);
  });

  test('misses each goal alone', () => {
    expect(met({ with: drives([0, 0, 1, 2, 5.1], 20) })).toEqual([false, true, true]);
    const slipped = 20 + SIDESLIP_RESOLUTION + 0.001;
    expect(met({ with: drives([0, 0, 1, 2, 5], slipped) })).toEqual([true, false, true]);
    // So does one that lets go of the throttle in a bend, unless at the limit of grip.
    const further = { with: drives([0, 0, 1, 2, 5], slipped), stuck: undefined };
    const lifted = (part: 'lift' | 'limit') =>
      judgeYaw([result({}), result({ ...further, bend: { ...bend!, part } })]).goals.map(
        ({ isMet }) => isMet,
      );
    expect(lifted('lift')).toEqual([true, false, true]);
    expect(lifted('limit')).toEqual([true, true, true]);
    const stuck = { atS: 1, friction: 1, before: -50, after: 1, difference: 0 };
    expect(met({ stuck })).toEqual([true, true, false]);
    // A gyro that never stuck while there was something to change proves nothing.
    expect(met({ stuck: { ...stuck, before: 0, after: 0 } })).toEqual([true, true, false]);
  });

  test('leaves a bend out of the spread that was never taken', () => {
    const { all } = judgeYaw([result({}), result({ with: drives([undefined, 0, 0, 0, 0], 20) })]);
    expect(all.bends).toBe(1);
    expect(all.drives).toBe(10);
  });
});
