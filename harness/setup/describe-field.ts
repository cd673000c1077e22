import type { FieldMeta } from './field.ts';
import type { FieldDoc } from './list-fields.ts';

type Described = FieldMeta & { fallback?: string | number | boolean };

/** The reference text of a field: meaning, range and default, what 0 means, cost of an error. */
export function describeField(field: Described): string[] {
  const fallback = field.fallback === undefined ? 'required' : `default ${quote(field.fallback)}`;
  const range = `${expectedOf(field)}; ${fallback}.`;
  return [
    field.meaning,
    range.charAt(0).toUpperCase() + range.slice(1),
    ...(field.zero === undefined ? [] : [`0: ${field.zero}`]),
    `If wrong: ${field.wrong}`,
  ];
}

/** What may be written there, such as `0.5 to 4 (exponent)` or `"none" or "averaged"`. */
export function expectedOf(field: FieldMeta): string {
  if (field.kind === 'flag') return 'true or false';
  if (field.kind === 'text') return `a text of ${field.min} to ${field.max} characters`;
  const whole = field.whole ? ', a whole number' : '';
  const unit = (field.unit === '1' ? '' : ` (${field.unit})`) + whole;
  const range = field.min === undefined ? [] : [`${field.min} to ${field.max}${unit}`];
  return [...(field.choices ?? []).map(quote), ...range].join(' or ');
}

/** The whole reference as plain text, one block a field, after one for each group. */
export function formatFields(fields: readonly FieldDoc[]): string {
  const blocks = fields.flatMap((field, i) => {
    const only = field.only === undefined ? [] : [`Only with ${field.only}.`];
    const lines = [...describeField(field), ...only].map((line) => `  ${line}`);
    const block = [`${field.record} ${field.path}`, ...lines].join('\n');
    if (field.group === undefined || field.group === fields[i - 1]?.group) return [block];
    const path = field.path.slice(0, field.path.lastIndexOf('.'));
    return [`${field.record} ${path}: ${field.group}`, block];
  });
  return `${blocks.join('\n\n')}\n`;
}

function quote(value: string | number | boolean): string {
  return typeof value === 'string' ? `"${value}"` : String(value);
}
