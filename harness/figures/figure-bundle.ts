import { type Constants, constantsCrc, S, V } from '../../lib/index.ts';
import { type Bundle, buildBundle } from '../../targets/build/bundle.ts';
import { generic } from '../../targets/generic/manifest.ts';
import type { Variant } from '../../targets/manifest.ts';
import { demoGarage } from '../demo/create-garage.ts';
import { bake } from '../setup/bake.ts';
import { findSetup, loadGarage } from '../setup/load-garage.ts';
import { headerName } from '../words/header-name.ts';

/** What the car of the figures has on board. */
export interface FigureCar {
  /** false = the same car without current sensors and gyro. */
  sensors: boolean;
  /** true = two setups whose cross-fade takes as long as the core allows, 10 s. */
  fades: boolean;
}

/** Setups of the demo hatch that the figures take. */
const SETUPS = ['vinyl', 'carpet'] as const;

/** The minified bundle of the demo hatch: two motors, every sensor, two-body heat. */
export async function figureBundle(variant: Variant, car: FigureCar): Promise<Bundle> {
  const garage = await loadGarage(demoGarage('hatch'));
  const names = car.fades ? SETUPS : SETUPS.slice(0, 1);
  const constants = adapt(
    bake(
      garage.vehicle,
      names.map((name) => findSetup(garage, name)),
    ),
    car,
  );
  const setups = names.map(headerName);
  return buildBundle({ target: generic, variant, constants, setups, minify: true });
}

function adapt(constants: Constants, { sensors, fades }: FigureCar): Constants {
  const vehicle = [...constants.vehicle];
  if (!sensors) {
    vehicle[V.HAS_CURRENT] = 0;
    vehicle[V.HAS_GYRO] = 0;
  }
  const setups = constants.setups.map((setup) => {
    const own = [...setup];
    if (fades) own[S.FADE_MS] = 10_000;
    return own;
  });
  const adapted = { vehicle, setups, crc: 0 };
  return { ...adapted, crc: constantsCrc(adapted) };
}
