import type { SurfaceInput } from '../setup/types.ts';

/**
 * Floors that club models drive on. Friction has a source where one is named; every other number is
 * an assumption with its range in `source`. For split friction and patches see ground.ts.
 */
export const SURFACES: readonly SurfaceInput[] = [
  {
    name: 'sports-hall vinyl',
    source:
      'All assumptions. Friction 0.5 to 0.9: dry rubber on vinyl, from memory, no table found. ' +
      'Tyre shape: B 6 to 12, C 1.3 to 1.7, E -1 to 0.5. Rolling resistance 0.01 to 0.04. ' +
      'Relaxation length 10 to 40 mm.',
    friction: 0.6,
    frictionLow: 0.5,
    frictionHigh: 0.9,
    tyre: { stiffnessB: 9, shapeC: 1.5, curvatureE: 0 },
    rollingResistance: 0.02,
    relaxationLengthMm: 20,
  },
  {
    name: 'low-pile carpet',
    source:
      'All assumptions. Friction 0.6 to 1.0: rubber on short pile, from memory, no table found; ' +
      'it differs with the direction of the pile. Tyre shape: B 4 to 9, C 1 to 1.4, E -1 to 0.5. ' +
      'Rolling resistance 0.03 to 0.1. Relaxation length 15 to 60 mm.',
    friction: 0.8,
    frictionLow: 0.6,
    frictionHigh: 1,
    tyre: { stiffnessB: 6, shapeC: 1.2, curvatureE: 0 },
    rollingResistance: 0.06,
    relaxationLengthMm: 30,
  },
  {
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
  },
  {
    name: 'dry asphalt',
    source:
      'Full-size tyre on dry asphalt 0.65: Noon, Engineering Analysis of Vehicular Accidents, ' +
      'CRC Press 1994; 0.85 is assumed for soft model tyres, range 0.65 to 1.05. Rolling ' +
      'resistance 0.02: car tyre on tar or asphalt, Engineering ToolBox; a small wheel rolls ' +
      'harder, range 0.02 to 0.06. Assumptions: tyre shape B 6 to 12, C 1.2 to 1.6, E -1 to 0.5; ' +
      'relaxation length 10 to 40 mm.',
    friction: 0.85,
    frictionLow: 0.65,
    frictionHigh: 1.05,
    tyre: { stiffnessB: 9, shapeC: 1.4, curvatureE: 0 },
    rollingResistance: 0.03,
    relaxationLengthMm: 20,
  },
  {
    name: 'dusty parquet',
    source:
      'All assumptions. Dry rubber on wood 0.7 to 0.95: handbook range, from memory; dust lowers ' +
      'it sharply (tribology abstracts, no number): range 0.3 to 0.7. Tyre shape: B 5 to 10, C ' +
      '1.2 to 1.6, E -1 to 0.5. Rolling resistance 0.01 to 0.03. Relaxation length 10 to 40 mm.',
    friction: 0.45,
    frictionLow: 0.3,
    frictionHigh: 0.7,
    tyre: { stiffnessB: 7, shapeC: 1.4, curvatureE: 0 },
    rollingResistance: 0.018,
    relaxationLengthMm: 22,
  },
];
