import type { Problem } from '../problems.ts';
import type { LoadedSetup, LoadedVehicle } from './records.ts';
import { breachProblem } from './rule.ts';
import { pairRules } from './setup-rules.ts';

/** What keeps a setup from serving a vehicle; each problem names the setup's file and field. */
export function checkPair(vehicle: LoadedVehicle, setup: LoadedSetup): Problem[] {
  return pairRules.flatMap((rule) => {
    const breach = rule.broken({ vehicle, setup });
    return breach ? [breachProblem(setup.file, rule.fields[0], breach)] : [];
  });
}
