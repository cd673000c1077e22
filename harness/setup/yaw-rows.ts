import { S } from '../../lib/constants.ts';
import { type Row, scaled } from './baked-row.ts';
import { radians } from './geometry.ts';
import type { Setup, Vehicle } from './records.ts';

/** What yaw assist does and when: the constants of lib/yaw-assist.ts. */
export function yawRows({ wheelbaseMm }: Vehicle, { yawAssist }: Setup): Row[] {
  const { authorityPercent, gainPercentPerDegPerS, integralPercentPerDeg } = yawAssist;
  const { understeerDegPerG, gripG } = yawAssist;
  const integral = 'yawAssist.integralPercentPerDeg';
  const gradient = radians(understeerDegPerG) / FREE_FALL;
  // 1 / v_ch^2 = EG / L, s^2/m^2.
  const understeer = gradient / (wheelbaseMm / 1000);
  return [
    scaled(S.YAW_AUTHORITY, 'yawAssist.authorityPercent', authorityPercent, 10),
    scaled(S.YAW_GAIN, 'yawAssist.gainPercentPerDegPerS', gainPercentPerDegPerS, PER_RADIAN),
    scaled(S.YAW_INTEGRAL_GAIN, integral, integralPercentPerDeg, PER_RADIAN),
    scaled(S.YAW_UNDERSTEER, 'yawAssist.understeerDegPerG', understeer, 10_000),
    scaled(S.YAW_GRIP_MM_S2, 'yawAssist.gripG', gripG, 1000 * FREE_FALL),
  ];
}

/** Permille a radian, of percent a degree. */
const PER_RADIAN = 1800 / Math.PI;
/** Acceleration of free fall, m/s². */
const FREE_FALL = 9.81;
