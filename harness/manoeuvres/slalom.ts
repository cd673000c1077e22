import { createCruise, settleTime, settleWay } from './cruise.ts';
import { createFollow, type Path } from './follow.ts';
import type { Gate, Manoeuvre, ManoeuvreCar } from './manoeuvre.ts';
import { FREE_FALL, FULL_LENGTH, needsSteering } from './sizes.ts';

/** Full-size spacing of the cones, m; how many there are. */
const SPACING = 18;
const CONES = 6;
/** Width of the wave and radius of a cone, in widths of the vehicle. */
const SWING = 0.9;
const CONE = 0.1;
/** Share of the grip used; how far the driver looks ahead, in wheelbases. */
const GRIP = 0.5;
const AHEAD = 1.5;

/** Left and right round a row of cones. */
export const slalom: Manoeuvre = {
  name: 'slalom',
  title: 'Slalom round six cones',
  source:
    'Common practice, no source. Full-size cones 18 m apart, scaled with length over 4.5 m; a ' +
    'wave of 0.9 widths to either side at the speed that uses half the grip; cones 0.2 widths ' +
    'thick.',
  meaning: 'Whether the car changes from left to right in time, and how much room it needs.',
  headline: ['courseMargin', 'sideslip', 'lateralAcceleration', 'entrySpeed'],
  kind: 'bend',
  refuses: needsSteering,
  actionS: runUpS,
  durationS: (car) => runUpS(car) + ((CONES + 2) * spacing(car)) / speedOf(car),
  course: (car) => Array.from({ length: CONES }, (_, i) => gate(car, i)),
  createDriver: (car) => {
    const cruise = createCruise(car);
    const follow = createFollow(car, slalomPath(car), AHEAD * car.wheelbase, 0);
    const speed = speedOf(car);
    return {
      drive: (view, sticks) => {
        cruise.keep(speed, view);
        follow.watch(view);
        sticks.throttle = cruise.throttle;
        sticks.steer = follow.steer;
        sticks.linkUp = true;
      },
    };
  },
};

/** A wave with its crests at the cones, the first one passed on its left. */
function slalomPath(car: ManoeuvreCar): Path {
  const step = spacing(car);
  const first = firstCone(car);
  const last = first + (CONES - 1) * step;
  const swing = SWING * car.width;
  const atEnd = CONES % 2 === 0 ? -swing : swing;
  return {
    offset: (x, y) => {
      const phase = (Math.PI * (x - first)) / step;
      let line = swing * Math.cos(phase);
      if (x <= first - step || x >= last + step) line = 0;
      else if (x < first) line = (swing / 2) * (1 + Math.cos(phase));
      else if (x > last) line = (atEnd / 2) * (1 + Math.cos((Math.PI * (x - last)) / step));
      return line - y;
    },
  };
}

function gate(car: ManoeuvreCar, index: number): Gate {
  const x = firstCone(car) + index * spacing(car);
  const radius = CONE * car.width;
  const isLeft = index % 2 === 0;
  return {
    fromX: x - radius,
    toX: x + radius,
    right: isLeft ? radius : -Infinity,
    left: isLeft ? Infinity : -radius,
  };
}

function spacing(car: ManoeuvreCar): number {
  return (SPACING * car.length) / FULL_LENGTH;
}

/** A wave of that width needs v² (pi / spacing)² x width of lateral acceleration. */
function speedOf(car: ManoeuvreCar): number {
  const grip = Math.sqrt((GRIP * car.friction * FREE_FALL) / (SWING * car.width));
  return Math.min((grip * spacing(car)) / Math.PI, 0.7 * car.topSpeed);
}

function runUpS(car: ManoeuvreCar): number {
  return settleTime(car, speedOf(car));
}

/** A spacing after the run-up has ended. */
function firstCone(car: ManoeuvreCar): number {
  return settleWay(car, speedOf(car)) + spacing(car);
}
