import type { Constants } from '../../lib/index.ts';
import { createProblemGatherer } from '../gather-problems.ts';
import { findManoeuvre } from '../manoeuvres/find-manoeuvre.ts';
import type { Manoeuvre, ManoeuvreCar } from '../manoeuvres/manoeuvre.ts';
import { describePlant, describeSurface } from '../plant/describe-plant.ts';
import { splitGround } from '../plant/ground.ts';
import type { PlantDescription } from '../plant/plant-description.ts';
import { type PlantVariation, varyPlant } from '../plant/vary-plant.ts';
import { formatProblem, UserError } from '../problems.ts';
import { bake } from '../setup/bake.ts';
import { chooseSetups } from '../setup/choose-setups.ts';
import { radians } from '../setup/geometry.ts';
import { type Garage, loadGarage } from '../setup/load-garage.ts';
import { unknownName } from '../setup/load-records.ts';
import type { LoadedSetup, Surface } from '../setup/records.ts';
import { setupNotes } from '../setup/setup-notes.ts';
import { checkVehicle } from './check-vehicle.ts';
import { describeCar } from './describe-car.ts';
import { SETUP_STYLES } from './drive-panels.ts';
import type { FaultSpan, SimulatedFault } from './fault-span.ts';
import { parseFaults } from './parse-faults.ts';

/** Wishes of the user; all but the garage may be left out. */
export interface SimulationWishes {
  garage: string;
  /** Setups to drive with, each in a drive of its own. */
  setup?: readonly string[];
  /** Name of a surface of the garage; `left / right` for a floor split along the way. */
  surface?: string;
  manoeuvre?: string;
  /** As `parseFaults` reads them. */
  fault?: readonly string[];
  seed?: number;
  /** How the vehicle that drives differs from the one that the core is baked for. */
  variation?: PlantVariation;
}

/** What is to be simulated. */
export interface SimulationPlan {
  vehicle: string;
  surface: string;
  manoeuvre: Manoeuvre;
  /** The vehicle that drives, with its variation. */
  plant: PlantDescription;
  /** What the manoeuvre is told: the vehicle on paper. */
  car: ManoeuvreCar;
  /** What the core is baked with: the vehicle on paper. */
  setups: { name: string; constants: Constants }[];
  faults: FaultSpan[];
  /** What is allowed in the setups, but hardly meant. */
  notes: string[];
  seed: number;
}

/** The drive by which a split is set. */
const FIRST_MANOEUVRE = 'launch-circle';

/**
 * Decides what to simulate. Without a setup: the first that is meant for the surface, or the first
 * of the garage; without a surface: the one the setup is meant for.
 *
 * @throws UserError if garage or wishes do not fit, or the vehicle cannot drive the manoeuvre
 */
export async function planSimulation({
  garage,
  ...wishes
}: SimulationWishes): Promise<SimulationPlan> {
  return planInGarage(await loadGarage(garage), wishes);
}

/** The same in a garage that is loaded already, for many drives. */
export function planInGarage(
  garage: Garage,
  wishes: Omit<SimulationWishes, 'garage'>,
): SimulationPlan {
  const { manoeuvre, setups, surface, onPaper } = findWishes(garage, wishes);
  checkVehicle(garage.vehicle.file, onPaper);
  const { layout, steeringLockDeg } = garage.vehicle;
  const car = describeCar(onPaper, layout, radians(steeringLockDeg));
  const plant = wishes.variation === undefined ? onPaper : varyPlant(onPaper, wishes.variation);
  refuseManoeuvre(garage, manoeuvre, car);
  const seed = wishes.seed ?? 1;
  const faults = parseFaults(wishes.fault ?? [], plant, manoeuvre.durationS(car), seed);
  return {
    vehicle: garage.vehicle.name,
    surface,
    manoeuvre,
    plant,
    car,
    setups: setups.map((setup) => ({ name: setup.name, constants: bake(garage.vehicle, [setup]) })),
    faults,
    notes: [
      ...setupNotes(garage, setups).map(formatProblem),
      ...(wishes.surface === undefined ? strangers(setups, surface) : []),
      ...(manoeuvre.kind === 'pivot' ? unturned(setups) : []),
      ...unguarded(garage, [
        ...(manoeuvre.faults?.(car) ?? []).flatMap((change) => change.faults),
        ...faults.map(({ fault }) => fault),
      ]),
    ],
    seed,
  };
}

/** What the wishes name; all that is not there is told at once. */
function findWishes(garage: Garage, wishes: Omit<SimulationWishes, 'garage'>) {
  const gatherer = createProblemGatherer();
  const manoeuvre = gatherer.take(() => findManoeuvre(wishes.manoeuvre ?? FIRST_MANOEUVRE));
  const setups = gatherer.take(() => {
    const names = wishes.setup ?? [firstSetup(garage, wishes.surface)];
    refuseCrowd(garage, names);
    return chooseSetups(garage, names);
  });
  const surface = wishes.surface ?? setups?.[0]?.surface;
  const onPaper =
    surface === undefined ? undefined : gatherer.take(() => onSurface(garage, surface));
  gatherer.tell();
  return { manoeuvre: manoeuvre!, setups: setups!, surface: surface!, onPaper: onPaper! };
}

/** Setups that drive on the floor of the first although they are meant for another. */
function strangers(setups: readonly LoadedSetup[], surface: string): string[] {
  return setups
    .filter((setup) => setup.surface !== surface)
    .map(({ name, surface: own }) => `${name} is meant for ${own}, here it drives on ${surface}.`);
}

/** Setups that turn no vehicle on the spot. */
function unturned(setups: readonly LoadedSetup[]): string[] {
  return setups
    .filter(({ split }) => split.pivotPercent === 0)
    .map(({ name }) => `${name} does not turn on the spot: its split.pivotPercent is 0.`);
}

/** That nothing keeps a stalled motor from burning, where one is to be stalled. */
function unguarded({ vehicle }: Garage, faults: readonly SimulatedFault[]): string[] {
  if (vehicle.sensors.current || !faults.some(({ kind }) => kind === 'jammedWheel')) return [];
  return [
    `${vehicle.name} has no current sensors: no safety limit guards a motor that is held fast, ` +
      'and nothing tells of it.',
  ];
}

function firstSetup({ setups }: Garage, surface: string | undefined): string {
  const meant = setups.find((setup) => setup.surface === surface);
  return (meant ?? setups[0]!).name;
}

function refuseCrowd(garage: Garage, names: readonly string[]): void {
  const most = SETUP_STYLES.length;
  if (names.length <= most) return;
  const message = `found ${names.length} setups, expected at most ${most}.`;
  const cure = 'More lines in one chart cannot be told apart; simulate them in turns.';
  throw new UserError([{ file: garage.dir, field: '--setup', message, cure }]);
}

function onSurface(garage: Garage, name: string): PlantDescription {
  const [left, right, ...more] = name.split('/').map((part) => part.trim());
  if (right === undefined || garage.surfaces.some((each) => each.name === name))
    return describePlant(garage.vehicle, findSurface(garage, name));
  if (more.length > 0) {
    const message = `found ${more.length + 2} floors, expected one, or two with a slash between.`;
    throw new UserError([{ file: garage.dir, field: '--surface', message }]);
  }
  const [onLeft, onRight] = [findSurface(garage, left!), findSurface(garage, right)];
  const ground = splitGround(describeSurface(onLeft), describeSurface(onRight));
  return { ...describePlant(garage.vehicle, onLeft), ground };
}

function findSurface(garage: Garage, name: string): Surface {
  const surface = garage.surfaces.find((each) => each.name === name);
  if (surface) return surface;
  const known = garage.surfaces.map((each) => each.name);
  throw new UserError([unknownName(garage.dir, '--surface', name, known)]);
}

function refuseManoeuvre(garage: Garage, manoeuvre: Manoeuvre, car: ManoeuvreCar): void {
  const message = manoeuvre.refuses?.(car);
  if (message === undefined) return;
  const cure = 'Choose another one: "axlewright simulate --list" names them all.';
  throw new UserError([
    { file: garage.vehicle.file, field: `--manoeuvre ${manoeuvre.name}`, message, cure },
  ]);
}
