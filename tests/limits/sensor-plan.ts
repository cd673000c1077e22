import { type Constants, type Inputs, MISSING, type Outputs, V } from '../../lib/index.ts';
import type { Sensors } from './arbitrary-drive.ts';
import type { Noise } from './noise.ts';

/** Fills the samples of a tick from what was commanded in the tick before. */
export interface SensorPlan {
  fill(inputs: Inputs, outputs: Outputs, plan: Sensors, noise: Noise): void;
}

/** Samples of a vehicle with these constants; not a plant, only plausible numbers. */
export function createSensorPlan({ vehicle }: Constants): SensorPlan {
  const warn = vehicle[V.SUPPLY_WARN_MV]!;
  const usual = Math.max(
    warn + vehicle[V.SUPPLY_HYSTERESIS_MV]! + 300,
    vehicle[V.SUPPLY_NOMINAL_MV]!,
  );
  const limit = vehicle[V.CURRENT_LIMIT_MA]!;
  const share = vehicle[V.STALL_SHARE]! / 1000;
  let yawRate = 0;

  function supply(plan: Sensors, noise: Noise): number {
    if (plan === 'supply lost') return noise.below(4) === 0 ? -1 : MISSING;
    if (plan === 'low supply') return noise.below(Math.max(1, vehicle[V.SUPPLY_CUT_MV]!));
    if (plan === 'sagging supply') return Math.max(0, warn - 600 + noise.below(700));
    if (plan === 'any') return noise.below(65536) - 32768;
    return usual - noise.below(100);
  }

  function current(command: number, plan: Sensors, noise: Noise): number {
    // mV * permille / mOhm = mA.
    const atRest = (usual * command) / vehicle[V.MOTOR_MOHM]!;
    const sign = command < 0 ? -1 : 1;
    if (plan === 'current lost') return noise.below(3) === 0 ? MISSING : Number.NaN;
    if (plan === 'stalled') return atRest * (0.98 + noise.below(30) / 1000);
    if (plan === 'beyond limit') return sign * (limit * (1 + noise.below(1000) / 1000));
    if (plan === 'braking') return -sign * noise.below(Math.max(1, limit) * 2);
    if (plan === 'any') return noise.below(65536) - 32768;
    const most = sign * atRest * share * 0.4;
    return sign * Math.min(most, limit === 0 ? most : limit * 0.7) + noise.below(20) - 10;
  }

  /** Of a vehicle that mostly turns the way it is steered, and at times much faster. */
  function gyro({ drive, steer }: Outputs, plan: Sensors, noise: Noise): number {
    if (plan === 'any') return noise.below(65536) - 32768;
    if (plan === 'gyro lost') return MISSING;
    if (plan === 'gyro stuck') return yawRate;
    const asked = (((drive[0] ?? 0) + (drive[1] ?? 0)) * steer) / 800;
    const swing = noise.below(50) === 0 ? noise.below(6000) - 2000 : 0;
    yawRate += Math.round((asked - yawRate) / 8) + swing + noise.below(21) - 10;
    yawRate = Math.max(-32767, Math.min(32767, yawRate));
    return yawRate;
  }

  return {
    fill(inputs, outputs, plan, noise) {
      inputs.batteryMv = Math.min(32767, supply(plan, noise));
      inputs.yawRateMradS = gyro(outputs, plan, noise);
      for (let i = 0; i < 4; i++) {
        const ma = current(outputs.drive[i] ?? 0, plan, noise);
        inputs.currentMa[i] = Math.max(-32768, Math.min(32767, Math.round(ma)));
        inputs.wheelDegS[i] = (outputs.drive[i] ?? 0) * 7 + noise.below(200) - 100;
      }
    },
  };
}
