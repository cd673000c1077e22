import { MISSING } from './signals.ts';

/**
 * Says how far a yaw-rate gyro is to be believed, and takes off its offset.
 *
 * Missing: no sample. Stuck: the same sample for STUCK_MS on the move; there a real gyro's noise
 * makes neighbours differ, and one that is quiet at a standstill is not stuck. Noisy: the mean of
 * |r0 - 2 r1 + r2| over NOISE_MS, which for white noise is 1.95 of its standard deviation and
 * for turning of any kind near zero. Offset: the mean over REST_MS at rest; none has been
 * learnt, or it is more than OFFSET_MOST. A rest in which the vehicle is carried or still rolls
 * shows by samples that move away from the first, further than their noise, and begins anew.
 *
 * Trust falls within FADE_MS of the first doubt and comes back in ten times that, or with a rest
 * that shows a good offset.
 */
export interface GyroWatch {
  /** Yaw rate without offset, left positive, mrad/s; the last one while samples are missing. */
  rate: number;
  /** How far it is to be believed, permille. */
  trust: number;
  /**
   * @param sample yaw rate, left positive, mrad/s, or MISSING
   * @param moving 1 while the vehicle is on the move
   * @param still 1 while every motor is commanded nothing
   * @param rise as in Clock, ms
   * @param stop as in Clock, ms
   */
  run(sample: number, moving: number, still: number, rise: number, stop: number): void;
}

const STUCK_MS = 120;
const FADE_MS = 100;
const NOISE_MS = 200;
/** Mean second difference that is too much, mrad/s. */
const NOISE_MOST = 300;
/** The vehicle rolls on for a while after its motors. */
const SETTLE_MS = 200;
const REST_MS = 250;
/** Samples further from the first of a rest than this and three times the noise move, mrad/s. */
const MOTION = 60;
const OFFSET_MOST = 150;

/** A watch that has learnt no offset yet, and so trusts nothing. */
export function createGyroWatch(): GyroWatch {
  let last = 0;
  let step = 0;
  let noise = 0;
  let same = 0;
  let stillFor = 0;
  let first = 0;
  let sum = 0;
  let count = 0;
  let offset = 0;
  let learnt = 0;
  const watch = { rate: 0, trust: 0, run: run };

  function run(sample: number, moving: number, still: number, rise: number, stop: number): void {
    const self = watch;
    let doubt = learnt === 1 ? 0 : 1;
    if (sample === MISSING) {
      doubt = 1;
      stillFor = 0;
    } else {
      const change = sample - last;
      let jerk = change - step;
      if (jerk < 0) jerk = 0 - jerk;
      noise += ((jerk - noise) * stop) / (NOISE_MS + stop);
      if (change !== 0) same = 0;
      else if (moving === 1) same += stop;
      if (same >= STUCK_MS || noise > NOISE_MOST) doubt = 1;
      step = change;
      last = sample;
      if (still === 0) stillFor = 0;
      else learn(sample, rise);
      self.rate = sample - offset;
    }
    const change = doubt === 1 ? 0 - stop * (1000 / FADE_MS) : rise * (100 / FADE_MS);
    const trust = self.trust + change;
    self.trust = trust > 1000 ? 1000 : trust > 0 ? trust : 0;
  }

  function learn(sample: number, rise: number): void {
    const before = stillFor;
    stillFor = before + rise;
    if (stillFor < SETTLE_MS) return;
    const away = sample - first;
    const most = MOTION + 3 * noise;
    if (before < SETTLE_MS || away > most || away < 0 - most) {
      stillFor = SETTLE_MS;
      first = sample;
      sum = 0;
      count = 0;
    }
    sum += sample;
    count++;
    if (stillFor < SETTLE_MS + REST_MS) return;
    const mean = sum / count;
    learnt = mean <= OFFSET_MOST && mean >= 0 - OFFSET_MOST ? 1 : 0;
    if (learnt === 1) {
      offset = mean;
      watch.trust = 1000;
    }
    // The next mean begins with the next tick.
    stillFor = 0;
  }

  return watch;
}
