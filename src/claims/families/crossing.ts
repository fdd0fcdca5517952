import type { Span } from '../subjects/span.js';
import { textureLines } from '../subjects/texture.js';
import { segmentAt } from '../../harmony/index.js';
import type { Analysis } from '../../harmony/index.js';
import type { ClaimContext } from '../model.js';
import { midiOf, printPitch } from '../../score/index.js';
import type { Fraction, Note, Score } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, nothing, optional, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { movesOf, together } from '../subjects/pair.js';
import type { LineNote } from '../subjects/line-notes.js';
import type { Pair } from '../subjects/pair.js';
import { article } from '../terms/chord-name.js';
import { have, haveNo, printHas, printHave, printVerb, verb } from '../terms/verb.js';
import type { Verb } from '../terms/verb.js';

/** Voices that exchange their order, pass each other, or keep a note. */
export interface CrossingSays {
  readonly kind: 'cross' | 'overlap' | 'common tone';
}

const says = (kind: CrossingSays['kind']) => nothing<CrossingSays>({ kind });

const meanOf = (notes: readonly LineNote[]): number =>
  notes.reduce((sum, { note }) => sum + midiOf(note.pitch), 0) / Math.max(1, notes.length);

/** The same pair, the line that stands higher in the score first, however a sentence names them; of one voice the line that lies higher. */
function inScoreOrder(pair: Pair, { voices }: Score): Pair {
  const placeOf = (notes: readonly LineNote[]): number =>
    voices.findIndex(voice => voice.id === notes[0]?.note.voice);
  const [first, second] = [placeOf(pair.upper), placeOf(pair.lower)];
  const isTurned = first === second ? meanOf(pair.upper) < meanOf(pair.lower) : first > second;
  return isTurned ? { ...pair, upper: pair.lower, lower: pair.upper } : pair;
}

/** A common tone is one of two chords; where none are heard, all moments may differ. */
function isNewChord(from: Fraction, to: Fraction, analysis: Analysis): boolean {
  const [before, after] = [from, to].map(moment => segmentAt(analysis, moment)?.chord);
  return before === undefined || before.root !== after?.root || before.quality !== after.quality;
}

/** The deciding notes; empty where there are none. */
function decisive(
  { upper, lower }: Pair,
  { kind }: CrossingSays,
  { analysis }: ClaimContext,
): readonly Note[] {
  const pairs = together(upper, lower);
  switch (kind) {
    case 'cross': {
      const crossed = pairs.find(pair => midiOf(pair.upper.pitch) < midiOf(pair.lower.pitch));
      return crossed === undefined ? [] : [crossed.upper, crossed.lower];
    }
    case 'overlap': {
      const passed = movesOf(pairs).find(
        ({ from, to }) =>
          midiOf(to.lower.pitch) > midiOf(from.upper.pitch) ||
          midiOf(to.upper.pitch) < midiOf(from.lower.pitch),
      );
      return passed === undefined
        ? []
        : [passed.from.upper, passed.from.lower, passed.to.upper, passed.to.lower];
    }
    case 'common tone': {
      const kept = movesOf(pairs).find(
        ({ from, to }) =>
          isNewChord(from.start, to.start, analysis) &&
          (midiOf(from.upper.pitch) === midiOf(to.upper.pitch) ||
            midiOf(from.lower.pitch) === midiOf(to.lower.pitch)),
      );
      if (kept === undefined) return [];
      return midiOf(kept.from.upper.pitch) === midiOf(kept.to.upper.pitch)
        ? [kept.from.upper, kept.to.upper]
        : [kept.from.lower, kept.to.lower];
    }
  }
}

/** Crossing, overlap, common tone: claim I8 of the trade. A unison is no crossing. */
export const crossingFamily = family<Pair, CrossingSays>({
  name: 'crossing',
  examples: [
    'the alto and the tenor of bars 1-4 do not cross',
    'the soprano and the alto of bars 1-2 have a common tone',
  ],
  phrases: [
    [verb('crosses', 'cross'), says('cross')],
    [verb('overlaps', 'overlap'), says('overlap')],
    [
      verb('shares', 'share'),
      map(sequence(optional(article), word('common tone', 'common note')), (): CrossingSays => ({
        kind: 'common tone',
      })),
    ],
    [
      have,
      map(sequence(optional(article), word('common tone', 'common note')), (): CrossingSays => ({
        kind: 'common tone',
      })),
    ],
  ],
  print: ({ kind }, form) =>
    kind === 'common tone'
      ? `${printHave(form)} a common tone`
      : kind === 'cross'
        ? printVerb('crosses', 'cross', form)
        : printVerb('overlaps', 'overlap', form),
  check: (pair, { kind }, context, make): Finding<Pair> => {
    const notes = decisive(inScoreOrder(pair, context.analysis.score), { kind }, context);
    if (notes.length > 0)
      return {
        verdict: 'holds',
        code: 'C1061',
        reason: `${notes.map(note => printPitch(note.pitch)).join(' and ')}: ${kind}`,
        evidence: notes.map(note => noteEvidence('supports', note, kind, context)),
      };
    return {
      verdict: 'fails',
      code: 'C1062',
      reason: {
        cross: 'the line that stands higher in the score never lies below the other',
        overlap: 'neither line passes the note that the other has just left',
        'common tone': 'neither line keeps its pitch from one chord to another',
      }[kind],
      evidence: [],
      instead: () =>
        (['overlap', 'common tone'] as const).filter(each => each !== kind).map(each => make({ kind: each })),
    };
  },
});

/** Crossing or overlap between any two neighbouring lines of a place. */
export interface PlaceCrossingSays {
  readonly kind: 'cross' | 'overlap';
}
const inPlace = (kind: PlaceCrossingSays['kind']) => (): PlaceCrossingSays => ({ kind });
const aCrossing: Parser<PlaceCrossingSays> = choice(
  map(
    sequence(
      optional(article),
      word('voice crossing', 'voice crossings', 'crossed voices', 'crossing of voices', 'crossing of parts'),
    ),
    inPlace('cross'),
  ),
  map(
    sequence(
      optional(article),
      word(
        'voice overlap',
        'voice overlaps',
        'overlap',
        'overlaps',
        'overlapping voices',
        'voice overlapping',
      ),
    ),
    inPlace('overlap'),
  ),
);
const lines = word('voices', 'parts', 'lines');
const noLines = word('no voices', 'no voice', 'no parts', 'no part', 'no lines', 'no line');
const noneOf = (singular: string, plural: string): Verb =>
  map(word(plural, singular), () => ({ negated: true }));

/** Whether any two neighbouring lines of a place cross or overlap. */
export const placeCrossingFamily = family<Span, PlaceCrossingSays>({
  name: 'crossing in a place',
  examples: ['bar 8 has a voice crossing', 'bars 1-2 have no voice overlap'],
  phrases: [
    [have, aCrossing],
    [haveNo, aCrossing],
  ],
  aspects: [
    [lines, verb('crosses', 'cross'), nothing({ kind: 'cross' as const })],
    [noLines, noneOf('crosses', 'cross'), nothing({ kind: 'cross' as const })],
    [lines, verb('overlaps', 'overlap'), nothing({ kind: 'overlap' as const })],
    [noLines, noneOf('overlaps', 'overlap'), nothing({ kind: 'overlap' as const })],
  ],
  print: ({ kind }, form) => printHas(form, 'a', kind === 'cross' ? 'voice crossing' : 'voice overlap'),
  check: (span, { kind }, context): Finding<Span> => {
    // Chords have no voices of their own that could pass what another has left.
    const all = textureLines(context.analysis.score, span.range).filter(
      ({ isVoice }) => kind === 'cross' || isVoice,
    );
    if (kind === 'overlap' && all.length < 2)
      return {
        verdict: 'undecided',
        code: 'C1062',
        reason: `overlap is between single voices, and ${span.name} has no two of them`,
        evidence: [],
        pointless: true,
      };
    const found = all.slice(1).flatMap((lower, at) => {
      const upper = all[at];
      if (upper === undefined) return [];
      const notes = decisive(
        { span, upper: upper.notes, lower: lower.notes, name: span.name },
        { kind },
        context,
      );
      return notes.length === 0 ? [] : [{ names: `${upper.name} and ${lower.name}`, notes }];
    });
    const [first] = found;
    const pitches = first?.notes.map(note => printPitch(note.pitch)) ?? [];
    return {
      verdict: first === undefined ? 'fails' : 'holds',
      code: first === undefined ? 'C1062' : 'C1061',
      reason:
        first === undefined
          ? `no two neighbouring lines of ${span.name} ${kind}`
          : kind === 'cross'
            ? `${first.names} cross: ${pitches.join(' below ')}`
            : `${first.names} overlap: ${pitches.slice(0, 2).join(' over ')}, then ${pitches.slice(2).join(' over ')}`,
      evidence: found
        .slice(0, 3)
        .flatMap(({ notes }) => notes.map(note => noteEvidence('supports', note, kind, context))),
    };
  },
});
