import type { Figures } from './figures.ts';

/** One figure of two setups, written out. */
export interface ComparedFigure {
  label: string;
  a: string;
  b: string;
}

/** Two sets of figures side by side, with units, for people. */
export function compareFigures(a: Figures, b: Figures): ComparedFigure[] {
  return ROWS.map(({ label, text }) => ({ label, a: text(a), b: text(b) }));
}

/** One set of figures, written out. */
export function describeFigures(figures: Figures): { label: string; value: string }[] {
  return ROWS.map(({ label, text }) => ({ label, value: text(figures) }));
}

const ROWS: readonly { label: string; text: (figures: Figures) => string }[] = [
  { label: 'Time driving', text: (f) => `${f.drivingS.toFixed(2)} s` },
  { label: 'Stops by the core itself', text: (f) => `${f.stops}` },
  { label: 'Greatest motor command', text: (f) => percent(f.mostDrive) },
  { label: 'Mean motor command while driving', text: (f) => percent(f.meanDrive) },
  { label: 'Greatest inside cut', text: (f) => percent(f.mostCut) },
  { label: 'Mean inside cut in bends', text: (f) => percent(f.meanCutTurning) },
  { label: 'Steepest rise in one tick', text: (f) => percent(f.steepestRise) },
  { label: 'Time capped by protection', text: (f) => `${f.limitedS.toFixed(2)} s` },
];

function percent(permille: number): string {
  return `${(permille / 10).toFixed(1)} %`;
}
