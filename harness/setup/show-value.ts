/** A value as a message shows it: short, on one line, told apart by kind. */
export function showValue(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object' && value !== null) return 'a group of fields';
  if (typeof value === 'function') return 'a function';
  if (typeof value === 'string') return JSON.stringify(shorten(value));
  return String(value);
}

function shorten(text: string): string {
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
