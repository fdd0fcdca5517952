import { printChord } from '../../harmony/index.js';
import type { Segment } from '../../harmony/index.js';
import { printPitchClass } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Evidence, EvidenceRole } from '../model.js';
import { placeName, printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { severalEndings } from '../range-of.js';
import { mainSegment, segmentsIn } from '../segments.js';
import { harmoniesOf } from '../subjects/harmonies.js';
import { rangeOrMoment, span as spanOf } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { be, have, printBe, printHave } from '../terms/verb.js';
import { noChord, silence } from './judged.js';

/** How the chord of a place lies to the chord of another: the same, or its dominant. */
export interface ChordRelationSays {
  /** `row`: chord by chord. */
  readonly relation: 'same' | 'dominant' | 'row';
  readonly place: Place;
}

const chordNoun = word('chord', 'harmony', 'triad');
const chordOf = sequence(quiet(optional(sequence(word('the'), chordNoun, word('of', 'in')))), placeName);
const dominant: Parser<ChordRelationSays> = map(
  sequence(
    quiet(optional(choice(article, word('the')))),
    word('dominant', 'applied dominant', 'secondary dominant'),
    quiet(optional(word('chord', 'seventh'))),
    word('of', 'to'),
    chordOf,
  ),
  ([, , , , [, place]]) => ({ relation: 'dominant', place }),
);
const same: Parser<ChordRelationSays> = map(
  sequence(word('the same chord as', 'the same harmony as', 'the chord of', 'the same chord of'), placeName),
  ([, place]) => ({ relation: 'same', place }),
);

const rootEvidence = (segment: Segment, role: EvidenceRole, context: ClaimContext): readonly Evidence[] =>
  segment.chordTones.slice(0, 2).flatMap(id => {
    const note = context.analysis.score.notes[id];
    return note === undefined ? [] : [noteEvidence(role, note, printChord(segment.chord), context)];
  });

/** Whether two places have the same chords in the same order, whatever their inversion and their sevenths. */
function checkRow(span: Span, other: Span, context: ClaimContext): Finding<Span> {
  const rows = [span, other].map(({ range }) =>
    harmoniesOf(segmentsIn(context.analysis, range)).map(({ segments: [first] }) => first),
  );
  const [one = [], two = []] = rows;
  const isSame = (a: Segment, b: Segment | undefined): boolean =>
    a.chord.tones.slice(0, 3).every((tone, at) => tone === b?.chord.tones[at]);
  const holds = one.length > 0 && one.length === two.length && one.every((each, at) => isSame(each, two[at]));
  const say = (row: readonly Segment[]): string => row.map(({ chord }) => printChord(chord)).join(' ');
  return {
    verdict: holds ? 'holds' : 'fails',
    code: holds ? 'C0121' : 'C0122',
    reason: `${span.name}: ${say(one)}; ${other.name}: ${say(two)}`,
    evidence: one
      .slice(0, 4)
      .flatMap(each => rootEvidence(each, holds ? 'supports' : 'contradicts', context)),
  };
}

/** Chords of two places against each other: claims C2 and K3 of the trade. Inversion and seventh do not matter, the triad does. */
export const chordRelationFamily = family<Span, ChordRelationSays>({
  name: 'chord relation',
  examples: ['bar 17 is the dominant of bar 18', 'bar 25 has the same chord as bar 1'],
  phrases: [
    [be, dominant],
    [have, same],
    [be, same],
    [
      have,
      map(
        sequence(word('the same harmonies as', 'the same chords as', 'the same progression as'), placeName),
        ([, place]): ChordRelationSays => ({ relation: 'row', place }),
      ),
    ],
  ],
  print: ({ relation, place }, form) =>
    relation === 'row'
      ? `${printHave(form)} the same harmonies as ${printPlace(place)}`
      : relation === 'same'
        ? `${printHave(form)} the same chord as ${printPlace(place)}`
        : `${printBe(form)} the dominant of ${printPlace(place)}`,
  check: (span, { relation, place }, context, make): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const resolved = spanOf(place).resolve(context);
    if (resolved.kind === 'none') return { ...resolved.finding, pointless: true };
    if (resolved.kind === 'endings') return { ...severalEndings(place), pointless: true };
    if (relation === 'row') return checkRow(span, resolved.subject, context);
    const one = mainSegment(context.analysis, range);
    const other = mainSegment(context.analysis, rangeOrMoment(resolved.subject));
    if (one === undefined) return noChord(span.name, 'C0103');
    if (other === undefined) return noChord(printPlace(place), 'C0103');
    const names = `${span.name} is ${printChord(one.chord)}, ${printPlace(place)} is ${printChord(other.chord)}`;
    // The first three tones are the triad; a seventh may be added to it.
    const sameTriad = one.chord.tones.slice(0, 3).every((tone, at) => tone === other.chord.tones[at]);
    const isMajor = one.chord.tones[1] === one.chord.root + 4;
    const holds = relation === 'same' ? sameTriad : one.chord.root === other.chord.root + 1 && isMajor;
    const reason =
      relation === 'same' || holds
        ? names
        : `${names}: its dominant is a major chord on ${printPitchClass((other.chord.root + 1) as typeof other.chord.root)}`;
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C0121' : 'C0122',
      reason,
      evidence: [
        ...rootEvidence(one, holds ? 'supports' : 'contradicts', context),
        ...rootEvidence(other, 'supports', context),
      ],
      instead: () => (['same', 'dominant'] as const).map(each => make({ relation: each, place })),
    };
  },
});
