import { closest, distance } from 'fastest-levenshtein';

/**
 * The name that was most likely meant, or undefined if none is near: at most two edits (a third of
 * a longer name) away, or the same but for a missing ending such as the unit.
 */
export function nearestName(name: string, known: readonly string[]): string | undefined {
  const lower = name.toLowerCase();
  const continued = known.find((each) => lower.length > 2 && each.toLowerCase().startsWith(lower));
  if (continued !== undefined || known.length === 0) return continued;
  const best = closest(
    lower,
    known.map((each) => each.toLowerCase()),
  );
  const near = distance(lower, best) <= Math.max(2, Math.floor(name.length / 3));
  return near ? known.find((each) => each.toLowerCase() === best) : undefined;
}
