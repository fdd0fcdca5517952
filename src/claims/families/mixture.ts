import { keyName } from '../terms/key-name.js';
import type { Parser } from '../grammar/index.js';
import type { Key } from '../../harmony/index.js';
import { nativeTones, parallelOf, printChord, printKey, sameKey } from '../../harmony/index.js';
import { pitchClassOf, printPitchClass } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, sequence, word } from '../grammar/index.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { be, printBe } from '../terms/verb.js';
import { mainSegment } from '../segments.js';
import { silence, noChord } from './judged.js';

/** A chord with tones of the parallel mode. */
export interface MixtureSays {
  readonly borrowed: true;
  /** The key that it is said to come from. */
  readonly from?: Key;
}

/** `a borrowed chord`, `borrowed from C minor`. */
export const borrowedChord: Parser<MixtureSays> = map(
  sequence(
    optional(word('a', 'an example of', 'an instance of')),
    word('borrowed chord', 'mixture chord', 'borrowed', 'modal mixture', 'mode mixture', 'mixture'),
    optional(
      choice(
        map(
          sequence(
            word('from'),
            word('the parallel minor', 'the parallel major', 'the parallel key', 'the parallel mode'),
          ),
          () => undefined,
        ),
        map(sequence(word('from'), keyName), ([, key]) => key),
      ),
    ),
  ),
  ([, , from]): MixtureSays => (from === undefined ? { borrowed: true } : { borrowed: true, from }),
);

/**
 * Mixture: claim C4 of the trade. In major a chord with lowered 3, 6 or 7 that is not applied; in minor the leading tone and the raised
 * sixth are native (Open Music Theory, Modal mixture), the raised third is borrowed.
 */
export const mixtureFamily = family<Span, MixtureSays>({
  name: 'mixture',
  examples: ['bar 5 is a borrowed chord'],
  phrases: [[be, borrowedChord]],
  print: ({ from }, form) =>
    `${printBe(form)} a borrowed chord${from === undefined ? '' : ` from ${printKey(from)}`}`,
  check: (span, { from }, context, make): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const segment = mainSegment(context.analysis, range);
    if (segment === undefined) return noChord(span.name, 'C0103');
    const { key, chord, roman } = segment;
    const own: readonly number[] = nativeTones(key);
    const parallel: readonly number[] = nativeTones(parallelOf(key));
    const foreign = chord.tones.filter(tone => !own.includes(tone));
    const borrowed = foreign.length > 0 && chord.tones.every(tone => parallel.includes(tone));
    const applied = roman.includes('/') || /^(?:N|It|Fr|Ger|Sw)/u.test(roman);
    const evidence = segment.chordTones
      .flatMap(id => context.analysis.score.notes[id] ?? [])
      .filter(note => foreign.length === 0 || foreign.includes(pitchClassOf(note.pitch)))
      .slice(0, 4)
      .map(note =>
        noteEvidence(
          borrowed ? 'supports' : 'contradicts',
          note,
          foreign.length === 0 ? `native to ${printKey(key)}` : `foreign to ${printKey(key)}`,
          context,
        ),
      );
    if (borrowed && from !== undefined && !sameKey(from, parallelOf(key)))
      return {
        verdict: 'fails',
        code: 'C0223',
        reason: `${printChord(chord)}, ${roman}, takes ${foreign.map(printPitchClass).join(' and ')} from ${printKey(parallelOf(key))}, the parallel key`,
        evidence,
        instead: () => [make({ borrowed: true, from: parallelOf(key) })],
      };
    if (borrowed)
      return {
        verdict: applied ? 'arguable' : 'holds',
        code: applied ? 'C0222' : 'C0221',
        reason: `${printChord(chord)}, ${roman}, takes ${foreign.map(printPitchClass).join(' and ')} from ${printKey(parallelOf(key))}${applied ? ', but it can also be read as an applied chord' : ''}`,
        evidence,
      };
    return {
      verdict: 'fails',
      code: 'C0223',
      reason:
        foreign.length === 0
          ? `${printChord(chord)}, ${roman}, is native to ${printKey(key)}`
          : `${foreign.map(printPitchClass).join(' and ')} of ${printChord(chord)} ${foreign.length === 1 ? 'is' : 'are'} not of ${printKey(parallelOf(key))} either`,
      evidence,
    };
  },
});
