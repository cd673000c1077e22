const TIME = { us: 1 / 1000, µs: 1 / 1000, ms: 1, s: 1000, min: 60_000, h: 3_600_000 };

/** Units a foreign log may use for its time. */
export const TIME_UNITS = Object.keys(TIME);

/**
 * Units a foreign log may use for a column, by the column's own unit: one of them times the factor
 * is one of ours.
 */
export const UNITS: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  us: { us: 1, µs: 1, ms: 1000, s: 1_000_000 },
  ms: TIME,
  mV: { mV: 1, V: 1000 },
  mA: { mA: 1, A: 1000 },
  'mrad/s': {
    'mrad/s': 1,
    'rad/s': 1000,
    'deg/s': (1000 * Math.PI) / 180,
    '°/s': (1000 * Math.PI) / 180,
  },
  permille: { permille: 1, '‰': 1, '%': 10, '1': 1000 },
};
