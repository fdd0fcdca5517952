import { bassOf, degreeTone, leadingTone } from '../../harmony/index.js';
import type { Segment } from '../../harmony/index.js';
import { midiOf, pitchClassOf, spell } from '../../score/index.js';
import type { Note, PitchClass } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, sequence, word, wordsFor } from '../grammar/index.js';
import type { ClaimContext, Evidence } from '../model.js';
import { soundingIn } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { be, printVerb, verb } from '../terms/verb.js';
import { silence, noChord } from './judged.js';
import { sayNumerals, segmentsIn } from '../segments.js';

/** One chord that a passage starts from and comes back to. */
export interface ProlongationSays {
  readonly of: 'tonic' | 'dominant';
}

const complement = map(
  sequence(
    optional(word('the')),
    wordsFor<ProlongationSays['of']>([
      ['tonic', 'tonic', 'I', 'i'],
      ['dominant', 'dominant', 'V'],
    ]),
  ),
  ([, of]): ProlongationSays => ({ of }),
);

const aProlongation = choice(
  map(sequence(word('a'), complement, word('prolongation')), ([, of]) => of),
  map(sequence(word('a prolongation of'), complement), ([, of]) => of),
);

/**
 * The triad of the degree, with or without its seventh; V7/IV stands on the tonic and is none. The cadential six-four has the tones of the tonic
 * and delays the dominant, to which it belongs (claim C5 of the trade); the major tonic that a minor key ends on is the tonic.
 */
function isChord({ chord, key, roman }: Segment, { of }: ProlongationSays): boolean {
  const isSixFour = roman.startsWith('cad64');
  if (of === 'dominant')
    return isSixFour || (chord.root === degreeTone(key, 5) && chord.tones[1] === leadingTone(key));
  return (
    chord.root === key.tonic &&
    !isSixFour &&
    !roman.includes('/') &&
    (chord.quality.startsWith('major') || chord.quality.startsWith('minor'))
  );
}

const letterStep = (a: PitchClass, b: PitchClass): boolean => {
  const letters = 'CDEFGAB';
  const distance = (letters.indexOf(spell(b).letter) - letters.indexOf(spell(a).letter) + 7) % 7;
  return distance === 0 || distance === 1 || distance === 6;
};

/** The lowest tone of each segment: over a pedal the chord may stand in any inversion. */
function bassesOf(segments: readonly Segment[], { analysis }: ClaimContext): readonly PitchClass[] {
  return segments.map(({ start, end, chord }) => {
    const lowest = soundingIn(analysis.score, { start, end })
      .filter(note => !note.grace)
      .reduce<Note | undefined>(
        (low, note) => (low === undefined || midiOf(note.pitch) < midiOf(low.pitch) ? note : low),
        undefined,
      );
    return lowest === undefined ? bassOf(chord) : pitchClassOf(lowest.pitch);
  });
}

/** How the bass goes on: it stays, moves by step, or leaps. */
function motionOf(basses: readonly PitchClass[]): 'stays' | 'steps' | 'leaps' {
  if (basses.every(bass => bass === basses[0])) return 'stays';
  return basses.slice(1).every((bass, at) => letterStep(basses[at] ?? bass, bass)) ? 'steps' : 'leaps';
}

/** More chords than this between the ends are a progression of their own rather than passing or neighbour chords. */
const mostBetween = 3;

/** Several chords that end in a predominant lead to the last chord anew: the way to a cadence, whatever steps its bass takes. */
function leadsAnew(segments: readonly Segment[], says: ProlongationSays): boolean {
  const last = segments.findLastIndex(segment => !isChord(segment, says));
  const first = segments.slice(0, last).findLastIndex(segment => isChord(segment, says)) + 1;
  return says.of === 'dominant' && last > first && segments[last]?.function === 'predominant';
}

const evidenceOf = (
  segments: readonly Segment[],
  says: ProlongationSays,
  context: ClaimContext,
): readonly Evidence[] =>
  segments.slice(0, 12).flatMap(segment => {
    const [id] = segment.chordTones;
    const note = id === undefined ? undefined : context.analysis.score.notes[id];
    const role = isChord(segment, says) ? 'supports' : 'set aside';
    return note === undefined ? [] : [noteEvidence(role, note, segment.roman, context)];
  });

/** Prolongation: claim E4 of the trade. Only what lies on the surface is judged: first chord, last chord, the bass between. */
export const prolongationFamily = family<Span, ProlongationSays>({
  name: 'prolongation',
  examples: ['bars 1-3 prolong the tonic'],
  phrases: [
    [
      verb('prolongs', 'prolong'),
      map(sequence(complement, optional(word('harmony', 'chord'))), ([of]) => of),
    ],
    ...['stands on', 'sits on', 'rests on', 'dwells on', 'stays on', 'remains on'].map(
      each => [verb(each, each.replace('s on', ' on')), complement] as const,
    ),
    [be, aProlongation],
    [be, map(sequence(word('all'), complement), ([, of]) => of)],
  ],
  print: ({ of }, form) => `${printVerb('prolongs', 'prolong', form)} the ${of}`,
  check: (span, says, context, make): Finding<Span> => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const segments = segmentsIn(context.analysis, span.range);
    const [first] = segments;
    const last = segments.at(-1);
    if (first === undefined || last === undefined) return noChord(span.name, 'C0723');
    const chords = sayNumerals(segments, context);
    const evidence = evidenceOf(segments, says, context);
    if (!isChord(first, says) || !isChord(last, says))
      return {
        verdict: 'fails',
        code: 'C0722',
        reason: `it does not begin and end on the ${says.of}: ${chords}`,
        evidence,
        instead: () => [make({ of: says.of === 'tonic' ? 'dominant' : 'tonic' })],
      };
    const between = segments.filter(segment => !isChord(segment, says));
    const motion = motionOf(bassesOf(segments, context));
    const isAnew = motion === 'steps' && leadsAnew(segments, says);
    if (between.length === 0 || (motion !== 'leaps' && between.length <= mostBetween && !isAnew))
      return {
        verdict: 'holds',
        code: 'C0721',
        reason:
          between.length === 0
            ? `nothing but the ${says.of}: ${chords}`
            : `${chords}, ${motion === 'stays' ? 'over a bass that stays' : 'with a bass that moves by step'}`,
        evidence,
      };
    return {
      verdict: 'arguable',
      code: 'C0724',
      reason: `it begins and ends on the ${says.of}, but ${isAnew ? 'the chords between lead to it anew' : motion === 'leaps' ? 'the bass leaps between' : 'many chords lie between'}: ${chords}; how deep the chords between lie is a matter of interpretation`,
      evidence,
    };
  },
});
