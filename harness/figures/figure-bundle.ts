import { type Constants, constantsCrc, Layout, Reaction, S, V } from '../../lib/index.ts';
import { type Bundle, buildBundle } from '../../targets/build/bundle.ts';
import type { FitName } from '../../targets/build/fit.ts';
import type { ShapeName } from '../../targets/build/shape.ts';
import { generic } from '../../targets/generic/manifest.ts';
import type { Variant } from '../../targets/manifest.ts';
import { demoGarage } from '../demo/create-garage.ts';
import { bake } from '../setup/bake.ts';
import { findSetup, loadGarage } from '../setup/load-garage.ts';
import { headerName } from '../words/header-name.ts';
import { SETUP_SWITCHES } from './setup-switches.ts';

/** What the car of the figures has on board. */
export interface FigureCar {
  /** A car of the demo club; default `hatch`: two motors, every sensor but wheel speed. */
  garage?: 'hatch' | 'coupe' | 'forwarder';
  /** false = the same car without current sensors and gyro. */
  sensors: boolean;
  /** true = two setups whose cross-fade takes as long as the core allows, 10 s. */
  fades: boolean;
  /** What its setups switch off all the same; default nothing. */
  off?: readonly (keyof typeof SETUP_SWITCHES)[];
  /** What the bundle is fitted for; default what `axlewright build` takes for its variant. */
  fit?: FitName;
  /** What it is shaped for; default any engine. */
  shape?: ShapeName;
}

const built = new Map<string, Promise<Bundle>>();

/**
 * The minified bundle of a demo car, every stage on that its sensors and `off` allow; built once,
 * for all figures that ask for it.
 */
export function figureBundle(variant: Variant, car: FigureCar): Promise<Bundle> {
  const key = JSON.stringify([variant, car]);
  const bundle = built.get(key) ?? buildFor(variant, car);
  built.set(key, bundle);
  return bundle;
}

async function buildFor(variant: Variant, car: FigureCar): Promise<Bundle> {
  const { garage: name = 'hatch', fades, shape } = car;
  const { fit = variant === 'core' ? 'constants' : 'vehicle' } = car;
  const garage = await loadGarage(demoGarage(name));
  const others = garage.setups.filter((setup) => setup.name !== 'vinyl');
  const setups = [findSetup(garage, 'vinyl'), ...others.slice(0, fades ? 1 : 0)];
  return buildBundle({
    target: generic,
    variant,
    constants: adapt(bake(garage.vehicle, setups), car),
    setups: setups.map((setup) => headerName(setup.name)),
    minify: true,
    fit,
    ...(shape && { shape }),
  });
}

function adapt(constants: Constants, { sensors, fades, off = [] }: FigureCar): Constants {
  const vehicle = [...constants.vehicle];
  if (!sensors) {
    vehicle[V.HAS_CURRENT] = 0;
    vehicle[V.HAS_GYRO] = 0;
  }
  const setups = constants.setups.map((setup) => {
    const own = [...setup];
    if (fades) own[S.FADE_MS] = 10_000;
    switchOn(own, vehicle);
    for (const one of off) own[SETUP_SWITCHES[one]] = 0;
    return own;
  });
  const adapted = { vehicle, setups, crc: 0 };
  return { ...adapted, crc: constantsCrc(adapted) };
}

/** What each finding does where a setup only reports it: each takes code of its own. */
const REACTIONS: readonly (readonly [finding: number, reaction: Reaction])[] = [
  [S.SPIN_REACTION, Reaction.TRIM],
  [S.FREE_REACTION, Reaction.LIMP],
  [S.JAM_REACTION, Reaction.RAMP],
];

/** Switches on what a setup leaves off although the vehicle could do it, reactions as well. */
function switchOn(setup: number[], vehicle: readonly number[]): void {
  const assists = vehicle[V.HAS_GYRO] === 1 && vehicle[V.LAYOUT] !== Layout.TRACKED;
  if (assists && setup[S.YAW_AUTHORITY] === 0) {
    setup[S.YAW_AUTHORITY] = 100;
    setup[S.YAW_GAIN] = 100;
    setup[S.YAW_INTEGRAL_GAIN] = 200;
  }
  if (vehicle[V.HAS_CURRENT] === 0) return;
  for (const [finding, reaction] of REACTIONS) {
    if (setup[finding]! <= Reaction.REPORT) setup[finding] = reaction;
  }
}
