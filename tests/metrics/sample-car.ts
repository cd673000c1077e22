import type { Manoeuvre, ManoeuvreCar } from '../../harness/manoeuvres/manoeuvre.ts';

/** A car of round numbers. */
export const SAMPLE_CAR: ManoeuvreCar = {
  layout: 'pair',
  wheelbase: 0.2,
  track: 0.12,
  cgToFront: 0.11,
  length: 0.3,
  width: 0.15,
  lock: 0.4,
  topSpeed: 5,
  friction: 0.8,
};

/** A manoeuvre of which only what metrics read is said. */
export function sampleManoeuvre(part: Partial<Manoeuvre>): Manoeuvre {
  return {
    name: 'sample',
    title: 'Sample',
    source: 'test',
    meaning: 'test',
    headline: [],
    kind: 'bend',
    durationS: () => 1,
    createDriver: () => ({ drive: () => undefined }),
    ...part,
  };
}
