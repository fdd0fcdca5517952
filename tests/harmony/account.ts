import { chord, key, printChord, printKey } from '../../src/harmony/index.js';
import type { Analysis, Key } from '../../src/harmony/index.js';
import { fraction, multiply, printFraction, printPitchClass, transposed } from '../../src/score/index.js';
import type { Fraction } from '../../src/score/index.js';

/** How an account of the rewritten music is brought back to the original: fifths to move by, factor of all times. */
export interface Measure {
  readonly fifths: number;
  readonly factor: Fraction;
}

const asWritten: Measure = { fifths: 0, factor: fraction(1) };

export const moved = (of: Key, fifths: number): Key => key(transposed(of.tonic, fifths), of.mode);

/** The harmonies with their places and keys, a line each. */
export const harmoniesOf = (
  { segments }: Analysis,
  { fifths, factor }: Measure = asWritten,
): readonly string[] =>
  segments.map(({ start, end, chord: { root, quality, inversion }, roman, key: of, function: role }) =>
    [
      `${printFraction(multiply(start, factor))}-${printFraction(multiply(end, factor))}`,
      printChord(chord(transposed(root, fifths), quality, inversion)),
      roman,
      printKey(moved(of, fifths)),
      role,
    ].join(' '),
  );

/** All that the analysis says. */
export function accountOf(analysis: Analysis, measure: Measure = asWritten): readonly string[] {
  const { fifths, factor } = measure;
  const time = (at: Fraction): string => printFraction(multiply(at, factor));
  return [
    ...harmoniesOf(analysis, measure),
    ...analysis.segments.flatMap(({ nonChordTones: named, unexplained }) => [
      ...named.map(({ note, kind, figure, chromatic }) => [note, kind, figure, chromatic].join(' ')),
      ...unexplained.map(note => `${String(note)} unexplained`),
    ]),
    ...analysis.cadences.map(
      ({ kind, onset, key: of, phrygian }) =>
        `${time(onset)} ${kind} ${printKey(moved(of, fifths))} ${String(phrygian)}`,
    ),
    ...analysis.pedals.map(
      ({ start, end, tone, notes }) =>
        `${time(start)}-${time(end)} pedal ${printPitchClass(transposed(tone, fifths))} ${notes.join(' ')}`,
    ),
    ...analysis.sequences.map(
      ({ start, unit, statements, step, real }) =>
        `${time(start)} sequence ${time(unit)} ${String(statements)} ${String(step)} ${String(real)}`,
    ),
  ];
}
