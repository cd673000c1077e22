import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  bake,
  createGarage,
  demoGarage,
  findSetup,
  loadGarage,
  packageRoot,
  UserError,
} from 'axlewright';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { unknownName } from '../../harness/setup/load-records.ts';
import { createCrcTable } from '../../lib/crc32.ts';
import { checkConstants } from '../../lib/loader.ts';

const CARS = ['hatch', 'coupe', 'forwarder'];
let parent = '';
let dir = '';

beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), 'axlewright-'));
  dir = join(parent, 'garage');
});

afterEach(() => {
  rmSync(parent, { recursive: true });
});

/** The message of what it throws, the garage's folder written as DIR. */
async function messageOf(work: () => unknown): Promise<string[]> {
  try {
    await work();
  } catch (error) {
    expect(error).toBeInstanceOf(UserError);
    return String(error instanceof Error && error.message)
      .replaceAll(dir, 'DIR')
      .split('\n');
  }
  return [];
}

describe.each(CARS)('the demo garage %s', (name) => {
  test('loads, bakes, and the core takes it', async () => {
    const garage = await loadGarage(demoGarage(name));
    expect(garage.setups.length).toBeGreaterThanOrEqual(2);
    expect(garage.surfaces.map((surface) => surface.name)).toEqual([
      'sports-hall vinyl',
      'low-pile carpet',
      'damp concrete',
    ]);
    const constants = bake(garage.vehicle, garage.setups);
    expect(checkConstants(createCrcTable(), constants)).toBe(true);
  });

  test('is a car that can be: its numbers agree with each other', async () => {
    const { vehicle } = await loadGarage(demoGarage(name));
    const { motor, battery } = vehicle;
    const shaft = (motor.noLoadSpeedRpm * 2 * Math.PI) / 60;
    const speed = ((shaft / motor.gearRatio) * vehicle.wheelRadiusMm) / 1000;
    expect(speed).toBeGreaterThan(vehicle.layout === 'tracked' ? 0.2 : 3);
    expect(speed).toBeLessThan(vehicle.layout === 'tracked' ? 1 : 5);

    const stall = motor.nominalVoltageV / motor.resistanceOhm;
    expect(stall).toBeGreaterThan(2);
    expect(stall).toBeLessThan(10);
    const emf =
      (motor.nominalVoltageV - (motor.noLoadCurrentMa / 1000) * motor.resistanceOhm) / shaft;
    const torque =
      emf *
      (stall - motor.noLoadCurrentMa / 1000) *
      motor.gearRatio *
      (motor.gearEfficiencyPercent / 100);
    // Two motors can at least slip their wheels on friction 0.6.
    const push = (2 * torque) / (vehicle.wheelRadiusMm / 1000);
    expect(push).toBeGreaterThan(0.6 * vehicle.massKg * 9.81 * 0.5);

    // Two lithium cells: at most 4.2 V each, cut off no lower than 3 V each.
    expect(battery.openCircuitV).toBeLessThanOrEqual(8.4);
    expect(battery.cutV).toBeGreaterThanOrEqual(6);
    const inertia = (vehicle.massKg * vehicle.wheelbaseMm ** 2) / 5e6;
    expect(vehicle.yawInertiaKgM2 / inertia).toBeGreaterThan(0.8);
    expect(vehicle.yawInertiaKgM2 / inertia).toBeLessThan(2.5);
  });
});

test('the hatch bears its continuous current for ever, by its two-body heat numbers', async () => {
  const { motor } = (await loadGarage(demoGarage('hatch'))).vehicle;
  const { heat } = motor;
  if (heat.kind !== 'twoBody') throw new Error('the hatch has a two-body model');
  const resistance = 1 / heat.windingToHousingWPerK + 1 / heat.housingToAmbientWPerK;
  const power = (motor.continuousCurrentMa / 1000) ** 2 * motor.resistanceOhm;
  // rise = power (1 + a rise) resistance, solved for the rise.
  const rise = (power * resistance) / (1 - power * resistance * 0.00393);
  expect(rise).toBeLessThan(0.9 * (motor.maxWindingC - motor.ambientC));
  expect(rise).toBeGreaterThan(0.5 * (motor.maxWindingC - motor.ambientC));
});

describe('a new garage', () => {
  test.each(CARS)('%s: every file of the demo, loading without node_modules', async (name) => {
    const files = createGarage(dir, name);
    expect(files).toContain('vehicle.ts');
    for (const file of files) {
      // Not `toEqual`: it goes through a megabyte byte by byte.
      const made = readFileSync(join(dir, file));
      expect(made.equals(readFileSync(join(demoGarage(name), file))), file).toBe(true);
    }
    expect(readdirSync(dir)).toContain('runs');
    const garage = await loadGarage(dir);
    expect(garage.vehicle.file).toBe(join(dir, 'vehicle.ts'));
    expect(garage.setups.map((setup) => setup.file)).toEqual(
      files.filter((file) => file.startsWith('setups')).map((file) => join(dir, file)),
    );
  });

  test('comes from the hatch if nothing is said, and may go into an empty folder', () => {
    mkdirSync(dir);
    createGarage(dir);
    expect(readFileSync(join(dir, 'vehicle.ts'), 'utf8')).toContain("layout: 'pair'");
  });

  test('never overwrites', async () => {
    mkdirSync(dir);
    writeFileSync(join(dir, 'mine.txt'), 'mine');
    expect(await messageOf(() => createGarage(dir))).toEqual([
      'DIR: is not empty; nothing was written. Name a new or an empty folder.',
    ]);
    expect(readdirSync(dir)).toEqual(['mine.txt']);
    const file = join(dir, 'mine.txt');
    expect(await messageOf(() => createGarage(file))).toEqual([
      'DIR/mine.txt: is a file; nothing was written. Name a folder that does not exist yet.',
    ]);
    expect(readFileSync(file, 'utf8')).toBe('mine');
  });

  test('a car the club does not have', async () => {
    expect(await messageOf(() => createGarage(dir, 'hatsch'))).toEqual([
      'DIR: from: found "hatsch", expected "coupe", "forwarder", "hatch". Did you mean "hatch"?',
    ]);
  });
});

describe('what a garage that is not whole gets, word for word', () => {
  test('no such folder', async () => {
    expect(await messageOf(() => loadGarage(dir))).toEqual([
      'DIR: is not a garage folder. "axlewright new DIR" makes one.',
    ]);
  });

  test('a folder of other things', async () => {
    mkdirSync(dir);
    writeFileSync(join(dir, 'run.csv'), '');
    expect(await messageOf(() => loadGarage(dir))).toEqual([
      'DIR: is no garage: found neither vehicle.ts nor surfaces.ts nor setups. Name the garage ' +
        'with --garage; "axlewright new DIR" makes one.',
    ]);
  });

  test('an empty garage: all that is missing, at once', async () => {
    mkdirSync(join(dir, 'setups'), { recursive: true });
    const cure = 'Check the name; "axlewright new DIR" makes a complete garage.';
    expect(await messageOf(() => loadGarage(dir))).toEqual([
      `DIR/vehicle.ts: there is no such file. ${cure}`,
      `DIR/surfaces.ts: there is no such file. ${cure}`,
      'DIR/setups: holds no setup. Write one with defineSetup, or copy one from a garage of ' +
        '"axlewright new".',
    ]);
  });

  test('problems of all files, at once', async () => {
    createGarage(dir);
    const edit = (file: string, from: string, to: string): void => {
      const text = readFileSync(join(dir, file), 'utf8');
      expect(text).toContain(from);
      writeFileSync(join(dir, file), text.replace(from, to));
    };
    edit('vehicle.ts', 'massKg: 1.35', 'massKg: -1.35');
    edit('surfaces.ts', "name: 'damp concrete'", "name: 'low-pile carpet'");
    edit('setups/carpet.ts', 'expoPercent: 25', 'expoPercent: 250');
    edit('setups/vinyl.ts', "name: 'vinyl'", "name: 'concrete'");
    expect(await messageOf(() => loadGarage(dir))).toEqual([
      'DIR/vehicle.ts: massKg: found -1.35, expected 0.02 to 100 (kg). Raise it to 0.02 or more.',
      'DIR/surfaces.ts: surface 3, name: found "low-pile carpet" a second time. Give each ' +
        'surface its own name.',
      'DIR/setups/carpet.ts: throttle.expoPercent: found 250, expected 0 to 100 (%). Lower it to ' +
        '100 or less. Left out, it is 30.',
      'DIR/setups/vinyl.ts: name: found "concrete", the name of DIR/setups/concrete.ts. ' +
        'Give each setup its own name.',
    ]);
  });

  test('a surface that is wrong, and a setup that is and names a wrong one', async () => {
    createGarage(dir);
    writeFileSync(
      join(dir, 'surfaces.ts'),
      `export default [
        { name: 'tiles', source: 'a', friction: 9, frictionLow: 0.5, frictionHigh: 0.9 },
      ];`,
    );
    for (const name of readdirSync(join(dir, 'setups'))) rmSync(join(dir, 'setups', name));
    writeFileSync(
      join(dir, 'setups', 'show.ts'),
      "export default { name: 'show', surface: 'tile', throttle: { expoPercent: 250 } };",
    );
    expect(await messageOf(() => loadGarage(dir))).toEqual([
      'DIR/surfaces.ts: surface "tiles", friction: found 9, expected 0.05 to 2. Lower it to 2 ' +
        'or less.',
      'DIR/setups/show.ts: throttle.expoPercent: found 250, expected 0 to 100 (%). Lower it to ' +
        '100 or less. Left out, it is 30.',
      'DIR/setups/show.ts: surface: found "tile", expected "tiles". Did you mean "tiles"?',
    ]);
  });

  test('a surface without a name has a number', async () => {
    createGarage(dir);
    writeFileSync(
      join(dir, 'surfaces.ts'),
      `export default [
        { name: 'tiles', source: 'a', friction: 0.7, frictionLow: 0.5, frictionHigh: 0.9 },
        { source: 'a', friction: 0.7, frictionLow: 0.5, frictionHigh: 0.9 },
      ];`,
    );
    expect(await messageOf(() => loadGarage(dir))).toEqual([
      'DIR/surfaces.ts: surface 2, name: missing, expected a text of 1 to 40 characters. ' +
        'Add it: Name by which setups refer to this surface.',
    ]);
  });

  test('setups for another vehicle or floor', async () => {
    createGarage(dir);
    writeFileSync(
      join(dir, 'setups', 'show.ts'),
      "export default { name: 'show', surface: 'low-pile carpt', split: { pivotPercent: 50 } };",
    );
    expect(await messageOf(() => loadGarage(dir))).toEqual([
      'DIR/setups/show.ts: surface: found "low-pile carpt", expected "sports-hall vinyl", ' +
        '"low-pile carpet", "damp concrete". Did you mean "low-pile carpet"?',
      'DIR/setups/show.ts: split.pivotPercent: found 50 %, but the vehicle\'s layout is "pair", ' +
        'expected 0 unless the layout is "tracked". Remove it: ' +
        'a wheeled car does not turn on the spot.',
    ]);
  });

  test.each(['export default {};', 'export default [];'])('surfaces: %s', async (text) => {
    createGarage(dir);
    writeFileSync(join(dir, 'surfaces.ts'), text);
    expect(await messageOf(() => loadGarage(dir))).toEqual([
      'DIR/surfaces.ts: the default export is not a list of surfaces. Write "export default ' +
        '[defineSurface({ ... }), ...]".',
    ]);
  });

  test('a setup of another name', async () => {
    createGarage(dir);
    const garage = await loadGarage(dir);
    expect(findSetup(garage, 'vinyl').surface).toBe('sports-hall vinyl');
    expect(await messageOf(() => findSetup(garage, 'vynil'))).toEqual([
      'DIR: setup: found "vynil", expected "carpet", "concrete", "vinyl". Did you mean "vinyl"?',
    ]);
  });

  test('a setup by its file, two in one word, a file in place of the folder', async () => {
    createGarage(dir);
    const garage = await loadGarage(dir);
    const known = 'expected "carpet", "concrete", "vinyl".';
    expect(await messageOf(() => findSetup(garage, 'setups/vinyl.ts'))).toEqual([
      `DIR: setup: found "setups/vinyl.ts", ${known} Its name is "vinyl", as ` +
        'DIR/setups/vinyl.ts says.',
    ]);
    expect(await messageOf(() => findSetup(garage, 'vinyl,carpet'))).toEqual([
      `DIR: setup: found "vinyl,carpet", ${known} Put spaces between names: vinyl carpet.`,
    ]);
    expect(await messageOf(() => loadGarage(join(dir, 'vehicle.ts')))).toEqual([
      'DIR/vehicle.ts: is not a garage folder. Name the folder that holds vehicle.ts, such as DIR.',
    ]);
    expect(unknownName('f', 'surface', 'vinyl', ['sports-hall vinyl', 'carpet']).cure).toBe(
      'Did you mean "sports-hall vinyl"?',
    );
  });
});

test('a garage lists its runs by name, and may be written in JavaScript', async () => {
  createGarage(dir);
  for (const name of ['vehicle', 'surfaces']) {
    writeFileSync(join(dir, `${name}.js`), readFileSync(join(dir, `${name}.ts`), 'utf8'));
    rmSync(join(dir, `${name}.ts`));
  }
  rmSync(join(dir, 'runs'), { recursive: true });
  expect((await loadGarage(dir)).runs).toEqual([]);
  mkdirSync(join(dir, 'runs'));
  for (const name of ['b.csv', 'a.csv', 'a.csv-metadata.json']) {
    writeFileSync(join(dir, 'runs', name), '');
  }
  const garage = await loadGarage(dir);
  expect(garage.runs).toEqual([join(dir, 'runs', 'a.csv'), join(dir, 'runs', 'b.csv')]);
  expect(garage.vehicle.file).toBe(join(dir, 'vehicle.js'));
});

test('the package finds its own folder', () => {
  const manifest = JSON.parse(readFileSync(join(packageRoot(), 'package.json'), 'utf8'));
  expect(manifest.name).toBe('axlewright');
});
