import type { Vehicle } from './records.ts';

/** Constants of the core's two-body heat model, in its units. */
export interface HeatConstants {
  /** Heat capacity of the winding, mJ/K; 0 = no heat model. */
  winding: number;
  /** Conductance from winding to housing, mW/K. */
  windingOut: number;
  /** Heat capacity of the housing, mJ/K; 0 = it stays at ambient temperature. */
  housing: number;
  /** Conductance from housing to ambient, mW/K. */
  housingOut: number;
  /** Rise of resistance per kelvin, ppm. */
  copper: number;
}

/** Copper's rise of resistance, ppm/K, at 20 °C: alpha = 0.00393, common handbook value. */
const COPPER = 3930;

/**
 * The motor's heat model in the core's constants.
 *
 * An I2t limit is one body of capacity C and conductance G: under the continuous current I it
 * settles at the allowed rise, G = I^2 R / rise, with the time constant C / G. G is rounded down,
 * so that the model never lets more than the continuous current pass for ever.
 */
export function heatConstants(motor: Vehicle['motor']): HeatConstants {
  const { heat } = motor;
  if (heat.kind === 'twoBody') {
    return {
      winding: Math.round(heat.windingJPerK * 1000),
      windingOut: Math.round(heat.windingToHousingWPerK * 1000),
      housing: Math.round(heat.housingJPerK * 1000),
      housingOut: Math.round(heat.housingToAmbientWPerK * 1000),
      copper: COPPER,
    };
  }
  if (heat.kind === 'none') {
    return { winding: 0, windingOut: 1, housing: 0, housingOut: 1, copper: 0 };
  }
  const rise = motor.maxWindingC - motor.ambientC;
  const amperes = motor.continuousCurrentMa / 1000;
  const windingOut = Math.floor((amperes * amperes * motor.resistanceOhm * 1000) / rise);
  const winding = Math.round(heat.timeConstantS * windingOut);
  return { winding, windingOut, housing: 0, housingOut: 1, copper: 0 };
}

/** Share of the allowed rise at which derating begins. */
const WARN_SHARE = 0.85;

/** Rises of the winding over ambient: at power-up, where derating begins, where it stops; K. */
export function heatSteps(motor: Vehicle['motor']) {
  const limit = Math.round(motor.maxWindingC - motor.ambientC);
  const warn = Math.round(limit * WARN_SHARE);
  return { start: Math.round(motor.startWindingC - motor.ambientC), warn, limit };
}
