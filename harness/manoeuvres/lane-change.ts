import { createCruise, settleTime, settleWay } from './cruise.ts';
import { createFollow, type Path } from './follow.ts';
import type { Gate, Manoeuvre, ManoeuvreCar } from './manoeuvre.ts';
import { FULL_LENGTH, FULL_WIDTH, needsSteering, scaledSpeed } from './sizes.ts';

/** Full-size lengths of the five sections, m. */
const SECTIONS = [12, 13.5, 11, 12.5, 12] as const;
/** Full-size way after the entry at which the speed counts and the foot holds still, m. */
const ENTRY = 2;
/** Full-size entry speed, 40 km/h in m/s, on a road of this friction. */
const SPEED = 40 / 3.6;
const ROAD = 0.9;
/** Full-size way the driver looks ahead, m; how far a swerve reaches into a lane, of its length. */
const AHEAD = 5;
const EASE = 0.2;

/** Round an obstacle and back. */
export const laneChange: Manoeuvre = {
  name: 'lane-change',
  title: 'Obstacle avoidance, double lane change',
  source:
    'ISO 3888-2:2011 (from memory; that first and last lane share their right edge is an ' +
    'assumption). Lengths scaled with the vehicle’s length over 4.5 m; lanes in widths of the ' +
    'vehicle, their fixed parts scaled with width over 1.8 m; entry at 40 km/h, scaled so that ' +
    'the swerve takes the same share of the grip as with a full-size car on friction 0.9, at ' +
    'most 70 % of top speed. The throttle stick is held from the entry on, ' +
    'since letting it go brakes a model.',
  meaning: 'Whether the car gets round an obstacle and back without leaving its lanes or spinning.',
  headline: ['courseMargin', 'sideslip', 'entrySpeed', 'lateralAcceleration'],
  kind: 'bend',
  refuses: needsSteering,
  actionS: (car) => entryS(car),
  durationS: (car) => entryS(car) + (1.3 * scaled(car, 61)) / speedOf(car),
  course,
  createDriver: (car) => {
    const cruise = createCruise(car);
    const follow = createFollow(car, swerve(car), scaled(car, AHEAD), 0);
    const speed = speedOf(car);
    const entry = entryS(car);
    return {
      drive: (view, sticks) => {
        if (view.t < entry) cruise.keep(speed, view);
        follow.watch(view);
        sticks.throttle = cruise.throttle;
        sticks.steer = follow.steer;
        sticks.linkUp = true;
      },
    };
  },
};

/** The three lanes; between them it may go where it likes. */
function course(car: ManoeuvreCar): Gate[] {
  const { width } = car;
  const fixed = width / FULL_WIDTH;
  const first = 1.1 * width + 0.25 * fixed;
  const second = width + fixed;
  const third = Math.max(1.3 * width + 0.25 * fixed, 3 * fixed);
  const edge = first / 2;
  return [
    { ...sectionOf(car, 0), right: -edge, left: edge },
    { ...sectionOf(car, 2), right: edge + fixed, left: edge + fixed + second },
    { ...sectionOf(car, 4), right: -edge, left: third - edge },
  ];
}

/** From the middle of the first lane into the near half of the second and of the third. */
function swerve(car: ManoeuvreCar): Path {
  const [first, second, third] = course(car) as [Gate, Gate, Gate];
  const half = car.width / 2;
  const out = (middle(second) + second.right + half) / 2;
  const back = (middle(third) + third.left - half) / 2;
  const ease = EASE * (second.toX - second.fromX);
  return {
    offset: (x, y) => {
      const go = smooth((x - first.toX + ease) / (second.fromX - first.toX + 2 * ease));
      const come = smooth((x - second.toX + ease) / (third.fromX - second.toX + 2 * ease));
      return out * go + (back - out) * come - y;
    },
  };
}

function middle({ right, left }: Gate): number {
  return (right + left) / 2;
}

/** From 0 to 1 with neither kink nor jump of curvature: 6 s⁵ - 15 s⁴ + 10 s³. */
function smooth(share: number): number {
  const s = Math.min(Math.max(share, 0), 1);
  return s * s * s * (s * (6 * s - 15) + 10);
}

function sectionOf(car: ManoeuvreCar, index: number): { fromX: number; toX: number } {
  const before = SECTIONS.slice(0, index).reduce((sum, length) => sum + length, 0);
  const start = settleWay(car, speedOf(car)) - scaled(car, ENTRY);
  const fromX = start + scaled(car, before);
  return { fromX, toX: fromX + scaled(car, SECTIONS[index]!) };
}

/** Full-size speed, scaled so that the same swerve takes the same share of the grip. */
function speedOf(car: ManoeuvreCar): number {
  const narrow = Math.sqrt(car.length / FULL_LENGTH / (car.width / FULL_WIDTH));
  return scaledSpeed(car, SPEED * narrow * Math.sqrt(car.friction / ROAD));
}

function entryS(car: ManoeuvreCar): number {
  return settleTime(car, speedOf(car));
}

function scaled(car: ManoeuvreCar, length: number): number {
  return (length * car.length) / FULL_LENGTH;
}
