/** Wheelbase and track of a vehicle, any one unit of length for both. */
export interface Footprint {
  wheelbase: number;
  track: number;
}

/**
 * Radius of the turn, to the middle of the rear axle, of a vehicle that rolls without slip:
 * R = L / tan(angle).
 *
 * @param angle steering angle of the equivalent single-track vehicle, rad, greater than 0
 * @returns the radius in the unit of the wheelbase
 */
function turnRadius({ wheelbase }: Footprint, angle: number): number {
  return wheelbase / Math.tan(angle);
}

/**
 * Geometric inside cut: the share by which the inside rear wheel is slower than the outside one,
 * g = 1 - (R - t/2) / (R + t/2). 0 straight ahead; above 1 if the turn's centre lies between the
 * wheels.
 *
 * @param angle as in `turnRadius`, rad, 0 or more
 */
export function geometricCut(footprint: Footprint, angle: number): number {
  if (angle === 0) return 0;
  const radius = turnRadius(footprint, angle);
  const half = footprint.track / 2;
  return 1 - (radius - half) / (radius + half);
}

/**
 * Path radius of a front wheel over that of the rear wheel on the same side,
 * sqrt((R -+ t/2)^2 + L^2) / (R -+ t/2). 1 straight ahead; it grows without bound as the turn's
 * centre nears the inside rear wheel.
 *
 * @param angle as in `turnRadius`, rad, 0 or more
 */
export function frontPathRatio(
  footprint: Footprint,
  angle: number,
  side: 'inside' | 'outside',
): number {
  if (angle === 0) return 1;
  const half = footprint.track / 2;
  const rear = turnRadius(footprint, angle) + (side === 'inside' ? -half : half);
  return Math.hypot(rear, footprint.wheelbase) / Math.abs(rear);
}

/** Degrees to radians. */
export function radians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}
