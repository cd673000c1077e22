import type { Vehicle } from './records.ts';

/** Speed of the tyres with nothing to drive, at the motor's nominal voltage, m/s. */
export function noLoadSpeed({ motor, wheelRadiusMm }: Vehicle): number {
  const wheel = (motor.noLoadSpeedRpm * 2 * Math.PI) / 60 / motor.gearRatio;
  return (wheel * wheelRadiusMm) / 1000;
}
