import { compare, isBefore } from '../../score/index.js';
import type { Bar } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, optional, sequence, word, wordsFor } from '../grammar/index.js';
import type { ClaimContext, Evidence } from '../model.js';
import { endOf } from '../place/beats.js';
import { harmoniesOf } from '../subjects/harmonies.js';
import type { Harmony } from '../subjects/harmonies.js';
import type { Span } from '../subjects/span.js';
import { count } from '../terms/number.js';
import { have, printHave } from '../terms/verb.js';
import { silence } from './judged.js';
import { segmentsIn } from '../segments.js';

/** How many chords a place has, as a whole or in each of its bars. */
export interface HarmonicRhythmSays {
  readonly chords: number;
  readonly each: 'place' | 'bar';
}

const complement = map(
  sequence(
    count,
    word('chords', 'chord', 'harmonies', 'harmony'),
    optional(
      wordsFor<'bar'>([
        ['bar', 'a bar', 'per bar', 'in each bar', 'in every bar', 'a measure', 'per measure'],
      ]),
    ),
  ),
  ([chords, , each]): HarmonicRhythmSays => ({ chords, each: each ?? 'place' }),
);

const isIn = (harmony: Harmony, bar: Bar): boolean =>
  isBefore(harmony.start, endOf(bar)) && isBefore(bar.start, harmony.end);

const chordsWord = (n: number): string => `${String(n)} ${n === 1 ? 'chord' : 'chords'}`;

const evidenceOf = (
  harmonies: readonly Harmony[],
  role: Evidence['role'],
  context: ClaimContext,
): readonly Evidence[] =>
  harmonies.slice(0, 12).flatMap(({ segments: [first] }) => {
    const [id] = first.chordTones;
    const note = id === undefined ? undefined : context.analysis.score.notes[id];
    return note === undefined ? [] : [noteEvidence(role, note, `${first.roman} begins`, context)];
  });

/** The pace of the chords: claim J1 of the trade. A new inversion is no new chord. */
export const harmonicRhythmFamily = family<Span, HarmonicRhythmSays>({
  name: 'harmonic rhythm',
  examples: ['bars 1-6 have 1 chord a bar', 'bar 31 has 2 chords'],
  phrases: [[have, complement]],
  print: ({ chords, each }, form) =>
    `${printHave(form)} ${chordsWord(chords)}${each === 'bar' ? ' a bar' : ''}`,
  check: (span, { chords, each }, context, make): Finding<Span> => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const harmonies = harmoniesOf(segmentsIn(context.analysis, span.range));
    const readings = harmonies.map(({ segments: [first] }) => first.roman).join(' ');
    if (each === 'place') {
      const holds = harmonies.length === chords;
      return {
        verdict: holds ? 'holds' : 'fails',
        code: holds ? 'C1301' : 'C1302',
        reason: `${span.name} has ${chordsWord(harmonies.length)}: ${readings}`,
        evidence: evidenceOf(harmonies, holds ? 'supports' : 'contradicts', context),
        instead: () => [make({ chords: harmonies.length, each })],
      };
    }
    const bars = context.analysis.score.bars.filter(
      bar => compare(span.range.start, bar.start) <= 0 && compare(endOf(bar), span.range.end) <= 0,
    );
    const counts = bars.map(bar => ({ bar, inside: harmonies.filter(harmony => isIn(harmony, bar)) }));
    const wrong = counts.find(({ inside }) => inside.length !== chords);
    if (wrong === undefined)
      return {
        verdict: 'holds',
        code: 'C1301',
        reason: `each of the ${String(bars.length)} bars has ${chordsWord(chords)}: ${readings}`,
        evidence: evidenceOf(harmonies, 'supports', context),
      };
    const [first] = counts;
    return {
      verdict: 'fails',
      code: 'C1302',
      reason: `bar ${wrong.bar.label} has ${chordsWord(wrong.inside.length)}: ${wrong.inside.map(({ segments: [each1] }) => each1.roman).join(' ')}`,
      evidence: evidenceOf(wrong.inside, 'contradicts', context),
      instead: () => (first === undefined ? [] : [make({ chords: first.inside.length, each })]),
    };
  },
});
