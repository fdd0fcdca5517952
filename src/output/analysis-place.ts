import { barAt, compare, placeAt, printPitch, toNumber } from '../score/index.js';
import type { Fraction, Note, Score } from '../score/index.js';

/** Bar label and beat of a moment as a report prints them: `8a`, `2.5`. */
export function printedPlace(score: Score, onset: Fraction): { readonly bar: string; readonly beat: number } {
  const place = placeAt(score, onset);
  return place === undefined
    ? { bar: '', beat: 1 }
    : { bar: place.label, beat: Math.round(toNumber(place.beat) * 10_000) / 10_000 };
}

/** The label of the bar whose sound ends at a moment. */
export function lastBarBefore(score: Score, end: Fraction): string {
  const bar = barAt(score, end);
  if (bar === undefined) return '';
  const reached = compare(bar.start, end) < 0 ? bar : score.bars[bar.index - 1];
  return (reached ?? bar).label;
}

export const quarters = (whole: Fraction): number => toNumber(whole) * 4;

/** A note as a report names it. */
export function printedNote(
  score: Score,
  note: Note,
): { readonly pitch: string; readonly voice: string; readonly bar: string; readonly beat: number } {
  const voice = score.voices.find(({ id }) => id === note.voice);
  return {
    pitch: printPitch(note.pitch),
    voice: voice === undefined || voice.name === '' ? note.voice : voice.name,
    ...printedPlace(score, note.onset),
  };
}
