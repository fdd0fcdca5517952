import { divide, equals, fraction, multiply } from '../../score/index.js';
import type { Fraction } from '../../score/index.js';
import { choice, map, optional, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';

/** A written note value: its length without dots as a part of a whole note, and its dots. */
export interface NoteValue {
  /** 4 is a quarter note; 1 a whole note. */
  readonly part: number;
  readonly dots: 0 | 1 | 2;
}

/** American names first, British names after (common practice). */
const names: readonly (readonly [number, string, ...string[]])[] = [
  [1, 'whole note', 'whole notes', 'semibreve', 'semibreves'],
  [2, 'half note', 'half notes', 'minim', 'minims'],
  [4, 'quarter note', 'quarter notes', 'quarters', 'crotchet', 'crotchets'],
  [8, 'eighth note', 'eighth notes', 'eighths', 'quaver', 'quavers'],
  [16, 'sixteenth note', 'sixteenth notes', 'sixteenths', 'semiquaver', 'semiquavers'],
  [32, 'thirty-second note', 'thirty-second notes', 'demisemiquaver', 'demisemiquavers'],
];

const dots = choice(
  map(word('double-dotted', 'double dotted'), (): 2 => 2),
  map(word('dotted'), (): 1 => 1),
);

/** `eighth notes`, `dotted quarter note`, `crotchets`. */
export const noteValue: Parser<NoteValue> = rule(
  'NoteValue',
  () =>
    map(sequence(optional(dots), wordsFor<number>(names)), ([dotted, part]): NoteValue => ({
      part,
      dots: dotted ?? 0,
    })),
  'a note value such as `eighth notes` or `quavers`',
);

/** `quarter`, `dotted eighth`: without its noun, in a list of values. */
export const bareNoteValue: Parser<NoteValue> = map(
  sequence(
    optional(dots),
    wordsFor<number>([
      [1, 'whole'],
      [2, 'half'],
      [4, 'quarter'],
      [8, 'eighth'],
      [16, 'sixteenth'],
    ]),
  ),
  ([dotted, part]) => ({ part, dots: dotted ?? 0 }),
);

/** Length in whole notes. */
export function lengthOf({ part, dots: dotted }: NoteValue): Fraction {
  const plain = fraction(1, part);
  return dotted === 0 ? plain : multiply(plain, dotted === 1 ? fraction(3, 2) : fraction(7, 4));
}

/** The value of a length, where a single note can write it. */
export function valueOfLength(length: Fraction): NoteValue | undefined {
  for (const [part] of names)
    for (const dotted of [0, 1, 2] as const)
      if (equals(lengthOf({ part, dots: dotted }), length)) return { part, dots: dotted };
  return undefined;
}

export function printNoteValue({ part, dots: dotted }: NoteValue, plural = true): string {
  const entry = names.find(([of]) => of === part);
  const name = (plural ? entry?.[2] : entry?.[1]) ?? 'notes';
  return `${['', 'dotted ', 'double-dotted '][dotted] ?? ''}${name}`;
}

/** A length as said: `eighth note`, or as a part of a whole note where no single note writes it. */
export function sayLength(length: Fraction): string {
  const value = valueOfLength(length);
  if (value !== undefined) return printNoteValue(value, false);
  const triplet = valueOfLength(divide(length, fraction(2, 3)));
  return triplet === undefined
    ? `${String(length.n)}/${String(length.d)} of a whole note`
    : `triplet ${printNoteValue(triplet, false)}`;
}
