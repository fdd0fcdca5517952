import { z } from 'zod';
import { nearestWord, placeOf } from '../diagnostics/index.js';
import type { Diagnostic, SourceText, Span } from '../diagnostics/index.js';
import { listHint } from './hints.js';
import { expectationOf } from './schema.js';
import type { Expectation } from './schema.js';
import { describeTree, plainOf, quote } from './tree.js';
import type { Mapping, Tree } from './tree.js';

/** One reading of a lesson: its findings, and what YAML could not understand. */
export interface Reading {
  readonly source: SourceText;
  readonly diagnostics: Diagnostic[];
  /** Lines with syntax errors: a finding about their text would only repeat the error in other words. */
  readonly faultyLines: ReadonlySet<number>;
}

/** Whether a stretch of the lesson holds a syntax error on one of its lines. */
export function isFaulty(reading: Reading, span: Span): boolean {
  if (reading.faultyLines.size === 0) return false;
  const last = placeOf(reading.source, Math.max(span.start, span.end - 1)).line;
  for (let { line } = placeOf(reading.source, span.start); line <= last; line++) {
    if (reading.faultyLines.has(line)) return true;
  }
  return false;
}

/** More findings than anybody reads; a file with more of them is not a lesson, or has one fault all over. */
export const maximumFindings = 200;

export const isFull = (reading: Reading): boolean => reading.diagnostics.length >= maximumFindings;

/** Keeps a finding, unless the text that it judges (`about`) could not be read to begin with. */
export function report(
  reading: Reading,
  diagnostic: Diagnostic,
  about: Span | undefined = diagnostic.span,
): void {
  if (isFull(reading)) return;
  if (about === undefined || !isFaulty(reading, about)) reading.diagnostics.push(diagnostic);
}

type Shape = Readonly<Record<string, z.ZodType>>;

/** The values that were there and fit; those that were not are reported. */
export type Fields<S extends Shape, Nested extends keyof S> = {
  readonly [K in Exclude<keyof S, Nested>]?: Exclude<z.output<S[K]>, undefined>;
};

/**
 * Reads the keys of a mapping that stand for one value each. Reports unknown and missing keys and values that do not
 * fit. The keys in `nested` may be there; their values are left to the caller.
 */
export function readFields<S extends Shape, const Nested extends keyof S & string = never>(
  reading: Reading,
  shape: S,
  mapping: Mapping,
  nested: readonly Nested[] = [],
  helpForUnknown: (name: string) => string | undefined = () => undefined,
): Fields<S, Nested> {
  const values: Record<string, unknown> = {};
  const free = Object.keys(shape).filter(known => !mapping.entries.has(known));
  const misspelt = new Set<string>();
  for (const [name, entry] of mapping.entries) {
    if (isFull(reading)) break;
    const schema = Object.hasOwn(shape, name) ? shape[name] : undefined;
    if (schema === undefined) {
      const meant = nearestWord(name, free);
      if (meant !== undefined) misspelt.add(meant);
      const help = helpAfterComma(mapping, name) ?? helpForUnknown(name) ?? helpWithKey(name, meant, free);
      unknownKey(reading, name, entry.key, help);
    } else if (!nested.some(one => one === name)) {
      const result = schema.safeParse(plainOf(entry.value));
      if (result.success && result.data !== undefined) values[name] = result.data;
      else wrongValue(reading, name, entry.key, entry.value, schema);
    }
  }
  for (const [name, schema] of Object.entries(shape)) {
    const absent = !mapping.entries.has(name) && !misspelt.has(name);
    if (absent && !schema.safeParse(undefined).success) missingKey(reading, name, mapping);
  }
  // Each value has just been checked against the schema of its own key.
  return values as Fields<S, Nested>;
}

/** Words behind a comma inside braces, which are the rest of the text before it. */
function helpAfterComma({ entries, span }: Mapping, name: string): string | undefined {
  const value = entries.get(name)?.value;
  if (value === undefined || !isNothing(value) || span.source.text[span.start] !== '{') return undefined;
  const names = [...entries.keys()];
  const cut = names.slice(0, names.indexOf(name)).findLast(other => !isNothing(entries.get(other)?.value));
  return cut === undefined
    ? undefined
    : `inside braces a comma ends a text: put the whole text of \`${cut}\` in double quotes`;
}

function helpWithKey(name: string, meant: string | undefined, free: readonly string[]): string | undefined {
  if (name.includes('\u00A0')) {
    return 'retype the spaces of this line: it holds no-break spaces, which YAML does not take for indentation';
  }
  if (meant !== undefined) return `did you mean \`${meant}\`?`;
  return free.length > 0 ? `known here: ${free.map(one => `\`${one}\``).join(', ')}` : undefined;
}

function unknownKey(reading: Reading, name: string, span: Span, help: string | undefined): void {
  report(reading, {
    code: 'L0101',
    severity: 'error',
    message: `\`${name.trim()}\` is not a key that can stand here`,
    span,
    ...(help === undefined ? {} : { help }),
  });
}

function missingKey(reading: Reading, name: string, mapping: Mapping): void {
  const lineEnd = reading.source.text.indexOf('\n', mapping.span.start);
  const end = Math.min(mapping.span.end, lineEnd < 0 ? mapping.span.end : lineEnd);
  report(
    reading,
    {
      code: 'L0102',
      severity: 'error',
      message: `\`${name}\` is missing`,
      span: { ...mapping.span, end },
      label: 'in what begins here',
      help: `add \`${name}:\` with its value`,
    },
    mapping.span,
  );
}

const aList: Expectation = { code: 'L0103', expected: 'a list', types: [], hint: listHint };

/** Reports a value that does not fit the schema of its key; in a list, each item that does not. */
export function wrongValue(reading: Reading, name: string, key: Span, tree: Tree, schema: z.ZodType): void {
  const inner = schema instanceof z.ZodOptional ? (schema.unwrap() as z.ZodType) : schema;
  if (inner instanceof z.ZodArray && tree.kind === 'list') {
    const element = inner.element as z.ZodType;
    const bad = tree.items.filter(item => !element.safeParse(plainOf(item)).success);
    for (const item of bad) wrongValue(reading, name, item.span, item, element);
    if (bad.length > 0) return;
  }
  if (isNothing(tree)) {
    nothingAfter(reading, name, key);
    return;
  }
  const { code, expected, types, hint } = expectationOf(inner) ?? aList;
  const rightType = tree.kind === 'scalar' && types.some(type => type === typeof tree.value);
  const help = hint?.(tree);
  report(reading, {
    code: rightType ? code : 'L0103',
    severity: 'error',
    message: `\`${name}\` takes ${expected}, not ${rightType && tree.written.trim() !== '' ? quote(tree) : describeTree(tree)}`,
    span: tree.span,
    ...(help === undefined ? {} : { help }),
  });
}

/** Whether there is no value at all, as after `say:`. */
export const isNothing = (tree: Tree | undefined): boolean =>
  tree?.kind === 'scalar' && tree.value === null && tree.written === '';

function nothingAfter(reading: Reading, name: string, key: Span): void {
  report(reading, {
    code: 'L0103',
    severity: 'error',
    message: `nothing stands after \`${name}\``,
    span: key,
    help: 'write its value, or remove the key',
  });
}

/** The mapping that a value should be; anything else is reported. */
export function asMapping(
  reading: Reading,
  name: string,
  key: Span,
  tree: Tree,
  example: string,
): Mapping | undefined {
  if (tree.kind === 'mapping') return tree;
  if (isNothing(tree)) nothingAfter(reading, name, key);
  else {
    report(reading, {
      code: 'L0103',
      severity: 'error',
      message: `\`${name}\` takes a mapping such as \`${example}\`, not ${describeTree(tree)}`,
      span: tree.span,
    });
  }
  return undefined;
}

/** The items of the list that a value should be; anything else is reported. */
export function asList(reading: Reading, name: string, key: Span, tree: Tree): readonly Tree[] {
  if (tree.kind === 'list') return tree.items;
  wrongValue(reading, name, key, tree, listOfAnything);
  return [];
}
const listOfAnything = z.array(z.unknown());
