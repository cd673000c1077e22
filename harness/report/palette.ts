/**
 * The eight colours of Okabe M. and Ito K., "Color Universal Design: how to make figures and
 * presentations that are friendly to colorblind people" (J*FLY, 2002), as repeated in Wong B.,
 * "Points of view: Color blindness", Nature Methods 8, 441 (2011). All other colours are greys.
 */
export const OKABE_ITO = {
  black: '#000000',
  orange: '#e69f00',
  skyBlue: '#56b4e9',
  bluishGreen: '#009e73',
  yellow: '#f0e442',
  blue: '#0072b2',
  vermillion: '#d55e00',
  reddishPurple: '#cc79a7',
} as const;

/** Colours of one look of the page, `#rrggbb`. */
export interface Theme {
  page: string;
  card: string;
  ink: string;
  muted: string;
  /** Hairlines of boxes and tables. */
  line: string;
  grid: string;
  zero: string;
  accent: string;
  held: string;
  broken: string;
  /** Traces by hue; each has 3 : 1 against `card` (WCAG 2.2, 1.4.11). */
  series: readonly string[];
  state: Readonly<Record<'off' | 'ready' | 'driving' | 'stopping' | 'fault', string>>;
  severity: Readonly<Record<'note' | 'warning' | 'breach', string>>;
}

const { black, orange, skyBlue, bluishGreen, yellow, blue, vermillion, reddishPurple } = OKABE_ITO;

/** For daylight and for paper. */
export const LIGHT: Theme = {
  page: '#f4f5f3',
  card: '#ffffff',
  ink: '#1b2024',
  muted: '#586169',
  line: '#dfe3e2',
  grid: '#eceeee',
  zero: '#c3c9cb',
  accent: blue,
  held: '#00704f',
  broken: '#a84600',
  series: [blue, vermillion, bluishGreen, reddishPurple, black],
  state: {
    off: '#8b949a',
    ready: skyBlue,
    driving: bluishGreen,
    stopping: orange,
    fault: vermillion,
  },
  severity: { note: blue, warning: orange, breach: vermillion },
};

/** For a dark room. */
export const DARK: Theme = {
  page: '#111416',
  card: '#181c1f',
  ink: '#e4e8ea',
  muted: '#9aa5ac',
  line: '#2c3337',
  grid: '#23292d',
  zero: '#4a545a',
  accent: skyBlue,
  held: '#3cc79d',
  broken: '#f08a3c',
  series: [skyBlue, orange, bluishGreen, reddishPurple, yellow],
  state: {
    off: '#7d878d',
    ready: skyBlue,
    driving: bluishGreen,
    stopping: orange,
    fault: vermillion,
  },
  severity: { note: skyBlue, warning: orange, breach: vermillion },
};

/** Dash pattern of each style, CSS pixels; none = unbroken. */
export const DASHES: Readonly<Record<'solid' | 'dashed' | 'dotted', readonly number[]>> = {
  solid: [],
  dashed: [7, 4],
  dotted: [1.5, 3],
};
