import { expressionOf } from './shape.js';
import type { Shape } from './shape.js';

/** What the text of a shape can begin with. */
export interface Openings {
  /** First letters of a phrase up to what is no letter, in small letters: `half` of `half-diminished`. */
  readonly words: ReadonlySet<string>;
  /** How else it can begin: a character, or all of a token. */
  readonly expressions: readonly RegExp[];
}

interface Found {
  readonly words: ReadonlySet<string>;
  /** Regular expressions of single characters and of tokens. */
  readonly expressions: ReadonlySet<string>;
  readonly isNullable: boolean;
  /** A rule that was being looked at already was left out. */
  readonly isPartial: boolean;
}

const letters = /^\p{L}+/u;
const none: Found = { words: new Set(), expressions: new Set(), isNullable: false, isPartial: false };
function union(all: readonly Found[], isNullable: boolean): Found {
  const words = new Set<string>();
  const expressions = new Set<string>();
  for (const each of all) {
    for (const word of each.words) words.add(word);
    for (const expression of each.expressions) expressions.add(expression);
  }
  return { words, expressions, isNullable, isPartial: all.some(({ isPartial }) => isPartial) };
}

/** The grammar is a web of rules that name each other: each is looked through once. */
const known = new WeakMap<Shape, Found>();

function findOnce(shape: Shape, open: ReadonlySet<Shape>): Found {
  const before = known.get(shape);
  if (before !== undefined) return before;
  const found = find(shape, open);
  if (!found.isPartial) known.set(shape, found);
  return found;
}

function find(shape: Shape, open: ReadonlySet<Shape>): Found {
  const within = (part: Shape): Found => findOnce(part, open);
  switch (shape.kind) {
    case 'text': {
      const word = letters.exec(shape.text)?.[0].toLowerCase();
      return word === undefined
        ? { ...none, expressions: new Set([expressionOf(shape)]) }
        : { ...none, words: new Set([word]) };
    }
    case 'character':
      return { ...none, expressions: new Set([expressionOf(shape)]) };
    case 'sequence': {
      const parts: Found[] = [];
      for (const part of shape.parts) {
        const found = within(part);
        parts.push(found);
        if (!found.isNullable) return union(parts, false);
      }
      return union(parts, true);
    }
    case 'choice': {
      const options = shape.options.map(within);
      return union(
        options,
        options.some(option => option.isNullable),
      );
    }
    case 'optional':
      return { ...within(shape.of), isNullable: true };
    case 'repeated':
      return within(shape.of);
    case 'rule':
      // A rule that is open already adds nothing that it does not add itself.
      return open.has(shape)
        ? { ...none, isPartial: true }
        : findOnce(shape.body(), new Set([...open, shape]));
    case 'token':
      // All of it, so that the `b` of a flat opens no `bar`.
      return { ...none, expressions: new Set([expressionOf(shape)]) };
  }
}

/** Many shapes begin with the same few tokens; each is compiled once. */
const compiled = new Map<string, RegExp>();

function compiledOnce(expression: string): RegExp {
  let made = compiled.get(expression);
  if (made === undefined) compiled.set(expression, (made = new RegExp(expression, 'uy')));
  return made;
}

/** What a shape can begin with; `undefined` where it can be empty, so that anything may follow. */
export function openingsOf(shape: Shape): Openings | undefined {
  const { words, expressions, isNullable } = findOnce(shape, new Set());
  return isNullable ? undefined : { words, expressions: [...expressions].map(compiledOnce) };
}

/** Whether what stands at a place can begin a shape. `word` is what `wordAt` gives there. */
export function canOpen({ words, expressions }: Openings, text: string, at: number, word: string): boolean {
  if (words.has(word)) return true;
  for (const expression of expressions) {
    expression.lastIndex = at;
    if (expression.test(text)) return true;
  }
  return false;
}

const run = /\p{L}+/uy;

/** The letters at a place up to what is no letter, in small letters; empty where none stands there. */
export function wordAt(text: string, at: number): string {
  run.lastIndex = at;
  return run.exec(text)?.[0].toLowerCase() ?? '';
}
