import { expect, test } from 'vitest';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import { loadGarage } from '../../harness/setup/load-garage.ts';
import { setupNotes } from '../../harness/setup/setup-notes.ts';

test.each(['hatch', 'coupe', 'forwarder'])('%s: there is nothing to note', async (car) => {
  const garage = await loadGarage(demoGarage(car));
  expect(setupNotes(garage, garage.setups)).toEqual([]);
});

test('values that look like another unit are noted, in sheet and vehicle', async () => {
  const garage = await loadGarage(demoGarage('hatch'));
  const { vehicle, setups } = garage;
  const vinyl = setups.find(({ name }) => name === 'vinyl')!;
  const sheet = {
    ...vinyl,
    throttle: { ...vinyl.throttle, forwardLimitPercent: 0.6 },
    link: { ...vinyl.link, holdMs: 0.3 },
  };
  const motor = { ...vehicle.motor, gearEfficiencyPercent: 0.85, noLoadCurrentMa: 0.25 };
  const notes = setupNotes({ ...garage, vehicle: { ...vehicle, motor } }, [sheet]);
  expect(notes.map(({ field, cure }) => [field, cure])).toEqual([
    ['motor.noLoadCurrentMa', 'If it was meant as amperes, write 250.'],
    ['motor.gearEfficiencyPercent', 'If it was meant as a share of the whole, write 85.'],
    ['throttle.forwardLimitPercent', 'If it was meant as a share of the whole, write 60.'],
    ['link.holdMs', 'If it was meant as seconds, write 300.'],
  ]);
});

test.each([
  [{ cgToFrontAxleMm: 12 }, 'cgToFrontAxleMm', 'puts 94 % of the weight on the front axle.'],
  [{ cgHeightMm: 380 }, 'cgHeightMm', 'it tips before it slides.'],
  [{ wheelRadiusMm: 0.7 }, 'motor.noLoadSpeedRpm', 'gives a top speed of 0.14 m/s.'],
])('%j makes no likely car, and is noted', async (change, field, message) => {
  const garage = await loadGarage(demoGarage('hatch'));
  const notes = setupNotes({ ...garage, vehicle: { ...garage.vehicle, ...change } }, []);
  expect(notes).toMatchObject([{ field, message: expect.stringContaining(message) }]);
});

test('a motor that is geared down beyond what the core can tell is noted', async () => {
  const garage = await loadGarage(demoGarage('forwarder'));
  const { vehicle } = garage;
  const at = (gearRatio: number) => ({ ...vehicle, motor: { ...vehicle.motor, gearRatio } });
  expect(setupNotes({ ...garage, vehicle: at(95) }, [])).toEqual([]);
  expect(setupNotes({ ...garage, vehicle: at(110) }, [])).toMatchObject([
    { field: 'motor.noLoadSpeedRpm', message: expect.stringContaining('no spin') },
  ]);
  const sensors = { ...vehicle.sensors, current: false };
  const blind = { ...at(110), sensors, motor: { ...at(110).motor, stallTimeMs: 0 } };
  expect(setupNotes({ ...garage, vehicle: blind }, [])).toEqual([]);
});

test.each([
  ['motor', { resistanceOhm: 0.0009 }, 'a stalled motor would draw'],
  ['battery', { internalResistanceOhm: 5 }, 'the pack would lose 9.0 V'],
])('%s %j makes no likely car, and is noted', async (part, change, message) => {
  const garage = await loadGarage(demoGarage('hatch'));
  const { vehicle } = garage;
  const own = part === 'motor' ? vehicle.motor : vehicle.battery;
  const small = { ...vehicle, battery: { ...vehicle.battery, internalResistanceOhm: 0.001 } };
  const changed = { ...small, [part]: { ...own, ...change } };
  const notes = setupNotes({ ...garage, vehicle: changed }, []);
  expect(notes.map((note) => note.message)).toEqual([expect.stringContaining(message)]);
});

test('more grip than a floor bears where it is slippery is noted', async () => {
  const garage = await loadGarage(demoGarage('hatch'));
  const vinyl = garage.setups.find(({ name }) => name === 'vinyl')!;
  const grippy = { ...vinyl, yawAssist: { ...vinyl.yawAssist, gripG: 0.7 } };
  expect(setupNotes(garage, [grippy])).toMatchObject([
    { file: vinyl.file, field: 'yawAssist.gripG', cure: 'Set it to 0.5.' },
  ]);
  const off = { ...grippy, yawAssist: { ...grippy.yawAssist, authorityPercent: 0 } };
  expect(setupNotes(garage, [off])).toEqual([]);
});

test.each([
  [{}, ['motor.heat', 'nothing keeps a winding from burning or stops a stalled motor.']],
  [{ heat: { kind: 'none' } as const }, ['motor.stallTimeMs', 'nothing stops a stalled motor.']],
  [{ heat: { kind: 'none' } as const, stallTimeMs: 500 }, undefined],
  [{ stallTimeMs: 0 }, undefined],
])('%j without current sensors: guards that see nothing are noted', async (change, told) => {
  const garage = await loadGarage(demoGarage('hatch'));
  const { sensors, motor } = garage.vehicle;
  const blind = { ...sensors, current: false };
  const vehicle = { ...garage.vehicle, sensors: blind, motor: { ...motor, ...change } };
  const notes = setupNotes({ ...garage, vehicle }, []);
  const [field, ending] = told ?? [];
  const wanted = { field, message: `works by sensors.current, which is false: ${ending}` };
  expect(notes).toMatchObject(told === undefined ? [] : [wanted]);
});
