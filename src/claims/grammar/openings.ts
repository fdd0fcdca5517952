import type { Shape } from './shape.js';

/** What the text of a shape can begin with. */
export interface Openings {
  /** First letters of a phrase up to what is no letter, in small letters: `half` of `half-diminished`. */
  readonly words: ReadonlySet<string>;
  /** Other first characters; `undefined` where there are none. */
  readonly character: RegExp | undefined;
}

interface Found {
  readonly words: readonly string[];
  /** Insides of a character class. */
  readonly classes: readonly string[];
  readonly isNullable: boolean;
}

const letters = /^\p{L}+/u;
const escaped = (character: string): string => character.replace(/[\\\]^-]/gu, '\\$&');

const none: Found = { words: [], classes: [], isNullable: false };
const union = (all: readonly Found[], isNullable: boolean): Found => ({
  words: all.flatMap(each => each.words),
  classes: all.flatMap(each => each.classes),
  isNullable,
});

function find(shape: Shape, inToken: boolean, open: ReadonlySet<Shape>): Found {
  switch (shape.kind) {
    case 'text': {
      const word = inToken ? undefined : letters.exec(shape.text)?.[0].toLowerCase();
      return word === undefined
        ? { ...none, classes: [escaped([...shape.text][0] ?? '')] }
        : { ...none, words: [word] };
    }
    case 'character':
      return { ...none, classes: [shape.class] };
    case 'sequence': {
      const parts: Found[] = [];
      for (const part of shape.parts) {
        const found = find(part, inToken, open);
        parts.push(found);
        if (!found.isNullable) return union(parts, false);
      }
      return union(parts, true);
    }
    case 'choice': {
      const options = shape.options.map(option => find(option, inToken, open));
      return union(
        options,
        options.some(option => option.isNullable),
      );
    }
    case 'optional':
      return { ...find(shape.of, inToken, open), isNullable: true };
    case 'repeated':
      return find(shape.of, inToken, open);
    case 'rule':
      // A rule that is open already adds nothing that it does not add itself.
      return open.has(shape) ? none : find(shape.body(), false, new Set([...open, shape]));
    case 'token':
      return find(shape.body, true, open);
  }
}

/** What a shape can begin with; `undefined` where it can be empty, so that anything may follow. */
export function openingsOf(shape: Shape): Openings | undefined {
  const { words, classes, isNullable } = find(shape, false, new Set());
  if (isNullable) return undefined;
  // A class that excludes characters cannot be joined with others.
  const parts = [...new Set(classes)].map(each => `[${each}]`);
  return {
    words: new Set(words),
    character: parts.length === 0 ? undefined : new RegExp(parts.join('|'), 'uy'),
  };
}

/** Whether what stands at a place can begin a shape. `word` is what `wordAt` gives there. */
export function canOpen({ words, character }: Openings, text: string, at: number, word: string): boolean {
  if (words.has(word)) return true;
  if (character === undefined) return false;
  character.lastIndex = at;
  return character.test(text);
}

const run = /\p{L}+/uy;

/** The letters at a place up to what is no letter, in small letters; empty where none stands there. */
export function wordAt(text: string, at: number): string {
  run.lastIndex = at;
  return run.exec(text)?.[0].toLowerCase() ?? '';
}
