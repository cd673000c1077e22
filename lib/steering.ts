import { S } from './constants.ts';

/** The steering command: speed-dependent limit, position after a loss of signal, bounded rate. */
export interface Steering {
  /** The command, permille of full lock, left positive, not rounded. */
  value: number;
  /**
   * @param wanted shaped steering, permille
   * @param lost 1 while the signal is lost
   * @param speed estimated speed, permille of top speed, 0 or more
   * @param rise as in Clock, ms
   */
  step(wanted: number, lost: number, speed: number, rise: number): void;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/** A steering stage at the centre. */
export function createSteering(): Steering {
  let rate = 0;
  let atSpeed = 0;
  let lossPosition = 0;
  const steering = { value: 0, step: step, load: load };

  function step(wanted: number, lost: number, speed: number, rise: number): void {
    let target = wanted;
    if (lost === 1) target = lossPosition > 1000 ? steering.value : lossPosition;
    const limit = 1000 - ((1000 - atSpeed) * speed) / 1000;
    if (target > limit) target = limit;
    else if (target < 0 - limit) target = 0 - limit;
    const most = (rate * rise) / 1000;
    const change = target - steering.value;
    if (change > most) steering.value += most;
    else if (change < 0 - most) steering.value -= most;
    else steering.value = target;
  }

  function load(setup: number[]): void {
    rate = setup[S.STEER_RATE];
    atSpeed = setup[S.STEER_AT_SPEED];
    lossPosition = setup[S.LOSS_STEER];
  }

  return steering;
}
