import { S, STEER_HOLD } from '../../lib/constants.ts';
import { type Row, scaled, table } from './baked-row.ts';
import { findingRows } from './finding-rows.ts';
import { geometricCut, radians } from './geometry.ts';
import type { Setup, Vehicle } from './records.ts';
import { yawRows } from './yaw-rows.ts';

/** Every constant of a setup on a vehicle, in the units of lib/constants.ts. */
export function setupRows(vehicle: Vehicle, setup: Setup): Row[] {
  const percent = 10;
  const { throttle, steering, arming, slew, guest } = setup;
  return [
    scaled(S.THROTTLE_DEAD_BAND, 'throttle.deadBandPercent', throttle.deadBandPercent, percent),
    scaled(S.THROTTLE_EXPO, 'throttle.expoPercent', throttle.expoPercent, percent),
    scaled(S.FORWARD_LIMIT, 'throttle.forwardLimitPercent', throttle.forwardLimitPercent, percent),
    scaled(S.REVERSE_LIMIT, 'throttle.reverseLimitPercent', throttle.reverseLimitPercent, percent),
    scaled(S.THROTTLE_SMOOTHING_MS, 'throttle.smoothingMs', throttle.smoothingMs, 1),
    scaled(S.STEER_DEAD_BAND, 'steering.deadBandPercent', steering.deadBandPercent, percent),
    scaled(S.STEER_EXPO, 'steering.expoPercent', steering.expoPercent, percent),
    scaled(S.LEFT_LIMIT, 'steering.leftLimitPercent', steering.leftLimitPercent, percent),
    scaled(S.RIGHT_LIMIT, 'steering.rightLimitPercent', steering.rightLimitPercent, percent),
    scaled(S.STEER_SMOOTHING_MS, 'steering.smoothingMs', steering.smoothingMs, 1),
    scaled(S.STEER_RATE, 'steering.ratePercentPerS', steering.ratePercentPerS, percent),
    scaled(S.STEER_AT_SPEED, 'steering.atTopSpeedPercent', steering.atTopSpeedPercent, percent),
    ...linkRows(setup),
    scaled(S.NEUTRAL_MS, 'arming.neutralMs', arming.neutralMs, 1),
    scaled(S.REARM_MS, 'arming.rearmMs', arming.rearmMs, 1),
    scaled(S.RISE, 'slew.risePercentPerS', slew.risePercentPerS, percent),
    scaled(S.FALL, 'slew.fallPercentPerS', slew.fallPercentPerS, percent),
    scaled(S.STOP, 'slew.stopPercentPerS', slew.stopPercentPerS, percent),
    scaled(S.DWELL_MS, 'slew.dwellMs', slew.dwellMs, 1),
    ...splitRows(vehicle, setup),
    ...yawRows(vehicle, setup),
    scaled(S.GUEST_CAP, 'guest.capPercent', guest.capPercent, percent),
    scaled(S.FADE_MS, 'fadeMs', setup.fadeMs, 1),
  ];
}

function linkRows({ link }: Setup): Row[] {
  const { steeringOnLoss } = link;
  return [
    scaled(S.HOLD_MS, 'link.holdMs', link.holdMs, 1),
    steeringOnLoss === 'hold'
      ? { index: S.LOSS_STEER, field: 'link.steeringOnLoss', value: STEER_HOLD }
      : scaled(S.LOSS_STEER, 'link.steeringOnLoss', steeringOnLoss, 10),
  ];
}

function splitRows(vehicle: Vehicle, setup: Setup): Row[] {
  const { split } = setup;
  return [
    scaled(S.CUT_CEILING, 'split.cutCeilingPercent', split.cutCeilingPercent, 10),
    scaled(S.MEAN_SHARE, 'split.meanSharePercent', split.meanSharePercent, 10),
    scaled(S.FRONT_SHARE, 'split.frontSharePercent', split.frontSharePercent, 10),
    scaled(S.PIVOT, 'split.pivotPercent', split.pivotPercent, 10),
    scaled(S.PIVOT_FADE, 'split.pivotFadePercent', split.pivotFadePercent, 10),
    ...findingRows(vehicle, setup),
    ...table(S.CUT_TABLE, 'split.geometrySharePercent', insideCut(vehicle, split)),
  ];
}

/** Inside cut by share of full lock: geometryShare g + cutAtFullLock s^curve, up to the ceiling. */
function insideCut(vehicle: Vehicle, split: Setup['split']): (share: number) => number {
  const footprint = { wheelbase: vehicle.wheelbaseMm, track: vehicle.trackMm };
  const lock = radians(vehicle.steeringLockDeg);
  return (share) => {
    const geometric = geometricCut(footprint, share * lock) * split.geometrySharePercent;
    const added = split.cutAtFullLockPercent * share ** split.cutCurve;
    return Math.min(split.cutCeilingPercent, geometric + added) / 100;
  };
}
