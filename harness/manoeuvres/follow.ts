import type { DriverView, ManoeuvreCar } from './manoeuvre.ts';

/** A line on the floor. */
export interface Path {
  /**
   * Way from a point to the line, m; positive if the line lies to the left of one driving on it.
   */
  offset(x: number, y: number): number;
}

/** Hands that follow a line. */
export interface Follow {
  /** The steering stick, -1 to 1. */
  steer: number;
  /** Once a tick: steers towards the line. */
  watch(view: DriverView): void;
}

/** Most that is learnt, in locks. */
const MOST = 0.5;
/** A longer pause between two ticks counts as this, s. */
const PAUSE = 0.1;

/**
 * Single-point preview: looks at the point a fixed way d straight ahead and steers 2 L / d² times
 * its distance e from the line. On a circle that is exactly Ackermann's angle, since e = d² / 2R
 * (pure pursuit, after Coulter 1992, CMU-RI-TR-92-01, from memory). What is still missing because
 * of slip is learnt on the way: `learning` x 4 L / d³ rad for each metre driven a metre off the
 * line, at most half a lock. Without slip the distance from the line then has the characteristic
 * equation s³ + 2 s² / d + 2 s / d² + 4 learning / d³ = 0 over the way, stable below 1 (Routh).
 *
 * @param ahead the way d, m; a short one is quick, a long one calm
 * @param learning 0 to 1; 0 for a line that changes faster than anything could be learnt
 */
export function createFollow(
  car: ManoeuvreCar,
  path: Path,
  ahead: number,
  learning: number,
): Follow {
  const rate = (learning * 4 * car.wheelbase) / ahead ** 3 / car.lock;
  let learnt = 0;
  let last = 0;
  const follow: Follow = {
    steer: 0,
    watch: ({ t, x, y, yaw, vx }) => {
      const dt = Math.min(Math.max(t - last, 0), PAUSE);
      last = t;
      const off = path.offset(x + ahead * Math.cos(yaw), y + ahead * Math.sin(yaw));
      const stick = (2 * car.wheelbase * off) / (ahead * ahead * car.lock);
      const here = path.offset(x, y);
      const pushes = Math.abs(stick + learnt) >= 1 && here * (stick + learnt) > 0;
      if (!pushes && vx > 0) learnt += rate * here * vx * dt;
      learnt = Math.min(Math.max(learnt, -MOST), MOST);
      follow.steer = Math.min(Math.max(stick + learnt, -1), 1);
    },
  };
  return follow;
}

/** A circle to the left that touches the x axis at the origin. */
export function circlePath(radius: number): Path {
  return { offset: (x, y) => Math.hypot(x, y - radius) - radius };
}
