/** Where a record was found, for messages. */
export interface Place {
  file: string;
  /** Which one of a list, such as `surface 2`; empty for a record of its own. */
  prefix: string;
}

/** Name of a field, or of the record itself if the path is empty. */
export function fieldName({ prefix }: Place, path: string): string {
  if (path === '') return prefix === '' ? 'default export' : prefix;
  return prefix === '' ? path : `${prefix}, ${path}`;
}
