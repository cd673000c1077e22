import { DateTime } from 'luxon';

/**
 * Makes a reader of written dates and times of day.
 *
 * @param format of field letters by Unicode TR 35, such as `dd.MM.yyyy HH:mm:ss.SSS`; without a
 * date, all times lie on one and the same day
 * @param zone IANA name of the zone the log was written in
 * @returns reader that gives milliseconds, NaN for a text that does not fit
 */
export function createTimeParser(format: string, zone: string): (text: string) => number {
  const dated = dateIn(format) === 'whole';
  const parser = DateTime.buildFormatParser(dated ? format : `yyyy-MM-dd ${format}`, ENGLISH);
  return (text) => {
    const written = dated ? text : `2000-01-01 ${text}`;
    return DateTime.fromFormatParser(written, parser, { ...ENGLISH, zone }).toMillis();
  };
}

/** What is wrong with a format; undefined = nothing. */
export function timeFormatProblem(format: string): string | undefined {
  if (dateIn(format) === 'part') return 'holds a part of a date; expected a whole one or none.';
  const read = DateTime.fromFormat(SAMPLE.toFormat(format, ENGLISH), format, UTC);
  if (read.isValid && read.hour === SAMPLE.hour) return undefined;
  return 'holds no time of day that can be read back; expected such as "HH:mm:ss.SSS".';
}

/** Whether there is such a time zone. */
export function isZone(zone: string): boolean {
  return SAMPLE.setZone(zone).isValid;
}

const ENGLISH = { locale: 'en' };
const UTC = { ...ENGLISH, zone: 'utc' };
const SAMPLE = DateTime.utc(2001, 2, 3, 14, 5, 6, 789);

/** How much of the date a format holds: one sample must come back, two must differ. */
function dateIn(format: string): 'whole' | 'part' | 'none' {
  const text = SAMPLE.toFormat(format, ENGLISH);
  if (text === SAMPLE.set({ year: 1987, month: 11, day: 25 }).toFormat(format, ENGLISH))
    return 'none';
  const read = DateTime.fromFormat(text, format, UTC);
  return read.toISODate() === SAMPLE.toISODate() ? 'whole' : 'part';
}
