/** Marks that other programs put between columns, and how a mapping writes them. */
const MARKS = [
  { mark: ';', name: 'semicolons', written: ';' },
  { mark: '\t', name: 'tabs', written: '\\t' },
  { mark: '|', name: 'bars', written: '|' },
  { mark: ',', name: 'commas', written: ',' },
];

/** What stands between the columns of a log instead of the mark it was read by. */
export interface ForeignDelimiter {
  /** What was found, such as `semicolons`. */
  name: string;
  /** As a mapping writes it, without quotes. */
  written: string;
}

/**
 * What seems to stand between the columns of a header that was read as one column; undefined if it
 * may as well be one.
 */
export function foreignDelimiter(header: readonly string[]): ForeignDelimiter | undefined {
  const [only = '', ...more] = header;
  return more.length > 0 ? undefined : MARKS.find(({ mark }) => only.split(mark).length > 2);
}
