import * as v from 'valibot';
import { group, quantity, quantityOr, text } from './field.ts';

/** Schema of one entry of `surfaces.ts`. */
export const surfaceSchema = group('A floor: its friction and the shape of the tyre curve on it.', {
  name: text(40, {
    meaning: 'Name by which setups refer to this surface.',
    wrong: 'A setup that names a surface nobody described is refused.',
  }),
  source: text(500, {
    meaning:
      'Where the numbers come from: a publication, a measurement of your own, or "assumption".',
    wrong: 'A guess that looks like a measurement gets trusted like one.',
  }),
  friction: quantity({
    unit: '1',
    min: 0.05,
    max: 2,
    meaning: 'Greatest friction coefficient of your tyres on this floor: pull over weight.',
    wrong: 'Too high: a simulated car corners and brakes harder than yours. Too low: it ploughs.',
  }),
  frictionLow: quantity({
    unit: '1',
    min: 0.05,
    max: 2,
    meaning: 'Low end of the range in which friction may lie: dust, damp, worn tyres.',
    wrong: 'Too close to friction: you plan for a floor that is always at its best.',
  }),
  frictionHigh: quantity({
    unit: '1',
    min: 0.05,
    max: 2,
    meaning: 'High end of the range in which friction may lie: swept floor, fresh tyres.',
    wrong: 'Too close to friction: a floor that grips more than planned for surprises you.',
  }),
  tyre: v.optional(
    group(
      'Shape of the tyre curve, F = mu Fz sin(C atan(B s - E (B s - atan(B s)))) with slip s; ' +
        'Magic Formula, Pacejka, Tyre and Vehicle Dynamics, eq. 4.49.',
      {
        stiffnessB: quantityOr(8, {
          unit: '1',
          min: 1,
          max: 40,
          meaning: 'Stiffness factor B: how steeply the force rises with slip.',
          wrong:
            'Too high: the car answers at once and lets go early. Too low: it feels like sponge.',
        }),
        shapeC: quantityOr(1.4, {
          unit: '1',
          min: 1,
          max: 2.5,
          meaning: 'Shape factor C: how far the force falls once the tyre slides. 1 = not at all.',
          wrong: 'Too high: a slide is unforgiving. Too low: a slide costs no grip.',
        }),
        curvatureE: quantityOr(0, {
          unit: '1',
          min: -10,
          max: 1,
          meaning: 'Curvature factor E: how sharp the peak of the force is.',
          zero: 'The plain curve sin(C atan(B s)).',
          wrong: 'Far from the tyre: the slip at which grip is best lies in the wrong place.',
        }),
      },
    ),
    {},
  ),
  rollingResistance: quantityOr(0.03, {
    unit: '1',
    min: 0,
    max: 0.5,
    meaning: 'Rolling resistance: force to keep one wheel rolling over the load it carries.',
    zero: 'The wheels roll without loss.',
    wrong: 'Too low: top speed and coasting distance come out too long.',
  }),
  relaxationLengthMm: quantityOr(20, {
    unit: 'mm',
    min: 1,
    max: 500,
    meaning: 'Way a tyre rolls until most of its side force has built up; about one wheel radius.',
    wrong: 'Too long: the car turns in late. Too short: it turns in sooner than a real tyre can.',
  }),
});
