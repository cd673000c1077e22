import { demoGarage } from '../demo/create-garage.ts';
import { type Garage, loadGarage } from '../setup/load-garage.ts';
import type { StudyGarage } from './plan-drives.ts';

/** Names of the demo garages; the coupe drives with current sensors that it does not have. */
const NAMES = ['coupe', 'forwarder', 'hatch'] as const;

/** The demo garages with current sensors in every vehicle, and findings that only report. */
export async function loadStudyGarages(): Promise<Map<string, Garage>> {
  const entries = await Promise.all(
    NAMES.map(async (name) => [name, onlyReports(await loadGarage(demoGarage(name)))] as const),
  );
  return new Map(entries);
}

/** What the study draws from. */
export function studyGarage(name: string, { vehicle, setups, surfaces }: Garage): StudyGarage {
  const { battery, motor } = vehicle;
  return {
    name,
    setups: setups.map((setup) => setup.name),
    surfaces: surfaces.map((surface) => ({
      name: surface.name,
      least: surface.frictionLow / surface.friction,
      most: surface.frictionHigh / surface.friction,
    })),
    layout: vehicle.layout,
    isAveraged: vehicle.frontDrive === 'averaged',
    rangeMa: Math.round(RANGE * 1000 * (battery.openCircuitV / motor.resistanceOhm)),
    startC: motor.startWindingC,
  };
}

/** Range of the current sensors over the current of a cold motor held still. */
const RANGE = 1.3;

/** Of a vehicle that sees no stall by itself, ms. */
const STALL_MS = 500;

/**
 * Reactions would change the drive, and with it what is to be found. So would yaw assist, which
 * heeds the speed: each core would drive in its own way, while all are to judge the same drive.
 */
function onlyReports(garage: Garage): Garage {
  const { sensors, motor } = garage.vehicle;
  const vehicle = {
    ...garage.vehicle,
    sensors: { ...sensors, current: true },
    motor: { ...motor, stallTimeMs: motor.stallTimeMs || STALL_MS },
  };
  const setups = garage.setups.map((setup) => {
    const { spin, free, jam } = setup.traction;
    const report = { reaction: 'report' as const };
    const findings = {
      spin: { ...spin, ...report },
      free: { ...free, ...report },
      jam: { ...jam, ...report },
    };
    const yawAssist = { ...setup.yawAssist, authorityPercent: 0 };
    return { ...setup, yawAssist, traction: { ...setup.traction, ...findings } };
  });
  return { ...garage, vehicle, setups };
}
