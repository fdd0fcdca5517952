import { pitchClassOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, optional, sequence, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { soundingIn } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { have, haveNo, printHas } from '../terms/verb.js';

/** What signs the notes of a place have. */
type Sign = 'sharp' | 'flat' | 'accidental';

export interface AccidentalsSays {
  readonly sign: Sign;
}

const complement: Parser<AccidentalsSays> = map(
  sequence(
    optional(article),
    wordsFor<Sign>([
      ['sharp', 'sharps', 'sharp'],
      ['flat', 'flats', 'flat'],
      ['accidental', 'accidentals', 'accidental'],
    ]),
  ),
  ([, sign]) => ({ sign }),
);

/** Whether the key signature makes the note what it is: seven neighbours on the line of fifths, from the fourth degree on. */
export function isOfSignature(note: Note, context: ClaimContext): boolean {
  const fifths = context.analysis.score.bars[note.bar]?.key.fifths ?? 0;
  const tone = pitchClassOf(note.pitch);
  return fifths - 1 <= tone && tone <= fifths + 5;
}

const hasSign = ({ pitch }: Note, sign: Sign): boolean =>
  sign === 'accidental' || (sign === 'sharp' ? pitch.alter > 0 : pitch.alter < 0);

const named = (notes: readonly Note[]): string =>
  [...new Set(notes.map(note => printPitch(note.pitch)))].slice(0, 4).join(', ');

/**
 * Sharps, flats and accidentals of a place: claim A1 of the trade (an accidental still valid, a sign of the signature). A teacher who says
 * `no sharps` may mean those that are written beside the notes or those that sound.
 */
export const accidentalsFamily = family<Span, AccidentalsSays>({
  name: 'accidentals',
  examples: ['bar 4 has sharps', 'bar 2 has no flats', 'bar 3 has no accidentals'],
  phrases: [
    [have, complement],
    [haveNo, complement],
  ],
  print: ({ sign }, form) => printHas(form, '', `${sign}s`),
  check: (span, { sign }, context): Finding<Span> => {
    const signed = soundingIn(context.analysis.score, span.range).filter(note => hasSign(note, sign));
    const written = signed.filter(note => !isOfSignature(note, context));
    const bySignature = sign === 'accidental' ? [] : signed.filter(note => isOfSignature(note, context));
    const evidence = (notes: readonly Note[], why: string) =>
      notes.slice(0, 8).map(note => noteEvidence('supports', note, why, context));
    if (written.length > 0)
      return {
        verdict: 'holds',
        code: 'C0321',
        reason: `${named(written)} ${written.length === 1 ? 'has' : 'have'} ${sign === 'accidental' ? 'an accidental' : `a ${sign}`} that is not in the key signature`,
        evidence: evidence(written, 'not in the key signature'),
      };
    if (bySignature.length > 0)
      return {
        verdict: 'arguable',
        code: 'C0323',
        reason: `${named(bySignature)} ${bySignature.length === 1 ? 'sounds' : 'sound'} through the key signature alone: no ${sign} is written in ${span.name}`,
        evidence: evidence(bySignature, 'in the key signature'),
      };
    return {
      verdict: 'fails',
      code: 'C0322',
      reason: `no note of ${span.name} has ${sign === 'accidental' ? 'an accidental' : `a ${sign}`}`,
      evidence: [],
      local: true,
    };
  },
});
