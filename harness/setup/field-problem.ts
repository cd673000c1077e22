import type { Problem } from '../problems.ts';
import { expectedOf } from './describe-field.ts';
import type { FieldMeta } from './field.ts';
import { nearestName } from './nearest-name.ts';
import type { FieldNode, SchemaNode } from './schema-node.ts';
import { showValue } from './show-value.ts';

/** Says what is wrong with the value of one field or group, and how to mend it. */
export function fieldProblem(
  file: string,
  field: string,
  node: SchemaNode,
  value: unknown,
): Problem {
  const expected = node.node === 'field' ? expectedOf(node.meta) : 'a group of fields';
  const found = value === undefined ? 'missing' : `found ${showValue(value)}`;
  const cure = node.node === 'field' ? fieldCure(node, value) : groupCure(node);
  return { file, field, message: `${found}, expected ${expected}.`, cure };
}

/** Units people mix up: what was written, times the factor, would be in `unit`. */
const MIX_UPS = [
  { unit: 'mm', other: 'm', factor: 1000 },
  { unit: 'ms', other: 's', factor: 1000 },
  { unit: 'us', other: 'ms', factor: 1000 },
  { unit: 'mA', other: 'A', factor: 1000 },
  { unit: '%', other: 'a share of 1', factor: 100 },
  { unit: 'deg', other: 'rad', factor: 180 / Math.PI },
  { unit: 'V', other: 'mV', factor: 1 / 1000 },
  { unit: 'kg', other: 'g', factor: 1 / 1000 },
  { unit: 'ohm', other: 'milliohm', factor: 1 / 1000 },
  { unit: 'kg m²', other: 'kg mm²', factor: 1e-6 },
];

function fieldCure(node: FieldNode, value: unknown): string {
  const { meta, fallback } = node;
  const leave = fallback === undefined ? '' : ` Left out, it is ${showValue(fallback)}.`;
  if (value === undefined) return `Add it: ${meta.meaning}`;
  if (meta.kind === 'text') return `Write ${meta.min} to ${meta.max} characters on one line.`;
  if (meta.kind === 'flag') return `Write true or false, without quotes.${leave}`;
  if (typeof value === 'string' && meta.choices !== undefined) {
    const near = nearestName(value, meta.choices);
    if (near !== undefined) return `Did you mean "${near}"?${leave}`;
  }
  if (meta.min === undefined) return `Write one of these words.${leave}`;
  return numberCure(meta, value) + leave;
}

function numberCure(meta: FieldMeta, value: unknown): string {
  const { min = 0, max = 0 } = meta;
  if (typeof value === 'string' && value.trim() !== '' && Number.isFinite(Number(value))) {
    return `Write ${Number(value)} without quotes.`;
  }
  if (typeof value !== 'number' || Number.isNaN(value)) {
    return meta.choices === undefined ? 'Write a number.' : 'Write the word or a number.';
  }
  const mixUp = MIX_UPS.find(
    ({ unit, factor }) =>
      unit === meta.unit && value * factor >= min && value * factor <= max && value !== 0,
  );
  if (mixUp !== undefined) {
    const meant = Number((value * mixUp.factor).toPrecision(6));
    return `If you meant ${mixUp.other}, write ${meant}.`;
  }
  if (value >= min && value <= max) return 'Round it.';
  return value < min ? `Raise it to ${min} or more.` : `Lower it to ${max} or less.`;
}

function groupCure(node: SchemaNode): string {
  if (node.node === 'group') return `Write { ${[...node.entries.keys()].join(', ')} }.`;
  if (node.node === 'variant') {
    const words = [...node.options.keys()].map((word) => `"${word}"`);
    return `Write { ${node.key}: ${words.join(' or ')}, ... }.`;
  }
  return '';
}
