import { createProblemGatherer } from '../gather-problems.ts';
import { UserError } from '../problems.ts';
import { findSetup, type Garage } from './load-garage.ts';
import type { LoadedSetup } from './records.ts';

/**
 * The setups of these names, in their order.
 *
 * @param names each once
 * @param field the option that names them
 * @throws UserError naming all that are not in the garage, or one that is named twice
 */
export function chooseSetups(
  garage: Garage,
  names: readonly string[],
  field = '--setup',
): LoadedSetup[] {
  const doubled = names.find((name, i) => names.indexOf(name) !== i);
  if (doubled !== undefined) {
    const message = `found "${doubled}" twice.`;
    const cure = 'Name each setup once.';
    throw new UserError([{ file: garage.dir, field, message, cure }]);
  }
  const gatherer = createProblemGatherer();
  const found = names.flatMap((name) => gatherer.take(() => findSetup(garage, name, field)) ?? []);
  gatherer.tell();
  return found;
}
