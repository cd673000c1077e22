/** Writes a time in seconds for people; `decimals` of the seconds, 2 unless given. */
export type TimeFormat = (seconds: number, decimals?: number) => string;

/**
 * One way of writing times for a whole report, so that no two of its times look different:
 * `12.34 s` for a run below ten minutes, `12:34.56` below an hour, `1:02:03.45` beyond.
 * @param lastS greatest time of the run, seconds
 */
export function createTimeFormat(lastS: number): TimeFormat {
  if (lastS < 600) return (seconds, decimals = 2) => `${formatNumber(seconds, decimals)} s`;
  const withHours = lastS >= 3600;
  return (seconds, decimals = 2) => {
    const scale = 10 ** decimals;
    const parts = Math.round(Math.abs(seconds) * scale);
    const whole = Math.floor(parts / scale);
    const fraction = decimals === 0 ? '' : `.${pad(parts % scale, decimals)}`;
    const minutes = Math.floor(whole / 60);
    const head = withHours
      ? `${Math.floor(minutes / 60)}:${pad(minutes % 60, 2)}`
      : String(minutes);
    return `${seconds < 0 && parts > 0 ? '\u2212' : ''}${head}:${pad(whole % 60, 2)}${fraction}`;
  };
}

/** A number with a true minus sign and never a negative zero. */
export function formatNumber(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `\u2212${text}` : text;
}

/** Fewest decimals, `most` at most, that show every value as it is. */
export function decimalsOf(values: Iterable<number | null>, most = 3): number {
  let decimals = 0;
  for (const value of values) {
    while (value !== null && decimals < most && Math.abs(value) < 1e6) {
      if (Math.abs(Number(value.toFixed(decimals)) - value) < 1e-9) break;
      decimals += 1;
    }
  }
  return decimals;
}

function pad(value: number, width: number): string {
  return String(value).padStart(width, '0');
}
