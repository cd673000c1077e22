import { S } from '../../lib/index.ts';

/** Constants of a setup that switch a function off by 0, by its name. */
export const SETUP_SWITCHES = {
  spin: S.SPIN_REACTION,
  free: S.FREE_REACTION,
  jam: S.JAM_REACTION,
  yawAssist: S.YAW_AUTHORITY,
} as const;
