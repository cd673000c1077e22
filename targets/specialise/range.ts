/** What a number can be; undefined instead = what may be no number at all. */
export interface Range {
  least: number;
  most: number;
  /** true = it may be NaN. */
  nan: boolean;
  /** true = it is whole, or endless. */
  whole: boolean;
}

export function exactly(value: number): Range {
  return { least: value, most: value, nan: false, whole: Number.isInteger(value) };
}

/** Whatever the bit operators make. */
export const BITS: Range = { least: -(2 ** 31), most: 2 ** 32 - 1, nan: false, whole: true };

export function joinRanges(a: Range, b: Range): Range {
  return {
    least: Math.min(a.least, b.least),
    most: Math.max(a.most, b.most),
    nan: a.nan || b.nan,
    whole: a.whole && b.whole,
  };
}

function has(range: Range, value: number): boolean {
  return range.least <= value && value <= range.most;
}

function isEndless({ least, most }: Range): boolean {
  return least === -Infinity || most === Infinity;
}

/** What an operator makes of two numbers; rounding never leaves the range of the exact results. */
export function computeRange(operator: string, a: Range, b: Range): Range | undefined {
  const whole = a.whole && b.whole;
  switch (operator) {
    case '+': {
      const opposite =
        (a.most === Infinity && b.least === -Infinity) ||
        (a.least === -Infinity && b.most === Infinity);
      return of([a.least + b.least, a.most + b.most], a.nan || b.nan || opposite, whole);
    }
    case '-':
      return computeRange('+', a, negative(b));
    case '*': {
      const lost = (has(a, 0) && isEndless(b)) || (has(b, 0) && isEndless(a));
      return of(
        corners(a, b, (x, y) => x * y),
        a.nan || b.nan || lost,
        whole,
      );
    }
    case '/': {
      const lost = (has(a, 0) && has(b, 0)) || (isEndless(a) && isEndless(b));
      const ends = has(b, 0) ? [-Infinity, Infinity] : corners(a, b, (x, y) => x / y);
      return of(ends, a.nan || b.nan || lost, false);
    }
    case '&': {
      const mask = [a, b].find(({ least, most, nan }) => !nan && least >= 0 && most < 2 ** 31);
      return mask ? { ...BITS, least: 0, most: mask.most } : BITS;
    }
    case '|': {
      const both = [a, b].every(({ least, most, nan }) => !nan && least >= 0 && most < 2 ** 31);
      if (!both) return BITS;
      const most = 2 ** Math.ceil(Math.log2(Math.max(a.most, b.most) + 1)) - 1;
      return { ...BITS, least: 0, most };
    }
    case '^':
    case '<<':
    case '>>':
    case '>>>':
      return BITS;
    default:
      return undefined;
  }
}

export function negative({ least, most, nan, whole }: Range): Range {
  return { least: -most, most: -least, nan, whole };
}

function corners(a: Range, b: Range, compute: (x: number, y: number) => number): number[] {
  const all = [a.least, a.most].flatMap((x) => [b.least, b.most].map((y) => compute(x, y)));
  // Of zero by Infinity nothing is left but NaN, which is told apart.
  return all.map((value) => (Number.isNaN(value) ? 0 : value));
}

function of(ends: number[], nan: boolean, whole: boolean): Range {
  const known = ends.map((end) => (Number.isNaN(end) ? 0 : end));
  return { least: Math.min(...known), most: Math.max(...known), nan, whole };
}
