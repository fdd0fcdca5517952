import { chord, printChord, readChordSymbol } from '../../harmony/index.js';
import type { Chord, ChordQuality } from '../../harmony/index.js';
import { printPitchClass } from '../../score/index.js';
import type { PitchClass } from '../../score/index.js';
import {
  choice,
  foreignToken,
  map,
  mark,
  optional,
  quiet,
  refine,
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

/** `C over E` for `C/E`. */
export const chordOverBass: Parser<Chord> = refine(
  sequence(chordSymbol, word('over'), pitchClassName),
  ([of, , bass]) => readChordSymbol(`${printChord({ ...of, inversion: 0 })}/${printPitchClass(bass)}`),
  'a chord over one of its tones such as `D over F#`',
);

/** A class of chords that a sentence may name instead of one quality. */
export type ChordClass = 'triad' | 'seventh chord' | 'ninth chord' | 'augmented sixth chord';

/** A chord as said in words; what is left out is left open. */
export interface ChordWords {
  readonly root?: PitchClass;
  readonly quality?: ChordQuality;
  readonly class?: ChordClass;
  /** 0 root position. */
  readonly inversion?: number;
}

export const inversions = rule('Inversion', () =>
  wordsFor<number>([
    [0, 'root-position', 'root position'],
    [1, 'first-inversion', 'first inversion', '1st inversion'],
    [2, 'second-inversion', 'second inversion', '2nd inversion'],
    // The last one that a seventh chord has; British usage, from memory.
    [3, 'third-inversion', 'third inversion', '3rd inversion', 'last inversion'],
    // Of a ninth chord.
    [4, 'fourth-inversion', 'fourth inversion', '4th inversion'],
  ]),
);
export const inversionAdjectives = [
  'root-position',
  'first-inversion',
  'second-inversion',
  'third-inversion',
  'fourth-inversion',
] as const;

export const triadQuality = rule('TriadQuality', () =>
  wordsFor<ChordQuality>([
    ['major', 'major'],
    ['minor', 'minor'],
    ['diminished', 'diminished'],
    ['augmented', 'augmented'],
  ]),
);
const sevenths = rule('SeventhQuality', () =>
  wordsFor<ChordQuality>([
    ['dominant seventh', 'dominant seventh', 'dominant 7th', 'dominant seven', 'dominant 7'],
    ['major seventh', 'major seventh', 'major 7th', 'major seven', 'major 7'],
    ['minor seventh', 'minor seventh', 'minor 7th', 'minor seven', 'minor 7'],
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
const triads = wordsFor<ChordClass>([['triad', 'triad', 'triads']]);
const chordClasses = wordsFor<ChordClass>([
  ['seventh chord', 'seventh chord', 'seventh chords', '7th chord', '7th chords'],
  ['ninth chord', 'ninth chord', 'ninth chords', '9th chord', '9th chords'],
  ['augmented sixth chord', 'augmented sixth chord', 'augmented sixth chords'],
]);
const classes = choice(
  triads,
  chordClasses,
  map(word('augmented sixth'), (): ChordClass => 'augmented sixth chord'),
);
/** A triad by its figures: `six-four chord`. */
const figured = map(
  sequence(
    wordsFor<number>([
      [1, 'six-three', '6/3'],
      [2, 'six-four', '6/4', 'six-fours'],
    ]),
    quiet(optional(word('chord', 'chords'))),
  ),
  ([inversion]) => inversion,
);

/** `a` or `an`. */
export const article = smallWord('a', 'an');
const noun = word('chord', 'triad');
const inInversion = map(sequence(word('in'), inversions), ([, inversion]) => inversion);

const build = (
  before: number | undefined,
  of: Omit<ChordWords, 'inversion'>,
  after: number | undefined,
): ChordWords => {
  const inversion = before ?? after;
  return inversion === undefined ? of : { ...of, inversion };
};

/** `D minor`, `D-minor`. */
const root = map(sequence(pitchClassName, quiet(optional(mark('-')))), ([tone]) => tone);
const overBass = choice(
  map(sequence(word('with'), pitchClassName, word('in the bass')), ([, tone]) => tone),
  map(sequence(word('over'), pitchClassName), ([, tone]) => tone),
);

const ofRoot: Parser<ChordWords> = choice(
  map(
    sequence(
      quiet(optional(article)),
      optional(inversions),
      root,
      choice(triadQuality, sevenths),
      optional(noun),
      optional(inInversion),
    ),
    ([, before, tone, quality, , after]) => build(before, { root: tone, quality }, after),
  ),
  // The bass instead of the inversion: `a C major chord with E in the bass`.
  refine(
    sequence(quiet(optional(article)), root, choice(triadQuality, sevenths), optional(noun), overBass),
    ([, tone, quality, , bass]): ChordWords | undefined => {
      const inversion = chord(tone, quality).tones.indexOf(bass);
      return inversion < 0 ? undefined : { root: tone, quality, inversion };
    },
    'a tone of the chord',
  ),
  refine(
    sequence(quiet(optional(article)), chordSymbol, quiet(optional(noun)), overBass),
    ([, { root: tone, quality }, , bass]): ChordWords | undefined => {
      const inversion = chord(tone, quality).tones.indexOf(bass);
      return inversion < 0 ? undefined : { root: tone, quality, inversion };
    },
    'a tone of the chord',
  ),
  // A symbol with a noun leaves the bass open: `a C chord`, `an Am7 chord`.
  map(sequence(quiet(optional(article)), chordSymbol, noun), ([, { root: tone, quality }]) => ({
    root: tone,
    quality,
  })),
  // `a first-inversion A7`, `an A7 in first inversion`.
  refine(
    choice(
      map(sequence(quiet(optional(article)), inversions, chordSymbol), ([, position, of]) => ({
        of,
        position,
      })),
      map(
        sequence(quiet(optional(article)), chordSymbol, quiet(optional(noun)), inInversion),
        ([, of, , position]) => ({
          of,
          position,
        }),
      ),
    ),
    ({ of, position }): ChordWords | undefined =>
      of.inversion > 0 || position >= of.tones.length
        ? undefined
        : { root: of.root, quality: of.quality, inversion: position },
    'an inversion that the chord has',
  ),
);
/** A chord that cannot be taken for a key: `D major chord`, `D dominant seventh`. */
export const unmistakableChord: Parser<ChordWords> = map(
  sequence(
    optional(inversions),
    root,
    choice(
      map(sequence(triadQuality, noun), ([quality]) => quality),
      map(sequence(sevenths, optional(noun)), ([quality]) => quality),
    ),
    optional(inInversion),
  ),
  ([before, tone, quality, after]) => build(before, { root: tone, quality }, after),
);

const onRoot = map(sequence(word('on'), pitchClassName), ([, tone]) => tone);
const rooted = (
  of: Omit<ChordWords, 'inversion'>,
  tone: PitchClass | undefined,
): Omit<ChordWords, 'inversion'> => (tone === undefined ? of : { root: tone, ...of });

/** A chord by its root and quality: `B minor`, `a B minor triad`. */
export const rootedChord: Parser<{ readonly root: PitchClass; readonly quality: ChordQuality }> = map(
  sequence(quiet(optional(article)), root, choice(triadQuality, sevenths), quiet(optional(noun))),
  ([, tone, quality]) => ({ root: tone, quality }),
);

/** A chord by its quality, with its root where that is said, in no inversion: `a dominant seventh on G`. */
export const chordOfQuality: Parser<{ readonly root?: PitchClass; readonly quality: ChordQuality }> = choice<{
  readonly root?: PitchClass;
  readonly quality: ChordQuality;
}>(
  rootedChord,
  map(
    sequence(
      article,
      choice(
        map(sequence(triadQuality, noun), ([quality]) => quality),
        map(sequence(sevenths, quiet(optional(word('chord')))), ([quality]) => quality),
      ),
      optional(onRoot),
    ),
    ([, quality, tone]) => (tone === undefined ? { quality } : { root: tone, quality }),
  ),
);

/** `dominant seventh`, `German sixth`: a kind of chord that no other noun is taken for. */
export const ofQualityAlone = map(
  sequence(choice(sevenths, sixths), quiet(optional(word('chord', 'harmony')))),
  ([quality]) => quality,
);

/** `diminished seventh chord`, `German sixth`, `augmented sixth chord`: a kind of chord with its noun, after `has` and `the`. */
export const chordOfKind: Parser<ChordWords> = choice<ChordWords>(
  map(sequence(choice(sevenths, sixths), word('chord', 'chords')), ([quality]) => ({ quality })),
  map(sequence(sevenths, quiet(optional(word('chord'))), onRoot), ([quality, , tone]) => ({
    root: tone,
    quality,
  })),
  map(sixths, quality => ({ quality })),
  map(chordClasses, name => ({ class: name })),
  map(sequence(inversions, choice(chordClasses, triads)), ([inversion, name]) => ({
    class: name,
    inversion,
  })),
  map(figured, inversion => ({ class: 'triad', inversion })),
);

const ofQuality: Parser<ChordWords> = choice(
  map(
    sequence(
      article,
      optional(inversions),
      choice(
        map(sequence(triadQuality, noun, optional(onRoot)), ([quality, , tone]) => rooted({ quality }, tone)),
        map(sequence(sevenths, optional(word('chord')), optional(onRoot)), ([quality, , tone]) =>
          rooted({ quality }, tone),
        ),
        map(sequence(sixths, optional(word('chord'))), ([quality]) => ({ quality })),
        map(classes, (name): Omit<ChordWords, 'inversion'> => ({ class: name })),
      ),
      optional(inInversion),
    ),
    ([, before, of, after]) => build(before, of, after),
  ),
  map(
    sequence(sevenths, quiet(optional(word('chord'))), inInversion),
    ([quality, , inversion]): ChordWords => ({ quality, inversion }),
  ),
  map(word('half-diminished'), (): ChordWords => ({ quality: 'half-diminished seventh' })),
  map(word('fully diminished'), (): ChordWords => ({ quality: 'diminished seventh' })),
);
const figures = wordsFor<ChordWords>([
  [{ class: 'triad', inversion: 1 }, 'six-three', '6/3', '6'],
  [{ class: 'triad', inversion: 2 }, 'six-four', '6/4'],
  [{ class: 'seventh chord', inversion: 1 }, 'six-five', '6/5'],
  [{ class: 'seventh chord', inversion: 2 }, 'four-three', '4/3'],
  [{ class: 'seventh chord', inversion: 3 }, 'four-two', '4/2'],
]);
const ofInversion: Parser<ChordWords> = choice(
  map(sequence(word('in'), inversions), ([, inversion]): ChordWords => ({ inversion })),
  map(sequence(article, inversions, noun), ([, inversion]): ChordWords => ({ inversion })),
  // By its figures: `a 6/5 chord`, `figured 6/5`.
  map(sequence(article, figures, noun), ([, words]) => words),
  map(sequence(word('figured', 'figured as'), figures), ([, words]) => words),
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
    case 'ninth chord':
      return /ninth$/u.test(quality);
    case 'augmented sixth chord':
      return isAugmentedSixth(quality);
  }
}

/** `an` before A, E, F and their flats, before 8, 11, 18 and before words that begin with a vowel; `a` otherwise. */
export const articleOf = (phrase: string): 'a' | 'an' =>
  /^(?:[AEF](?:b+(?!\p{L})|(?!\p{Ll}))|[aeiou]|Ita|8|1[18](?!\d))/u.test(phrase) ? 'an' : 'a';

export const withArticle = (phrase: string): string => `${articleOf(phrase)} ${phrase}`;

/** The words in the form that the reference recommends. */
export function printChordWords({ root, quality, class: name, inversion }: ChordWords): string {
  const position = inversion === undefined ? undefined : inversionAdjectives[inversion];
  const kind = quality === undefined ? name : `${quality} ${isTriad(quality) ? 'triad' : 'chord'}`;
  if (kind === undefined) return `in ${(position ?? '').replace('-', ' ')}`;
  const parts = [position, root === undefined ? undefined : printPitchClass(root), kind];
  return withArticle(parts.filter(part => part !== undefined).join(' '));
}
