import type { Surface } from './records.ts';
import type { Rule } from './rule.ts';

/** Rules between the fields of a surface. */
export const surfaceRules: readonly Rule<Surface>[] = [
  {
    fields: ['friction', 'frictionLow', 'frictionHigh'],
    broken: ({ friction, frictionLow, frictionHigh }) =>
      frictionLow <= friction && friction <= frictionHigh
        ? undefined
        : {
            found: String(friction),
            expected: `frictionLow to frictionHigh, ${frictionLow} to ${frictionHigh}`,
            cure: 'Widen the range or move friction into it.',
          },
  },
];
