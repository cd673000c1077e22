import type { PathDrive, PathView } from '../../harness/report/path-view.ts';

interface SampleDrive {
  points: [number, number][];
}

/** A small car on given ways, a sample each 10 ms, heading along x. */
export function pathView(drives: SampleDrive[]): PathView {
  return {
    drives: drives.map(({ points }, i) => ({
      ...named(i),
      t: points.map((_, k) => k / 100),
      x: points.map(([x]) => x),
      y: points.map(([, y]) => y),
      yaw: points.map(() => 0),
      steer: points.map(() => 0),
      slide: [0, 1, 2, 3].map(() => points.map(() => 0)),
    })),
    vehicle: {
      length: 0.3,
      width: 0.15,
      cgToFront: 0.12,
      cgToRear: 0.09,
      trackFront: 0.12,
      trackRear: 0.12,
      wheelRadius: 0.026,
      isTracked: false,
    },
    patches: [],
    gates: [],
    notes: [],
  };
}

/** Drives round circles of 1 m and more to the left; the rear left wheel slides all the way. */
export function circleView(count: number, drives: number): PathView {
  const view = pathView(Array.from({ length: drives }, () => ({ points: [] })));
  const turn = (i: number) => (5.5 * i) / count;
  view.drives = view.drives.map((drive, d): PathDrive => {
    const radius = 1 + d / 2;
    const samples = Array.from({ length: count }, (_, i) => i);
    return {
      ...drive,
      t: samples.map((i) => i / 100),
      x: samples.map((i) => radius * Math.sin(turn(i))),
      y: samples.map((i) => radius * (1 - Math.cos(turn(i)))),
      yaw: samples.map(turn),
      steer: samples.map(() => 0.3),
      slide: [0, 1, 2, 3].map((wheel) => samples.map(() => (wheel === 0 ? 2 : 0.2))),
    };
  });
  return view;
}

function named(i: number): Pick<PathDrive, 'name' | 'verdict' | 'style' | 'hue'> {
  const style = (['solid', 'dashed', 'dotted'] as const)[i]!;
  return { name: `setup ${i}`, verdict: 'Neutral.', style, hue: i };
}
