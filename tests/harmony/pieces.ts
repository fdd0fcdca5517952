import { sourceText } from '../../src/diagnostics/index.js';
import { analyse } from '../../src/harmony/index.js';
import type { Analysis } from '../../src/harmony/index.js';
import {
  compare,
  fraction,
  isBefore,
  onsetAt,
  printPitch,
  readScore,
  soundingUntil,
} from '../../src/score/index.js';
import type { Fraction, Note, Score } from '../../src/score/index.js';
import { abcOf } from '../fixtures/harmony/pieces.js';
import type { Evidence, Piece } from '../fixtures/harmony/pieces.js';

/** The score of a text in ABC; anything to complain about in it fails the test. */
export function scoreOf(abc: string): Score {
  const { value, diagnostics } = readScore(sourceText('piece.abc', abc));
  const faults = diagnostics.filter(({ severity }) => severity === 'error');
  if (value === undefined || faults.length > 0)
    throw new Error(`the piece cannot be read: ${faults.map(({ message }) => message).join('; ')}\n${abc}`);
  return value;
}

export const analysed = (piece: Piece): Analysis => analyse(scoreOf(abcOf(piece)));

export function unitOf(piece: Piece): Fraction {
  const [n = 1, d = 1] = piece.unit.split('/').map(Number);
  return fraction(n, d);
}

/** The moment of a bar and a beat, beats counted in `unit`. */
export function momentOf(score: Score, bar: number, beat: number, unit: Fraction): Fraction {
  const moment = onsetAt(score, bar, fraction(beat), unit);
  if (moment === undefined) throw new Error(`no bar ${String(bar)} beat ${String(beat)}`);
  return moment;
}

/** The note head that sounds in a voice at a place, or `undefined` where another or none sounds. */
export function noteAt(score: Score, [voice, bar, beat, pitch]: Evidence, unit: Fraction): Note | undefined {
  const moment = momentOf(score, bar, beat, unit);
  const id = score.voices[voice - 1]?.id;
  return score.notes.findLast(
    note =>
      note.voice === id &&
      printPitch(note.pitch) === pitch &&
      compare(note.onset, moment) <= 0 &&
      isBefore(moment, soundingUntil(score, note)),
  );
}
