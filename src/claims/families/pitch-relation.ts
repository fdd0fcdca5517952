import { printKey } from '../../harmony/index.js';
import type { Key } from '../../harmony/index.js';
import { chromaOf, printPitchClass, spell } from '../../score/index.js';
import type { PitchClass } from '../../score/index.js';
import type { Finding, Subject } from '../claim.js';
import { family } from '../family.js';
import { choice, map, mark, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { article, withArticle } from '../terms/chord-name.js';
import { degreeName, printDegree, toneOfDegree } from '../terms/degree.js';
import type { DegreeName } from '../terms/degree.js';
import { degreeOf } from '../../harmony/index.js';
import { intervalName, printInterval, sameInterval, simple } from '../terms/interval-name.js';
import type { IntervalName } from '../terms/interval-name.js';
import { keyName } from '../terms/key-name.js';
import { pitchClassName } from '../terms/note-name.js';
import { be, printBe, verb } from '../terms/verb.js';

/** A note by its name alone, wherever it may sound. */
export const noteSubject: Parser<Subject<PitchClass>> = map(
  sequence(quiet(optional(word('the note'))), pitchClassName),
  ([, tone]) => ({
    content: { tone },
    plural: false,
    print: () => printPitchClass(tone),
    resolve: () => ({ kind: 'found', subject: tone }),
    neighbours: () => [],
  }),
);

/** What a note is in a key, or which other note has the same key of the keyboard. */
export type ToneSays =
  /** Of the home key where none is named. */
  | { readonly kind: 'degree'; readonly degree: DegreeName; readonly key?: Key }
  | { readonly kind: 'twin'; readonly tone: PitchClass };

const twin: Parser<ToneSays> = map(pitchClassName, tone => ({ kind: 'twin', tone }));

/** Names of notes as such: claims A5 and A6 of the trade without a place. Twelve equal keys are assumed. */
export const toneFamily = family<PitchClass, ToneSays>({
  name: 'note as such',
  examples: ['A# is the leading tone in B minor', 'E# sounds like F'],
  phrases: [
    [
      be,
      map(
        sequence(degreeName, optional(map(sequence(word('in', 'of'), keyName), ([, key]) => key))),
        ([degree, key]): ToneSays =>
          key === undefined ? { kind: 'degree', degree } : { kind: 'degree', degree, key },
      ),
    ],
    [verb('sounds like', 'sound like'), twin],
    [
      be,
      map(
        sequence(
          word(
            'enharmonic with',
            'enharmonic to',
            'enharmonically equivalent to',
            'enharmonically the same as',
            'enharmonically',
          ),
          twin,
        ),
        ([, says]) => says,
      ),
    ],
  ],
  print: (says, form) =>
    says.kind === 'degree'
      ? `${printBe(form)} ${printDegree(says.degree)}${says.key === undefined ? '' : ` in ${printKey(says.key)}`}`
      : `${form.negated ? 'does not sound' : 'sounds'} like ${printPitchClass(says.tone)}`,
  check: (tone, says, context, make): Finding<PitchClass> => {
    if (says.kind === 'twin') {
      const holds = chromaOf(tone) === chromaOf(says.tone);
      return {
        verdict: holds ? 'holds' : 'fails',
        code: holds ? 'C1501' : 'C1502',
        reason: `${printPitchClass(tone)} and ${printPitchClass(says.tone)} are ${holds ? 'one key' : 'two keys'} of the keyboard`,
        evidence: [],
      };
    }
    const key = says.key ?? context.home;
    const { degree, alter } = degreeOf(key, tone);
    const own: DegreeName = { kind: 'number', degree, alter };
    const holds = toneOfDegree(says.degree, key) === tone;
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C1201' : 'C1202',
      reason: `${printPitchClass(tone)} is ${printDegree(own)} of ${printKey(key)}`,
      evidence: [],
      instead: () => [make({ ...says, degree: own })],
    };
  },
});

/** Two notes, the lower one first. */
export interface TonePair {
  readonly lower: PitchClass;
  readonly upper: PitchClass;
}

const pair = (lower: PitchClass, upper: PitchClass): Subject<TonePair> => ({
  content: { lower, upper },
  plural: false,
  print: () => `${printPitchClass(lower)} to ${printPitchClass(upper)}`,
  resolve: () => ({ kind: 'found', subject: { lower, upper } }),
  neighbours: () => [],
});

/** `C to D#`, `the interval from C to D#`, `C-D#`: counted upward. */
export const tonePairSubject: Parser<Subject<TonePair>> = map(
  sequence(
    quiet(optional(word('the interval from', 'the interval between', 'the interval', 'from'))),
    pitchClassName,
    choice(mark('-', '–'), word('to'), quiet(word('and'))),
    quiet(optional(word('up to'))),
    pitchClassName,
  ),
  ([, lower, , , upper]) => pair(lower, upper),
);

/** From the lower letter up to the higher one, within an octave. */
function upward({ lower, upper }: TonePair): IntervalName {
  const letters = 'CDEFGAB';
  const [low, high] = [spell(lower), spell(upper)];
  const steps = (letters.indexOf(high.letter) - letters.indexOf(low.letter) + 7) % 7;
  const up = (((chromaOf(upper) - chromaOf(lower)) % 12) + 12) % 12;
  // C to B sharp or to C flat: the letters decide in which octave the other note lies.
  const plain = [0, 2, 4, 5, 7, 9, 11][steps] ?? 0;
  return { steps, semitones: up - plain > 6 ? up - 12 : plain - up > 6 ? up + 12 : up };
}

/** Names of intervals: claim A3 of the trade without a place. The letters decide the name. */
export const tonePairFamily = family<TonePair, { readonly interval: IntervalName }>({
  name: 'interval of two notes',
  examples: ['C to D# is an augmented second'],
  phrases: [
    [
      choice(
        be,
        map(word('makes', 'make', 'forms', 'form'), () => ({ negated: false })),
      ),
      map(sequence(optional(article), intervalName), ([, interval]) => ({ interval })),
    ],
  ],
  print: ({ interval }, form) => `${printBe(form)} ${withArticle(printInterval(interval))}`,
  check: (tones, { interval }, _context, make): Finding<TonePair> => {
    const size = upward(tones);
    const holds = sameInterval(size, simple(interval));
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C1001' : 'C1002',
      reason: `${printPitchClass(tones.lower)} up to ${printPitchClass(tones.upper)} is ${withArticle(printInterval(size))}, ${String(size.semitones)} semitones: the letters decide the name`,
      evidence: [],
      instead: () => [make({ interval: size })],
    };
  },
});
