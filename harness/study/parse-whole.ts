import { InvalidArgumentError } from 'commander';

/**
 * A count or seed of a command line.
 *
 * @throws InvalidArgumentError unless it is a whole number of 1 or more
 */
export function parseWhole(text: string): number {
  const value = Number(text);
  if (Number.isSafeInteger(value) && value >= 1) return value;
  throw new InvalidArgumentError('Expected a whole number of 1 or more.');
}
