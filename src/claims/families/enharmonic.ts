import type { Parser } from '../grammar/index.js';
import { chord, printChord, sameChord } from '../../harmony/index.js';
import type { Chord } from '../../harmony/index.js';
import { chromaOf, printPitchClass } from '../../score/index.js';
import type { PitchClass } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, sequence, word } from '../grammar/index.js';
import type { ClaimContext, Evidence } from '../model.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { article, chordOfQuality, chordSymbol, withArticle } from '../terms/chord-name.js';
import { be, printVerb, verb } from '../terms/verb.js';
import { silence, noChord } from './judged.js';
import { mainSegment } from '../segments.js';

/** The chord whose keys on the keyboard are the same, whatever it is called. */
export interface SoundsLikeSays {
  /** Absent where only the kind of chord is said. */
  readonly root?: PitchClass;
  readonly quality: Chord['quality'];
}

const keysOf = (tones: readonly PitchClass[]): string =>
  [...new Set(tones.map(chromaOf))].sort((a, b) => a - b).join(' ');

const evidenceOf = (ids: readonly number[], context: ClaimContext, why: string): readonly Evidence[] =>
  ids.slice(0, 6).flatMap(id => {
    const note = context.analysis.score.notes[id];
    return note === undefined ? [] : [noteEvidence('supports', note, why, context)];
  });

const enharmonically = word(
  'enharmonic with',
  'enharmonic to',
  'enharmonically the same as',
  'enharmonically equivalent to',
  'enharmonically equal to',
  'enharmonically',
);
/** `G7`, `a G dominant seventh`, `a dominant seventh`, `a dominant seventh on G`. */
const complement: Parser<SoundsLikeSays> = choice<SoundsLikeSays>(
  map(sequence(quiet(optional(article)), chordSymbol), ([, { root, quality }]) => ({ root, quality })),
  chordOfQuality,
);

/** The chord of a quality that lies on the same keys as some tones, where there is one. */
const twinOf = (tones: readonly PitchClass[], quality: Chord['quality']): Chord | undefined =>
  tones
    .flatMap(tone => [tone, (tone + 12) as PitchClass, (tone - 12) as PitchClass])
    .map(tone => chord(tone, quality))
    .find(each => keysOf(each.tones) === keysOf(tones));

/** Enharmonic statements: claim A6 of the trade. Twelve equal keys are assumed; spelling tells which chord it is. */
export const enharmonicFamily = family<Span, SoundsLikeSays>({
  name: 'enharmonic',
  examples: ['bar 30 sounds like G7'],
  phrases: [
    [verb('sounds like', 'sound like'), complement],
    [be, map(sequence(enharmonically, complement), ([, says]) => says)],
  ],
  print: ({ root, quality }, form) =>
    `${printVerb('sounds like', 'sound like', form)} ${root === undefined ? withArticle(`${quality} chord`) : printChord(chord(root, quality))}`,
  check: (span, { root, quality }, context): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const segment = mainSegment(context.analysis, range);
    if (segment === undefined) return noChord(span.name, 'C1503');
    const wanted =
      root === undefined
        ? (twinOf(segment.chord.tones, quality) ?? chord(segment.chord.root, quality))
        : chord(root, quality);
    const spelled = segment.chord.tones.map(printPitchClass).join(' ');
    if (keysOf(segment.chord.tones) !== keysOf(wanted.tones))
      return {
        verdict: 'fails',
        code: 'C1502',
        reason: `the chord is ${spelled}, ${printChord(segment.chord)}: other keys of the keyboard than ${wanted.tones.map(printPitchClass).join(' ')}`,
        evidence: evidenceOf(segment.chordTones, context, `member of ${segment.roman}`),
      };
    const same = sameChord(segment.chord, wanted);
    return {
      verdict: 'holds',
      code: 'C1501',
      reason: same
        ? `it is ${printChord(segment.chord)}, spelled ${spelled}`
        : `the same keys of the keyboard; here they are spelled ${spelled}, ${segment.roman}`,
      evidence: evidenceOf(segment.chordTones, context, `member of ${segment.roman}`),
    };
  },
});
