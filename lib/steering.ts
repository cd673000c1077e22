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
   * @returns the command
   */
  run(wanted: number, lost: number, speed: number, rise: number): number;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/** A steering stage at the centre. */
export function createSteering(): Steering {
  let rate = 0;
  let fade = 0;
  let lossPosition = 0;
  const steering = { value: 0, run: run, load: load };

  function run(wanted: number, lost: number, speed: number, rise: number): number {
    const self = steering;
    const now = self.value;
    let target = wanted;
    if (lost === 1) target = lossPosition > 1000 ? now : lossPosition;
    const limit = 1000 - fade * speed;
    if (target > limit) target = limit;
    if (target < 0 - limit) target = 0 - limit;
    const most = rate * rise;
    if (target > now + most) target = now + most;
    if (target < now - most) target = now - most;
    self.value = target;
    return target;
  }

  function load(setup: number[]): void {
    rate = setup[S.STEER_RATE] / 1000;
    fade = (1000 - setup[S.STEER_AT_SPEED]) / 1000;
    lossPosition = setup[S.LOSS_STEER];
  }

  return steering;
}
