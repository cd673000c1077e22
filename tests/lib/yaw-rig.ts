import { S, V } from '../../lib/index.ts';
import { createYawAssist } from '../../lib/yaw-assist.ts';
import { type Changes, plainConstants } from '../limits/plain-constants.ts';

/** A yaw-assist stage on its own, called every 10 ms. */
export interface YawRig {
  /** Change of the cut after the last tick, permille. */
  readonly change: number;
  /** One tick after another with the same inputs; returns the flags of the last. */
  tick(inputs: Partial<YawInputs>, ticks?: number): number;
  /** Lets the yaw rate swing to a value without drive, as fast as the watch takes for real. */
  swing(rate: number): void;
  /** Rests until the offset is learnt and the gyro trusted. */
  rest(offset?: number): void;
}

interface YawInputs {
  /** mrad/s; `shake` is added in one tick and taken off in the next, so that it is not stuck. */
  rate: number;
  shake: number;
  demand: number;
  steer: number;
  /** mm/s. */
  speed: number;
  still: number;
}

/** Curvature at full lock 2 per metre; authority 300, gain 500, no integral, grip 5 m/s^2. */
export function createYawRig(setup: Changes = {}, vehicle: Changes = {}): YawRig {
  const constants = plainConstants({
    vehicle: { [V.CURVATURE]: 2000, ...vehicle },
    setups: [
      {
        [S.YAW_AUTHORITY]: 300,
        [S.YAW_GAIN]: 500,
        [S.YAW_INTEGRAL_GAIN]: 0,
        [S.YAW_UNDERSTEER]: 0,
        [S.YAW_GRIP_MM_S2]: 5000,
        ...setup,
      },
    ],
  });
  const stage = createYawAssist(constants.vehicle);
  stage.load(constants.setups[0]!);
  const inputs: YawInputs = { rate: 0, shake: 2, demand: 0, steer: 0, speed: 0, still: 1 };
  let sign = 1;

  function tick(change: Partial<YawInputs>, ticks = 1): number {
    Object.assign(inputs, change);
    const { rate, shake, demand, steer, speed, still } = inputs;
    let flags = 0;
    for (let i = 0; i < ticks; i++) {
      flags = stage.run(rate + sign * shake, demand, steer, speed, still, 10, 10);
      sign = -sign;
    }
    return flags;
  }

  return {
    get change() {
      return stage.change;
    },
    tick,
    swing: (rate) => {
      const step = inputs.rate < rate ? 300 : -300;
      tick({ demand: 0, still: 0 });
      while (Math.abs(rate - inputs.rate) > 300) tick({ rate: inputs.rate + step });
      tick({ rate });
    },
    rest: (offset = 0) => {
      tick({ rate: offset, demand: 0, steer: 0, speed: 0, still: 1 }, 200);
      inputs.still = 0;
    },
  };
}
