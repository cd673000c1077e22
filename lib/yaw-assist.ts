/** Changes the inside cut so that the vehicle yaws as a neutral one would. */
export interface YawAssist {
  /** Change of the cut, permille, positive = more cut, not rounded. */
  change: number;
  /**
   * @param yawRateMradS yaw rate, left positive, or MISSING
   * @param demand drive demand, permille
   * @param steer steering command, permille of full lock, left positive
   * @param speed estimated speed over ground, mm/s, forward positive
   * @param still 1 while every motor is commanded nothing
   * @param rise time that permits, ms
   * @param stop time that forbids, ms
   * @returns bits of Flag
   */
  run(
    yawRateMradS: number,
    demand: number,
    steer: number,
    speed: number,
    still: number,
    rise: number,
    stop: number,
  ): number;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/** @param _vehicle constants of the vehicle */
export function createYawAssist(_vehicle: number[]): YawAssist {
  return { change: 0, run: run, load: load };
}

function run(): number {
  return 0;
}

function load(): void {}
