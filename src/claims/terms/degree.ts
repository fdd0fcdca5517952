import { degreeTone } from '../../harmony/index.js';
import type { Key } from '../../harmony/index.js';
import { transposed } from '../../score/index.js';
import type { PitchClass } from '../../score/index.js';
import {
  choice,
  map,
  optional,
  quiet,
  rule,
  sequence,
  shapes,
  token,
  word,
  wordsFor,
} from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { article } from './chord-name.js';

const { character, inOrder, maybe, oneOf } = shapes;

/** A degree of a key: against its own scale, in minor the natural one; a syllable of movable do against the major scale. */
export type DegreeName =
  | { readonly kind: 'number'; readonly degree: number; readonly alter: number }
  | { readonly kind: 'name'; readonly name: keyof typeof degreeNames }
  | { readonly kind: 'syllable'; readonly syllable: keyof typeof syllables };

/** Names of the degrees (common practice); the leading tone is the raised seventh in minor. */
const degreeNames = {
  tonic: 1,
  supertonic: 2,
  mediant: 3,
  subdominant: 4,
  dominant: 5,
  submediant: 6,
  'leading tone': 7,
  subtonic: 7,
} as const;

/** Movable do with la-sharps: fifths above the tonic (Open Music Theory v1, scale degrees and solfege: do-based minor). */
const syllables = {
  do: 0,
  di: 7,
  ra: -5,
  re: 2,
  ri: 9,
  me: -3,
  mi: 4,
  fa: -1,
  fi: 6,
  se: -6,
  sol: 1,
  si: 8,
  le: -4,
  la: 3,
  li: 10,
  te: -2,
  ti: 5,
} as const;

const number = token({
  name: 'DegreeNumber',
  label: 'a scale degree from 1 to 7',
  shape: inOrder(maybe(oneOf('^')), maybe(oneOf('##', '#', '♯', 'bb', 'b', '♭')), character('1-7')),
  value: (matched): DegreeName => {
    const sign = matched.slice(0, -1).replace('^', '');
    const alter = /[#♯]/u.test(sign) ? sign.length : -sign.length;
    return { kind: 'number', degree: Number(matched.at(-1)), alter: sign === '' ? 0 : alter };
  },
});

const ordinals = wordsFor<number>([
  [1, 'first', '1st'],
  [2, 'second', '2nd'],
  [3, 'third', '3rd'],
  [4, 'fourth', '4th'],
  [5, 'fifth', '5th'],
  [6, 'sixth', '6th'],
  [7, 'seventh', '7th'],
]);
/** `flat 2`, `raised 4`. */
const alterations = wordsFor<number>([
  [-1, 'flat', 'lowered', 'flattened', 'flatted'],
  [1, 'sharp', 'raised', 'sharpened', 'sharped'],
]);
const plainDegree = token({
  name: 'PlainDegree',
  label: 'a scale degree from 1 to 7',
  shape: character('1-7'),
  value: Number,
});

/** `#4`, `b2`. */
const signedDegree = token({
  name: 'SignedDegree',
  label: 'a scale degree such as `#4`',
  shape: inOrder(oneOf('#', '♯', 'b', '♭'), character('1-7')),
  value: (matched): DegreeName => ({
    kind: 'number',
    degree: Number(matched.at(-1)),
    alter: /^[#♯]/u.test(matched) ? 1 : -1,
  }),
});

const names = wordsFor<DegreeName>([
  [{ kind: 'name', name: 'tonic' }, 'tonic', 'tonic note'],
  [{ kind: 'name', name: 'supertonic' }, 'supertonic'],
  [{ kind: 'name', name: 'mediant' }, 'mediant'],
  [{ kind: 'name', name: 'subdominant' }, 'subdominant', 'subdominant note'],
  [{ kind: 'name', name: 'dominant' }, 'dominant', 'dominant note'],
  [{ kind: 'name', name: 'submediant' }, 'submediant'],
  [{ kind: 'name', name: 'leading tone' }, 'leading tone', 'leading note', 'leading-note'],
  [{ kind: 'name', name: 'subtonic' }, 'subtonic'],
]);
const syllable = wordsFor<DegreeName>(
  (Object.keys(syllables) as (keyof typeof syllables)[]).map(
    each => [{ kind: 'syllable', syllable: each }, each] as const,
  ),
);

/** `scale degree 7`, `the leading tone`, `ti`. */
export const degreeName: Parser<DegreeName> = rule(
  'DegreeName',
  () =>
    choice(
      map(sequence(quiet(optional(word('the'))), word('scale degree', 'degree'), number), ([, , of]) => of),
      map(
        sequence(quiet(word('the')), ordinals, word('degree', 'scale degree')),
        ([, degree]): DegreeName => ({
          kind: 'number',
          degree,
          alter: 0,
        }),
      ),
      map(
        sequence(alterations, optional(word('scale degree')), plainDegree),
        ([alter, , degree]): DegreeName => ({
          kind: 'number',
          degree,
          alter,
        }),
      ),
      map(
        sequence(
          quiet(optional(choice(word('the'), article))),
          alterations,
          ordinals,
          optional(word('degree', 'scale degree')),
        ),
        ([, alter, degree]): DegreeName => ({ kind: 'number', degree, alter }),
      ),
      map(
        sequence(
          quiet(word('the')),
          ordinals,
          word('degree', 'scale degree'),
          wordsFor<number>([
            [-1, 'lowered', 'flattened'],
            [1, 'raised', 'sharpened'],
          ]),
        ),
        ([, degree, , alter]): DegreeName => ({ kind: 'number', degree, alter }),
      ),
      signedDegree,
      // `the lowered supertonic`: a seventh degree that is raised leads, and one that is lowered does not.
      map(
        sequence(
          quiet(optional(choice(word('the'), article))),
          alterations,
          wordsFor<number>([
            [1, 'tonic'],
            [2, 'supertonic'],
            [3, 'mediant'],
            [4, 'subdominant'],
            [5, 'dominant'],
            [6, 'submediant'],
          ]),
          quiet(optional(word('degree'))),
        ),
        ([, alter, degree]): DegreeName => ({ kind: 'number', degree, alter }),
      ),
      map(
        sequence(
          quiet(optional(word('the'))),
          wordsFor<DegreeName>([
            [
              { kind: 'name', name: 'leading tone' },
              'raised leading tone',
              'raised leading note',
              'sharpened leading note',
            ],
            [
              { kind: 'name', name: 'subtonic' },
              'lowered leading tone',
              'lowered leading note',
              'flattened leading note',
            ],
          ]),
        ),
        ([, degree]) => degree,
      ),
      map(sequence(optional(word('the')), names), ([, of]) => of),
      syllable,
    ),
  'a scale degree such as `scale degree 7`, `the leading tone` or `ti`',
);

/** The tone that a degree is in a key. */
export function toneOfDegree(of: DegreeName, key: Key): PitchClass {
  switch (of.kind) {
    case 'number':
      return degreeTone(key, of.degree, of.alter);
    case 'name':
      return of.name === 'leading tone'
        ? transposed(key.tonic, 5)
        : of.name === 'subtonic'
          ? transposed(key.tonic, -2)
          : degreeTone(key, degreeNames[of.name]);
    case 'syllable':
      return transposed(key.tonic, syllables[of.syllable]);
  }
}

export function printDegree(of: DegreeName): string {
  switch (of.kind) {
    case 'number':
      return `scale degree ${of.alter > 0 ? '#'.repeat(of.alter) : 'b'.repeat(-of.alter)}${String(of.degree)}`;
    case 'name':
      return `the ${of.name}`;
    case 'syllable':
      return of.syllable;
  }
}

/** A degree in a row of them: `3`, `#4`, `mi`. */
export const lineDegree: Parser<DegreeName> = choice(number, syllable);
export const printLineDegree = (of: DegreeName): string =>
  of.kind === 'number' ? printDegree(of).replace(/^scale degree /u, '') : printDegree(of);
