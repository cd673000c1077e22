import type { Manoeuvre, ManoeuvreCar } from '../manoeuvres/manoeuvre.ts';
import type { Fault } from '../plant/fault.ts';
import type { FaultSpan } from './fault-span.ts';

/** What is broken from a time on, until the next entry. */
export interface FaultChange {
  atS: number;
  faults: Fault[];
  isLinkLost: boolean;
}

/**
 * The faults of a manoeuvre and those asked for on top of it, as changes in the order of time.
 *
 * @returns none if nothing ever breaks
 */
export function planFaults(
  manoeuvre: Manoeuvre,
  car: ManoeuvreCar,
  spans: readonly FaultSpan[],
): FaultChange[] {
  const scripted = manoeuvre.faults?.(car) ?? [];
  const times = [
    ...scripted.map(({ atS }) => atS),
    ...spans.flatMap(({ fromS, toS }) => (toS === Infinity ? [fromS] : [fromS, toS])),
  ];
  return [...new Set(times)]
    .sort((a, b) => a - b)
    .map((atS) => {
      const script = scripted.filter((each) => each.atS <= atS).at(-1)?.faults ?? [];
      const active = spans.filter(({ fromS, toS }) => fromS <= atS && atS < toS);
      const own = active.flatMap(({ fault }) => (fault.kind === 'linkLost' ? [] : [fault]));
      return {
        atS,
        faults: [...script, ...own],
        isLinkLost: active.some(({ fault }) => fault.kind === 'linkLost'),
      };
    });
}
