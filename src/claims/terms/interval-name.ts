import { midiOf, staffStepOf } from '../../score/index.js';
import type { Pitch } from '../../score/index.js';
import { choice, map, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';

/** An interval by its letters and its size: a minor tenth is 9 steps and 15 semitones. Always upward, never negative. */
export interface IntervalName {
  readonly steps: number;
  readonly semitones: number;
  /** A half step is one key of the keyboard, from letter to letter or on one letter (common practice: diatonic and chromatic semitone). */
  readonly ofAnyLetters?: true;
}

/** Semitones of the major and perfect intervals from the unison to the seventh (Open Music Theory v1, Intervals, table). */
const plainSemitones = [0, 2, 4, 5, 7, 9, 11] as const;
const perfectSteps: ReadonlySet<number> = new Set([0, 3, 4]);

const numbers: readonly (readonly [number, string, ...string[]])[] = [
  [0, 'unison', 'prime'],
  [1, 'second', '2nd'],
  [2, 'third', '3rd'],
  [3, 'fourth', '4th'],
  [4, 'fifth', '5th'],
  [5, 'sixth', '6th'],
  [6, 'seventh', '7th'],
  [7, 'octave', '8ve'],
  [8, 'ninth', '9th'],
  [9, 'tenth', '10th'],
  [10, 'eleventh', '11th'],
  [11, 'twelfth', '12th'],
  [12, 'thirteenth', '13th'],
  [13, 'fourteenth', '14th'],
  [14, 'double octave', 'fifteenth', '15th'],
  [15, 'sixteenth', '16th'],
  [16, 'seventeenth', '17th'],
  [17, 'eighteenth', '18th'],
  [18, 'nineteenth', '19th'],
  [19, 'twentieth', '20th'],
  [20, '21st'],
  [21, '22nd'],
  [22, '23rd'],
  [23, '24th'],
  [24, '25th'],
  [25, '26th'],
  [26, '27th'],
  [27, '28th'],
  [28, '29th'],
];
const qualities = [
  'doubly diminished',
  'diminished',
  'minor',
  'major',
  'perfect',
  'augmented',
  'doubly augmented',
] as const;
type Quality = (typeof qualities)[number];

/** Semitones of the major or perfect interval over some letters. */
const plainSize = (steps: number): number => (plainSemitones[steps % 7] ?? 0) + 12 * Math.floor(steps / 7);

function sizeOf(quality: Quality, steps: number): number | undefined {
  const isPerfect = perfectSteps.has(steps % 7);
  const offsets: Readonly<Record<Quality, number | undefined>> = {
    'doubly diminished': isPerfect ? -2 : -3,
    diminished: isPerfect ? -1 : -2,
    minor: isPerfect ? undefined : -1,
    major: isPerfect ? undefined : 0,
    perfect: isPerfect ? 0 : undefined,
    augmented: 1,
    'doubly augmented': 2,
  };
  const offset = offsets[quality];
  return offset === undefined ? undefined : plainSize(steps) + offset;
}

/** The interval between two pitches, the lower letter first, of one letter the lower tone. */
export function intervalBetween(a: Pitch, b: Pitch): IntervalName {
  const apart = staffStepOf(b) - staffStepOf(a) || midiOf(b) - midiOf(a);
  const [low, high] = apart >= 0 ? [a, b] : [b, a];
  return { steps: staffStepOf(high) - staffStepOf(low), semitones: midiOf(high) - midiOf(low) };
}

/** The quality of an interval; `undefined` for one that is altered more than twice. */
function qualityOf({ steps, semitones }: IntervalName): Quality | undefined {
  return qualities.find(quality => sizeOf(quality, steps) === semitones);
}

const endings: Readonly<Record<string, string>> = { one: 'st', two: 'nd', few: 'rd', other: 'th' };
const ordinals = new Intl.PluralRules('en', { type: 'ordinal' });

/** The number of an interval; wide ones have no word of their own and are counted: `21st`. */
const numberName = (steps: number): string =>
  numbers.find(([of]) => of === steps)?.[1] ??
  `${String(steps + 1)}${endings[ordinals.select(steps + 1)] ?? 'th'}`;

/** `minor tenth`, `augmented second`. */
export function printInterval(of: IntervalName): string {
  if (of.ofAnyLetters === true) return 'half step';
  const quality = qualityOf(of) ?? 'altered';
  return `${quality} ${numberName(of.steps)}`;
}

/** An interval without its quality, in the plural: `thirds`. */
export const printNumber = (steps: number): string => `${numberName(steps)}s`;

/** Intervals of one kind by quality and number, so that the grammar allows no minor fifth. */
const kind = (qualitiesOfKind: readonly Quality[], steps: (of: number) => boolean): Parser<IntervalName> =>
  map(
    sequence(
      wordsFor<Quality>(qualitiesOfKind.map(quality => [quality, quality] as const)),
      wordsFor<number>(numbers.filter(([of]) => steps(of))),
    ),
    ([quality, of]) => ({ steps: of, semitones: sizeOf(quality, of) ?? 0 }),
  );
const isPerfectKind = (steps: number): boolean => perfectSteps.has(steps % 7);

const named: Parser<IntervalName> = choice(
  kind(
    ['doubly diminished', 'diminished', 'minor', 'major', 'augmented', 'doubly augmented'],
    steps => steps > 1 && !isPerfectKind(steps),
  ),
  kind(['diminished', 'minor', 'major', 'augmented', 'doubly augmented'], steps => steps === 1),
  kind(
    ['doubly diminished', 'diminished', 'perfect', 'augmented', 'doubly augmented'],
    steps => steps > 0 && isPerfectKind(steps),
  ),
  kind(['perfect', 'augmented', 'doubly augmented'], steps => steps === 0),
  // Unison and octave are perfect unless something else is said.
  map(
    wordsFor<number>([
      [0, 'unison'],
      [7, 'octave'],
      [14, 'double octave', 'two octaves'],
    ]),
    (steps): IntervalName => ({ steps, semitones: (12 * steps) / 7 }),
  ),
);

/** `minor tenth`, `octave`, `half step`, `whole tone`. */
export const intervalName: Parser<IntervalName> = rule(
  'Interval',
  () =>
    choice(
      named,
      wordsFor<IntervalName>([
        [{ steps: 1, semitones: 1, ofAnyLetters: true }, 'half step', 'semitone', 'half-step'],
        [{ steps: 1, semitones: 1 }, 'diatonic semitone'],
      ]),
      map(word('chromatic semitone'), (): IntervalName => ({ steps: 0, semitones: 1 })),
      map(word('whole step', 'whole tone', 'whole-step', 'tone'), (): IntervalName => ({
        steps: 1,
        semitones: 2,
      })),
    ),
  'an interval such as `minor third` or `perfect fifth`',
);

/** Intervals of one number, more than one of them: `thirds`. */
export const intervalsNumber: Parser<number> = wordsFor<number>(
  numbers.map(([steps, first]) => [steps, `${first}s`] as const),
);

/** An interval by its number alone: `third`, `thirds`. */
export const intervalNumber: Parser<number> = wordsFor<number>(
  numbers.map(([steps, first, ...others]) => [steps, `${first}s`, first, ...others] as const),
);

/** An interval by its name, or as far as its number says it: `a minor third`, `a third`. */
export interface IntervalSize {
  readonly steps: number;
  readonly semitones?: number;
  readonly ofAnyLetters?: true;
}
/** Of a unison and an octave one size is meant where none is said. */
export const intervalSize: Parser<IntervalSize> = rule(
  'IntervalSize',
  () =>
    choice<IntervalSize>(
      intervalName,
      map(intervalNumber, steps => (steps % 7 === 0 ? { steps, semitones: (12 * steps) / 7 } : { steps })),
    ),
  'an interval such as `minor third` or `third`',
);
export const isOfSize = (of: IntervalName, { semitones, ...size }: IntervalSize): boolean =>
  semitones === undefined ? of.steps === size.steps : sameInterval(of, { ...size, semitones });
export const printSize = ({ semitones, ...size }: IntervalSize): string =>
  semitones === undefined ? numberName(size.steps) : printInterval({ ...size, semitones });

/** The same interval within an octave: a tenth is a third. An octave stays one. */
export function simple(of: IntervalName): IntervalName {
  const { steps, semitones } = of;
  if (steps <= 7) return of;
  const octaves = Math.floor((steps - 1) / 7);
  return { steps: steps - 7 * octaves, semitones: semitones - 12 * octaves };
}

export const sameInterval = (a: IntervalName, b: IntervalName): boolean =>
  a.semitones === b.semitones &&
  (a.steps === b.steps ||
    ((a.ofAnyLetters === true || b.ofAnyLetters === true) && a.steps <= 1 && b.steps <= 1));

export const isPerfectFifth = (of: IntervalName): boolean =>
  sameInterval(simple(of), { steps: 4, semitones: 7 });

/** Octave, double octave or unison. */
export const isOctave = ({ steps, semitones }: IntervalName): boolean =>
  steps % 7 === 0 && semitones === (12 * steps) / 7;
