import type { Problem } from '../problems.ts';

/** Endings of fields, what is hardly meant in their unit, and the unit it looks like. */
const UNITS = [
  { ending: 'Percent', below: 1, factor: 100, other: 'a share of the whole' },
  { ending: 'Ms', below: 1, factor: 1000, other: 'seconds' },
  { ending: 'Ma', below: 10, factor: 1000, other: 'amperes' },
];

/** Values of a record that are so small that another unit was likely meant. */
export function smallValues(file: string, record: object, path = ''): Problem[] {
  return Object.entries(record).flatMap(([name, value]) => {
    const field = `${path}${name}`;
    if (typeof value === 'object' && value !== null) return smallValues(file, value, `${field}.`);
    const unit = UNITS.find(({ ending }) => name.endsWith(ending));
    if (typeof value !== 'number' || unit === undefined) return [];
    if (value <= 0 || value >= unit.below) return [];
    const meant = Number((value * unit.factor).toPrecision(6));
    const cure = `If it was meant as ${unit.other}, write ${meant}.`;
    return [{ file, field, message: `found ${value}, which does next to nothing.`, cure }];
  });
}
