import { expect, test } from 'vitest';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import { loadGarage } from '../../harness/setup/load-garage.ts';
import { setupNotes } from '../../harness/setup/setup-notes.ts';

test.each(['hatch', 'coupe', 'forwarder'])('%s: there is nothing to note', async (car) => {
  const garage = await loadGarage(demoGarage(car));
  expect(setupNotes(garage, garage.setups)).toEqual([]);
});

test('percentages that look like fractions are noted, in sheet and vehicle', async () => {
  const garage = await loadGarage(demoGarage('hatch'));
  const { vehicle, setups } = garage;
  const vinyl = setups.find(({ name }) => name === 'vinyl')!;
  const sheet = { ...vinyl, throttle: { ...vinyl.throttle, forwardLimitPercent: 0.6 } };
  const motor = { ...vehicle.motor, gearEfficiencyPercent: 0.85 };
  const notes = setupNotes({ ...garage, vehicle: { ...vehicle, motor } }, [sheet]);
  expect(notes.map(({ field, cure }) => [field, cure])).toEqual([
    ['motor.gearEfficiencyPercent', 'If a share of the whole was meant, write 85.'],
    ['throttle.forwardLimitPercent', 'If a share of the whole was meant, write 60.'],
  ]);
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
