import type { Reaction } from '../../lib/codes.ts';
import { type Constants, S } from '../../lib/index.ts';
import { plainConstants } from './plain-constants.ts';
import { ARM, type Leg } from './scripted.ts';

/** 600 permille on a throttle of 640: (640 - 100) / 900. Spin leaves a half of it, or nothing. */
export function spinConstants(reaction: Reaction): Constants {
  return plainConstants({ setups: [{ [S.SPIN_REACTION]: reaction }] });
}

/**
 * From 310 ms on the motors draw 5 mA a permille, a third of a motor held still, and turn far
 * faster than so much can have moved 1.5 kg: spin of both, found within 80 ms.
 *
 * @param ticks length of the start
 * @param steer permille, left positive
 */
export function looseStart(ticks: number, steer = 0): Leg[] {
  const currentMa: Leg['currentMa'] = ({ drive }) => drive.map((d) => 5 * d);
  return [ARM, { ticks, throttle: 640, steer, currentMa }];
}
