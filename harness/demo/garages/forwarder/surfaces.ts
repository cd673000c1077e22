// The floors the club drives on. None of these numbers was measured with this car: where there is a
// published value it is named, the rest are assumptions, each with a range to plan for. Measure
// your own friction with a luggage scale: pull the car sideways, wheels locked, and divide the pull
// by the weight.
import { defineSurface } from 'axlewright';

export default [
  defineSurface({
    name: 'sports-hall vinyl',
    source:
      'All assumptions. Friction 0.5 to 0.9: dry rubber on vinyl, from memory, no table found. ' +
      'Tyre shape: B 6 to 12, C 1.3 to 1.7, E -1 to 0.5. Rolling resistance 0.01 to 0.04. ' +
      'Relaxation length 10 to 40 mm.',
    friction: 0.6,
    frictionLow: 0.5,
    frictionHigh: 0.9,
    // A hard, smooth floor: the force comes at once and falls off once the tyre slides.
    tyre: { stiffnessB: 9, shapeC: 1.5, curvatureE: 0 },
    rollingResistance: 0.02,
    relaxationLengthMm: 20,
  }),
  defineSurface({
    name: 'low-pile carpet',
    source:
      'All assumptions. Friction 0.6 to 1.0: rubber on short pile, from memory, no table found; ' +
      'it differs with the direction of the pile. Tyre shape: B 4 to 9, C 1 to 1.4, E -1 to 0.5. ' +
      'Rolling resistance 0.03 to 0.1. Relaxation length 15 to 60 mm.',
    friction: 0.8,
    frictionLow: 0.6,
    frictionHigh: 1,
    // The pile gives way: the force builds up slowly and hardly falls in a slide.
    tyre: { stiffnessB: 6, shapeC: 1.2, curvatureE: 0 },
    rollingResistance: 0.06,
    relaxationLengthMm: 30,
  }),
  defineSurface({
    name: 'damp concrete',
    source:
      'Full-size tyre on wet concrete 0.6: Noon, Engineering Analysis of Vehicular Accidents, ' +
      'CRC Press 1994. Range 0.45 to 0.75: rubber on wet concrete, Engineering ToolBox. ' +
      'Assumptions: tyre shape B 5 to 11, C 1.2 to 1.6, E -1 to 0.5; rolling resistance 0.01 to ' +
      '0.05; relaxation length 10 to 45 mm.',
    friction: 0.6,
    frictionLow: 0.45,
    frictionHigh: 0.75,
    tyre: { stiffnessB: 8, shapeC: 1.4, curvatureE: 0 },
    rollingResistance: 0.025,
    relaxationLengthMm: 22,
  }),
];
