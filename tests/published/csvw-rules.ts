// Source: W3C Recommendation "Metadata Vocabulary for Tabular Data" (CSV on the Web), 17 December
// 2015. The rules and section numbers are from memory.

/** A breach of a rule: `section: what`. */
type Breach = string;
type Json = Record<string, unknown>;

/** Checks a description of one table against the rules a validator must hold it to. */
export function csvwBreaches(document: unknown): Breach[] {
  if (!isObject(document)) return ['5: a description is a JSON object'];
  return [
    ...contextBreaches(document['@context']),
    ...propertyBreaches(document, ['@context', ...TABLE, ...INHERITED], '5.4'),
    ...(typeof document.url === 'string' ? [] : ['5.4: a table must have a url']),
    ...(document['@type'] === undefined || document['@type'] === 'Table' ? [] : ['5.4: @type']),
    ...dialectBreaches(document.dialect),
    ...schemaBreaches(document.tableSchema),
    ...noteBreaches(document.notes),
  ];
}

/** 5.2: the namespace, alone or with a local context of @base and @language only. */
function contextBreaches(context: unknown): Breach[] {
  if (context === NAMESPACE) return [];
  const local = Array.isArray(context) && context.length === 2 ? context[1] : undefined;
  const fits =
    Array.isArray(context) &&
    context[0] === NAMESPACE &&
    isObject(local) &&
    Object.keys(local).every((key) => key === '@base' || key === '@language');
  return fits ? [] : ['5.2: @context'];
}

/** 5.8: what is not a term of the vocabulary is an absolute URL or a prefixed name. */
function propertyBreaches(object: Json, terms: readonly string[], section: string): Breach[] {
  return Object.entries(object).flatMap(([name, value]) => {
    if (terms.includes(name)) return [];
    if (!isCommonName(name)) return [`${section}: no such property "${name}"`];
    return valueBreaches(value, name);
  });
}

/** 5.8 and the JSON-LD dialect: what the value of a common property may be. */
function valueBreaches(value: unknown, where: string): Breach[] {
  if (Array.isArray(value)) {
    return value.flatMap((each) =>
      Array.isArray(each) ? [`5.8: list in a list, ${where}`] : valueBreaches(each, where),
    );
  }
  if (!isObject(value)) return value === null ? [`5.8: null, ${where}`] : [];
  return Object.entries(value).flatMap(([name, each]) => {
    if (name.startsWith('@')) {
      return ['@id', '@type', '@value', '@language'].includes(name)
        ? []
        : [`5.8: ${name}, ${where}`];
    }
    return isCommonName(name) ? valueBreaches(each, name) : [`5.8: "${name}", ${where}`];
  });
}

function schemaBreaches(schema: unknown): Breach[] {
  if (schema === undefined || typeof schema === 'string') return [];
  if (!isObject(schema)) return ['5.5: tableSchema'];
  const { columns } = schema;
  if (!Array.isArray(columns)) return ['5.5: columns is a list'];
  const names = columns.flatMap((column) => (isObject(column) ? (column.name ?? []) : []));
  return [
    ...propertyBreaches(schema, ['columns', ...SCHEMA, ...INHERITED], '5.5'),
    ...(new Set(names).size === names.length ? [] : ['5.6: two columns of one name']),
    ...columns.flatMap(columnBreaches),
  ];
}

function columnBreaches(column: unknown): Breach[] {
  if (!isObject(column)) return ['5.6: a column is an object'];
  const { name, titles, datatype, required } = column;
  const nulls = column.null;
  return [
    ...propertyBreaches(column, [...COLUMN, ...INHERITED], '5.6'),
    ...(name === undefined || isColumnName(name) ? [] : [`5.6: name "${name}"`]),
    ...(titles === undefined || isNaturalLanguage(titles) ? [] : ['5.6: titles']),
    ...(datatype === undefined || DATATYPES.includes(String(datatype)) ? [] : ['5.11.1: datatype']),
    ...(required === undefined || typeof required === 'boolean' ? [] : ['5.7: required']),
    ...(nulls === undefined || isTexts(nulls) ? [] : ['5.7: null']),
  ];
}

/** 5.6, and RFC 6570 section 2.3: a variable name, not beginning with an underscore. */
function isColumnName(name: unknown): boolean {
  const character = '(?:[A-Za-z0-9_]|%[0-9A-Fa-f]{2})';
  const grammar = new RegExp(`^(?!_)${character}+(?:\\.${character}+)*$`);
  return typeof name === 'string' && grammar.test(name);
}

/** 5.1.6: a text, a list of them, or such by language. */
function isNaturalLanguage(value: unknown): boolean {
  return isTexts(value) || (isObject(value) && Object.values(value).every(isTexts));
}

function dialectBreaches(dialect: unknown): Breach[] {
  if (dialect === undefined || typeof dialect === 'string') return [];
  if (!isObject(dialect)) return ['5.9: dialect'];
  return Object.entries(dialect).flatMap(([name, value]) => {
    const fits = DIALECT[name];
    if (fits === undefined) return [`5.9: no such property "${name}"`];
    return fits(value) ? [] : [`5.9: ${name}`];
  });
}

/** 5.4: a list of objects, each as the value of a common property. */
function noteBreaches(notes: unknown): Breach[] {
  if (notes === undefined) return [];
  if (!Array.isArray(notes) || !notes.every(isObject)) return ['5.4: notes is a list of objects'];
  return valueBreaches(notes, 'notes');
}

function isCommonName(name: string): boolean {
  const prefix = /^([A-Za-z][\w.-]*):(?!\/\/)./.exec(name)?.[1];
  if (prefix !== undefined) return PREFIXES.includes(prefix);
  return URL.canParse(name);
}

const isObject = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isText = (value: unknown): boolean => typeof value === 'string';
const isTexts = (value: unknown): boolean =>
  isText(value) || (Array.isArray(value) && value.every(isText));
const isFlag = (value: unknown): boolean => typeof value === 'boolean';
const isCount = (value: unknown): boolean => Number.isInteger(value) && Number(value) >= 0;

const NAMESPACE = 'http://www.w3.org/ns/csvw';
const TABLE = words('url dialect notes suppressOutput tableDirection tableSchema transformations');
TABLE.push('@id', '@type');
const SCHEMA = words('foreignKeys primaryKey rowTitles @id @type');
const COLUMN = words('name suppressOutput titles virtual @id @type');
const INHERITED = words(
  'aboutUrl datatype default lang null ordered propertyUrl required separator textDirection ' +
    'valueUrl',
);
/** 5.11.1: the built-in datatypes. */
const DATATYPES = words(
  'anyAtomicType anyURI base64Binary boolean date dateTime dateTimeStamp decimal integer long ' +
    'int short byte nonNegativeInteger positiveInteger unsignedLong unsignedInt unsignedShort ' +
    'unsignedByte nonPositiveInteger negativeInteger double duration dayTimeDuration ' +
    'yearMonthDuration float gDay gMonth gMonthDay gYear gYearMonth hexBinary QName string ' +
    'normalizedString token language Name NMTOKEN xml html json time number binary datetime any',
);
/** Some of the prefixes of the RDFa initial context; others are not allowed at all. */
const PREFIXES = words('csvw dc dcat dcterms foaf org owl prov qb rdf rdfs schema skos void xsd');
const DIALECT: Record<string, (value: unknown) => boolean> = {
  '@id': isText,
  '@type': (value) => value === 'Dialect',
  commentPrefix: isText,
  delimiter: isText,
  doubleQuote: isFlag,
  encoding: isText,
  header: isFlag,
  headerRowCount: isCount,
  lineTerminators: isTexts,
  quoteChar: (value) => value === null || isText(value),
  skipBlankRows: isFlag,
  skipColumns: isCount,
  skipInitialSpace: isFlag,
  skipRows: isCount,
  trim: (value) => isFlag(value) || ['true', 'false', 'start', 'end'].includes(String(value)),
};

function words(text: string): string[] {
  return text.split(' ');
}
