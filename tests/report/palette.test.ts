import { describe, expect, test } from 'vitest';
import { DARK, DASHES, LIGHT, OKABE_ITO, type Theme } from '../../harness/report/palette.ts';

const THEMES: [string, Theme][] = [
  ['light', LIGHT],
  ['dark', DARK],
];

describe.each(THEMES)('the %s look', (_name, theme) => {
  test('draws every trace in a colour of Okabe and Ito', () => {
    for (const colour of theme.series) expect(Object.values(OKABE_ITO)).toContain(colour);
    expect(new Set(theme.series).size).toBe(theme.series.length);
  });

  test('traces have 3 : 1 against their ground (WCAG 2.2, criterion 1.4.11)', () => {
    for (const colour of theme.series) {
      expect(contrast(colour, theme.card), colour).toBeGreaterThanOrEqual(3);
    }
  });

  test('text has 4.5 : 1 against both grounds (WCAG 2.2, criterion 1.4.3)', () => {
    for (const colour of [theme.ink, theme.muted, theme.accent, theme.held, theme.broken]) {
      for (const ground of [theme.page, theme.card]) {
        expect(contrast(colour, ground), `${colour} on ${ground}`).toBeGreaterThanOrEqual(4.5);
      }
    }
  });
});

test('the contrast formula gives the ratio of black on white, 21 (WCAG 2.2, definitions)', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9);
});

test('styles differ by their dashes', () => {
  expect(new Set(Object.values(DASHES).map(String)).size).toBe(Object.keys(DASHES).length);
});

/** Contrast ratio of WCAG 2.2, from its definitions of "contrast ratio", "relative luminance". */
function contrast(one: string, other: string): number {
  const [darker, lighter] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (lighter! + 0.05) / (darker! + 0.05);
}

function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}
