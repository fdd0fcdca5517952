import type { Span } from '../diagnostics/index.js';

/** A YAML document in our own terms: what was written and where. Aliases are resolved, keys are text. */
export type Tree = Mapping | List | Scalar;

export interface Mapping {
  readonly kind: 'mapping';
  readonly entries: ReadonlyMap<string, Entry>;
  readonly span: Span;
}

export interface Entry {
  readonly key: Span;
  readonly value: Tree;
}

export interface List {
  readonly kind: 'list';
  readonly items: readonly Tree[];
  readonly span: Span;
}

export interface Scalar {
  readonly kind: 'scalar';
  readonly value: string | number | boolean | null;
  /** The text as written, without quotes: `010` where the value is 10. */
  readonly written: string;
  /** The text without quotes or block header. */
  readonly span: Span;
  /** Where each character of a text value stands in the source; one more entry for its end. */
  readonly offsets: () => readonly number[];
}

/** The tree as plain data, for a schema. */
export function plainOf(tree: Tree): unknown {
  switch (tree.kind) {
    case 'scalar':
      return tree.value;
    case 'list':
      return tree.items.map(plainOf);
    case 'mapping':
      return Object.fromEntries([...tree.entries].map(([key, entry]) => [key, plainOf(entry.value)]));
  }
}

/** The beginning of what is written, on one line and in backquotes. */
export function quote(scalar: Scalar): string {
  const line = scalar.written.trim().replace(/\s+/g, ' ');
  return `\`${line.length > 40 ? `${line.slice(0, 39)}…` : line}\``;
}

/** What a value is, for a message: `the text \`66%\``, `a list`. */
export function describeTree(tree: Tree): string {
  switch (tree.kind) {
    case 'mapping':
      return 'a mapping';
    case 'list':
      return tree.items.length === 0
        ? 'an empty list'
        : `a list of ${tree.items.length === 1 ? 'one item' : `${tree.items.length} items`}`;
    case 'scalar':
      if (tree.value === null) return 'nothing';
      if (typeof tree.value === 'string')
        return tree.value.trim() === '' ? 'an empty text' : `the text ${quote(tree)}`;
      return typeof tree.value === 'number' ? `the number ${quote(tree)}` : `the truth value ${quote(tree)}`;
  }
}
