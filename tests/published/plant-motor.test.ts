import { describe, expect, test } from 'vitest';
import { drainBattery } from '../../harness/plant/drain-battery.ts';
import { warmResistance } from '../../harness/plant/drive-motors.ts';
import { createFrame } from '../../harness/plant/frame.ts';
import { createPlant } from '../../harness/plant/plant.ts';
import { DRAWN, OPEN_CIRCUIT, SLOW_VOLTAGE, TERMINAL_VOLTAGE } from '../../harness/plant/state.ts';
import { warm } from '../../harness/plant/warm-motors.ts';
import { bareBattery, bareMotor, onStand } from '../plant/stand.ts';
import published from './motor.json' with { type: 'json' };

describe('PM DC motor, Modelica Standard Library: 100 V, 100 A, 1425 rpm, 63.66 N m, 95 %', () => {
  const { computed } = published.modelica_dcpm;
  const motor = bareMotor({ constant: computed.k_Nm_per_A, resistance: 0.05, inertia: 0.15 });
  const nominal = (1425 * 2 * Math.PI) / 60;

  test('current, torque, power and efficiency at the nominal point', () => {
    const plant = createPlant(onStand(motor, bareBattery(100)));
    plant.place({ x: 0, y: 0, yaw: 0, speed: nominal * 0.031 });
    plant.step([1000, 0, 0, 0], 1, 0, 1e-9);
    const current = plant.state.current[0]!;
    const torque = current * motor.constant;
    expect(current).toBeCloseTo(100, 6);
    expect(torque).toBeCloseTo(computed.torque, 6);
    expect(Math.abs(torque - published.modelica_dcpm.published.torque)).toBeLessThan(0.01);
    expect(torque * nominal).toBeCloseTo(computed.P, 4);
    expect((torque * nominal) / (100 * current)).toBeCloseTo(computed.eta, 9);
  });

  test('stall current and torque, no-load speed, mechanical time constant', () => {
    const plant = createPlant(onStand(motor, bareBattery(100)));
    const drive = [1000, 1000, 1000, 1000];
    plant.step(drive, 1, 0, 1e-9);
    expect(plant.state.current[0]! / computed.stall_current).toBeCloseTo(1, 6);
    expect((plant.state.current[0]! * motor.constant) / computed.stall_torque).toBeCloseTo(1, 6);
    const dt = computed.tau_mech / 200;
    const noLoad = (computed.no_load_rpm * 2 * Math.PI) / 60;
    for (let i = 0; i < 200; i++) plant.step(drive, 1, 0, dt);
    expect(plant.state.speeds[4]! / noLoad).toBeCloseTo(1 - Math.exp(-1), 4);
    for (let i = 0; i < 4000; i++) plant.step(drive, 1, 0, dt);
    expect(plant.state.speeds[4]! / noLoad).toBeCloseTo(1, 6);
  });

  test('electrical time constant with its inductance, the shaft held', () => {
    const plant = createPlant(onStand({ ...motor, inductance: 0.0015 }, bareBattery(100)));
    plant.setFaults([0, 1, 2, 3].map((wheel) => ({ kind: 'jammedWheel', wheel })));
    for (let i = 0; i < 100; i++) plant.step([1000, 0, 0, 0], 1, 0, computed.tau_elec / 100);
    expect(plant.state.current[0]! / computed.stall_current).toBeCloseTo(1 - Math.exp(-1), 4);
  });

  test('greatest power at half the no-load speed, V^2 / (4 R)', () => {
    const plant = createPlant(onStand(motor, bareBattery(100)));
    const half = (computed.no_load_rpm * Math.PI) / 60;
    plant.place({ x: 0, y: 0, yaw: 0, speed: half * 0.031 });
    plant.step([1000, 0, 0, 0], 1, 0, 1e-9);
    expect(plant.state.current[0]! * motor.constant * half).toBeCloseTo(computed.P_max, 3);
  });
});

describe('two-body heat of the Modelica Standard Library’s example motor', () => {
  test('winding and core temperatures over 7200 s within 0.02 K', () => {
    const heat = {
      winding: 2500,
      housing: 25_000,
      windingToHousing: 10,
      housingToAmbient: 25,
      ambientC: 20,
      startC: 20,
      referenceC: 95,
      coefficient: 3.03e-3,
    };
    const frame = createFrame(onStand(bareMotor({ resistance: 1, heat }), bareBattery(1)), false);
    const { winding, housing } = frame.state;
    winding[0] = 20;
    housing[0] = 20;
    const dt = 0.1;
    frame.span[0] = dt;
    frame.power.rubbing[0] = 500;
    for (let i = 1; i <= 72_000; i++) {
      const loss = (i - 1) % 6000 < 3600 ? 100 : 1000;
      warmResistance(frame, 0);
      frame.power.copper[0] = loss * frame.power.resistance[0]!;
      warm(frame, 0);
      const expected = published.thermal_two_body_modelica.degC;
      const row = expected[String(Math.round(i * dt)) as keyof typeof expected];
      if (i % 10 !== 0 || row === undefined) continue;
      expect(Math.abs(winding[0]! - row[0]!)).toBeLessThan(0.02);
      expect(Math.abs(housing[0]! - row[1]!)).toBeLessThan(0.02);
    }
    expect.assertions(2 * Object.keys(published.thermal_two_body_modelica.degC).length);
  });

  test('copper: resistance at 120 °C over that at 25 °C', () => {
    const { T, R_ratio_from_25: ratio } = published.i2t.copper.R_at;
    // The printed ratio belongs to 0.0039 1/K at 25 °C, not to the 0.00393 at 20 °C beside it.
    const heat = { ...bareMotor({}).heat, referenceC: 25, coefficient: 0.0039 };
    const frame = createFrame(onStand(bareMotor({ resistance: 1, heat }), bareBattery(1)), false);
    frame.state.winding[0] = T;
    warmResistance(frame, 0);
    expect(frame.power.resistance[0]).toBeCloseTo(ratio, 10);
  });
});

describe('battery', () => {
  test.each([
    { amperes: 9, volts: published.battery_sag.worked_example.computed['3C'] },
    { amperes: 15, volts: published.battery_sag.worked_example.computed['5C'] },
  ])('worked example of sag: 3.7 V, 50 mohm, $amperes A give $volts V', ({ amperes, volts }) => {
    const motor = bareMotor({ resistance: volts / amperes });
    const plant = createPlant(onStand(motor, { ...bareBattery(3.7), resistance: 0.05 }));
    plant.step([1000, 0, 0, 0], 1, 0, 1e-9);
    expect(plant.state.current[0]).toBeCloseTo(amperes, 6);
    expect(plant.state.battery[TERMINAL_VOLTAGE]).toBeCloseTo(volts, 6);
  });

  test('one RC: pulses of +10, 0, -10, 0, 5 A follow the closed form (Plett, BMS vol. 1)', () => {
    // The source's constants are not printed; these follow from four of its nine values.
    const battery = { ...bareBattery(3.6), resistance: 0.015, slowResistance: 0.008, slowTime: 12 };
    const frame = createFrame(onStand(bareMotor({}), battery), false);
    const state = frame.state.battery;
    const dt = 0.01;
    frame.span[0] = dt;
    const pulse = (t: number) => (t < 10 ? 10 : t < 70 ? 0 : t < 80 ? -10 : t < 140 ? 0 : 5);
    for (let i = 1; i <= 15_000; i++) {
      state[DRAWN] = pulse((i - 0.5) * dt);
      drainBattery(frame);
      const values = published.battery_thevenin_1rc.V;
      const expected = values[String(i * dt) as keyof typeof values];
      if (expected === undefined) continue;
      const voltage =
        state[OPEN_CIRCUIT]! - battery.resistance * state[DRAWN]! - state[SLOW_VOLTAGE]!;
      expect(Math.abs(voltage - expected)).toBeLessThan(3e-5);
    }
    expect.assertions(Object.keys(published.battery_thevenin_1rc.V).length);
  });

  test('greatest power into a load is V^2 / (4 R), at half the voltage', () => {
    const motor = bareMotor({ resistance: 0.05 });
    const plant = createPlant(onStand(motor, { ...bareBattery(8), resistance: 0.05 }));
    plant.step([1000, 0, 0, 0], 1, 0, 1e-9);
    expect(plant.state.battery[TERMINAL_VOLTAGE]).toBeCloseTo(4, 9);
    expect(4 * plant.state.current[0]!).toBeCloseTo(8 ** 2 / (4 * 0.05), 6);
  });
});
