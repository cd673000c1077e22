import { describeField, type expectedOf } from '../../harness/setup/describe-field.ts';
import { RECORDS } from '../../harness/setup/list-fields.ts';
import { type GroupNode, type SchemaNode, schemaNode } from '../../harness/setup/schema-node.ts';

/** Source of harness/setup/types.ts, written from the schemas' metadata. */
export function typesSource(): string {
  const head = [
    '// Written from the schemas by tests/setup/types.test.ts; to write it again:',
    '// npx vitest run tests/setup/types.test.ts -u',
  ].join('\n');
  const blocks = [
    ...declarations('VehicleInput', 'Vehicle', schemaNode(RECORDS.vehicle)),
    ...declarations('SurfaceInput', 'Surface', schemaNode(RECORDS.surface)),
    ...declarations('SetupInput', 'Setup', schemaNode(RECORDS.setup)),
  ];
  return `${[head, ...blocks].join('\n\n')}\n`;
}

/** The node's own declaration, then those of the groups within it, whose names begin by `stem`. */
function declarations(name: string, stem: string, node: SchemaNode): string[] {
  if (node.node === 'field') return [];
  const head = comment(documentation(node), '');
  const keyword = name.endsWith('Input') ? 'export ' : '';
  if (node.node === 'variant') {
    const options = [...node.options].map(([word, option]) => ({ word, option }));
    const names = options.map(({ word }) => stem + pascal(word));
    return [
      `${head}type ${name} = ${names.join(' | ')};`,
      ...options.map(({ word, option }) => {
        const key = `${comment([option.meaning], '  ')}  ${node.key}: '${word}';\n`;
        return `interface ${stem}${pascal(word)} {\n${key}${members(stem, option)}}`;
      }),
    ];
  }
  return [
    `${head}${keyword}interface ${name} {\n${members(stem, node)}}`,
    ...[...node.entries].flatMap(([key, entry]) =>
      declarations(stem + pascal(key), stem + pascal(key), entry),
    ),
  ];
}

function members(stem: string, group: GroupNode): string {
  return [...group.entries]
    .map(([name, node]) => {
      const type = node.node === 'field' ? fieldType(node.meta) : stem + pascal(name);
      const key = node.optional ? `${name}?` : name;
      const missing = node.optional ? ' | undefined' : '';
      return `${comment(documentation(node), '  ')}  ${key}: ${type}${missing};\n`;
    })
    .join('');
}

function pascal(name: string): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}

function fieldType(meta: Parameters<typeof expectedOf>[0]): string {
  if (meta.kind === 'flag') return 'boolean';
  if (meta.kind === 'text') return 'string';
  const words = (meta.choices ?? []).map((word) => `'${word}'`);
  return [...words, ...(meta.min === undefined ? [] : ['number'])].join(' | ');
}

function documentation(node: SchemaNode): string[] {
  if (node.node === 'group') return [node.meaning];
  if (node.node === 'variant')
    return [`One of ${node.options.size} kinds, told apart by "${node.key}".`];
  const { meta, fallback } = node;
  return describeField(fallback === undefined ? meta : { ...meta, fallback });
}

/** A TSDoc comment, wrapped at 100 columns, with a blank line between paragraphs. */
function comment(paragraphs: string[], indent: string): string {
  const room = 100 - indent.length - 3;
  const lines = paragraphs.flatMap((paragraph, i) => [
    ...(i === 0 ? [] : ['']),
    ...wrap(paragraph, room),
  ]);
  const [only] = lines;
  if (lines.length === 1 && only !== undefined && only.length + 4 <= room) {
    return `${indent}/** ${only} */\n`;
  }
  const body = lines.map((line) => `${indent} *${line === '' ? '' : ` ${line}`}\n`).join('');
  return `${indent}/**\n${body}${indent} */\n`;
}

function wrap(text: string, room: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= room) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(word);
  }
  return lines;
}
