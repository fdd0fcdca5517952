import { readChordSymbol } from '../../harmony/index.js';
import type { Chord, ChordQuality } from '../../harmony/index.js';
import { printPitchClass } from '../../score/index.js';
import type { PitchClass } from '../../score/index.js';
import {
  choice,
  foreignToken,
  map,
  optional,
  rule,
  sequence,
  shapes,
  smallWord,
  word,
  wordsFor,
} from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { pitchClassName } from './note-name.js';

const { inOrder, maybe, oneOf, text } = shapes;

const signed = inOrder(shapes.character('A-G'), maybe(oneOf('#', 'b', '♯', '♭')));

/** `D7/F#`, `Am`, `Bdim7`. */
export const chordSymbol: Parser<Chord> = foreignToken({
  name: 'ChordSymbol',
  label: 'a chord such as `D7/F#`',
  shape: inOrder(
    signed,
    maybe(
      oneOf('maj7', 'mMaj7', 'm7b5', 'm7', 'm', 'dim7', 'dim', 'o7', 'o', 'ø', 'aug', '+', '7b9', '7', '9'),
    ),
    maybe(inOrder(text('/'), signed)),
  ),
  opens: /^[A-G]/u,
  value: run => {
    const chord = readChordSymbol(run);
    return chord === undefined ? { at: 0, expected: [] } : { value: chord };
  },
});

/** A class of chords that a sentence may name instead of one quality. */
export type ChordClass = 'triad' | 'seventh chord' | 'augmented sixth chord';

/** A chord as said in words; what is left out is left open. */
export interface ChordWords {
  readonly root?: PitchClass;
  readonly quality?: ChordQuality;
  readonly class?: ChordClass;
  /** 0 root position. */
  readonly inversion?: number;
}

const inversions = rule('Inversion', () =>
  wordsFor<number>([
    [0, 'root-position', 'root position'],
    [1, 'first-inversion', 'first inversion', '1st inversion'],
    [2, 'second-inversion', 'second inversion', '2nd inversion'],
    [3, 'third-inversion', 'third inversion', '3rd inversion'],
  ]),
);
export const inversionAdjectives = [
  'root-position',
  'first-inversion',
  'second-inversion',
  'third-inversion',
] as const;

const triads = rule('TriadQuality', () =>
  wordsFor<ChordQuality>([
    ['major', 'major'],
    ['minor', 'minor'],
    ['diminished', 'diminished'],
    ['augmented', 'augmented'],
  ]),
);
const sevenths = rule('SeventhQuality', () =>
  wordsFor<ChordQuality>([
    ['dominant seventh', 'dominant seventh', 'dominant 7th'],
    ['major seventh', 'major seventh', 'major 7th'],
    ['minor seventh', 'minor seventh', 'minor 7th'],
    ['half-diminished seventh', 'half-diminished seventh', 'half-diminished 7th', 'half-diminished'],
    [
      'diminished seventh',
      'diminished seventh',
      'diminished 7th',
      'fully diminished seventh',
      'fully diminished 7th',
      'full diminished seventh',
    ],
    ['minor-major seventh', 'minor-major seventh'],
    ['augmented major seventh', 'augmented major seventh'],
    ['augmented seventh', 'augmented seventh'],
    ['dominant ninth', 'dominant ninth'],
    ['dominant minor ninth', 'dominant minor ninth'],
  ]),
);
const sixths = rule('SixthQuality', () =>
  wordsFor<ChordQuality>([
    ['Italian augmented sixth', 'Italian augmented sixth', 'Italian sixth'],
    ['French augmented sixth', 'French augmented sixth', 'French sixth'],
    ['German augmented sixth', 'German augmented sixth', 'German sixth'],
    ['Swiss augmented sixth', 'Swiss augmented sixth', 'Swiss sixth'],
  ]),
);
const classes = wordsFor<ChordClass>([
  ['triad', 'triad'],
  ['seventh chord', 'seventh chord', '7th chord'],
  ['augmented sixth chord', 'augmented sixth chord', 'augmented sixth'],
]);

/** `a` or `an`. */
export const article = smallWord('a', 'an');
const noun = word('chord', 'triad');
const inInversion = map(sequence(word('in'), inversions), ([, inversion]) => inversion);

const build = (
  before: number | undefined,
  chord: Omit<ChordWords, 'inversion'>,
  after: number | undefined,
): ChordWords => {
  const inversion = before ?? after;
  return inversion === undefined ? chord : { ...chord, inversion };
};

const ofRoot: Parser<ChordWords> = map(
  sequence(
    optional(article),
    optional(inversions),
    pitchClassName,
    choice(triads, sevenths),
    optional(noun),
    optional(inInversion),
  ),
  ([, before, root, quality, , after]) => build(before, { root, quality }, after),
);
/** A chord that cannot be taken for a key: `D major chord`, `D dominant seventh`. */
export const unmistakableChord: Parser<ChordWords> = map(
  sequence(
    optional(inversions),
    pitchClassName,
    choice(
      map(sequence(triads, noun), ([quality]) => quality),
      map(sequence(sevenths, optional(noun)), ([quality]) => quality),
    ),
    optional(inInversion),
  ),
  ([before, root, quality, after]) => build(before, { root, quality }, after),
);

const ofQuality: Parser<ChordWords> = map(
  sequence(
    article,
    optional(inversions),
    choice(
      map(sequence(triads, noun), ([quality]): Omit<ChordWords, 'inversion'> => ({ quality })),
      map(sequence(choice(sevenths, sixths), optional(word('chord'))), ([quality]) => ({ quality })),
      map(classes, (name): Omit<ChordWords, 'inversion'> => ({ class: name })),
    ),
    optional(inInversion),
  ),
  ([, before, chord, after]) => build(before, chord, after),
);
const ofInversion: Parser<ChordWords> = map(
  sequence(word('in'), inversions),
  ([, inversion]): ChordWords => ({ inversion }),
);

/** `a D minor seventh chord`, `a first-inversion A minor triad`, `a diminished seventh chord`, `in first inversion`. */
export const chordWords: Parser<ChordWords> = rule(
  'ChordInWords',
  () => choice(ofRoot, ofQuality, ofInversion),
  'a chord in words such as `a D minor seventh chord`',
);

export const isSeventh = (quality: ChordQuality): boolean => /seventh$/u.test(quality);
export const isAugmentedSixth = (quality: ChordQuality): boolean => /sixth$/u.test(quality);
export const isTriad = (quality: ChordQuality): boolean =>
  /^(?:major|minor|diminished|augmented)$/u.test(quality);

/** Whether a chord quality is one of a class. */
export function isOfClass(quality: ChordQuality, name: ChordClass): boolean {
  switch (name) {
    case 'triad':
      return isTriad(quality);
    case 'seventh chord':
      return isSeventh(quality);
    case 'augmented sixth chord':
      return isAugmentedSixth(quality);
  }
}

/** `an` before A, E, F, before 8, 11, 18 and before words that begin with a vowel; `a` otherwise. */
export const articleOf = (phrase: string): 'a' | 'an' =>
  /^(?:[AEF](?!\p{Ll})|[aeiou]|Ita|8|1[18](?!\d))/u.test(phrase) ? 'an' : 'a';

export const withArticle = (phrase: string): string => `${articleOf(phrase)} ${phrase}`;

/** The words in the form that the reference recommends. */
export function printChordWords({ root, quality, class: name, inversion }: ChordWords): string {
  const position = inversion === undefined ? undefined : inversionAdjectives[inversion];
  const kind = quality === undefined ? name : `${quality} ${isTriad(quality) ? 'triad' : 'chord'}`;
  if (kind === undefined) return `in ${(position ?? '').replace('-', ' ')}`;
  const parts = [position, root === undefined ? undefined : printPitchClass(root), kind];
  return withArticle(parts.filter(part => part !== undefined).join(' '));
}
