import { fraction, multiply, one, type Fraction } from './fraction.js';
import { letters, type Letter } from './pitch.js';

/** A note head as the source writes it. Offsets are those of the source. */
export interface NoteHead {
  readonly start: number;
  readonly end: number;
  readonly letter: Letter;
  /** Octave before clef and transposition: `C` stands in octave 4 (ABC 2.1, section 4.1). */
  readonly octave: number;
  /** The written accidental in semitones. */
  readonly accidental?: number;
  /** The head's own length in unit note lengths. */
  readonly length: Fraction;
  readonly tied: boolean;
}

/** `(p:q:r` before a note (ABC 2.1, section 4.13); 0 where a number is left out. */
export interface TupletMark {
  readonly p: number;
  readonly q: number;
  readonly r: number;
  readonly start: number;
  readonly end: number;
}

/** What the source writes for one note, chord or rest, with everything in front of it. */
export interface WrittenNote {
  readonly heads: readonly NoteHead[];
  readonly graces: readonly NoteHead[];
  /** Texts in double quotes, without the quotes. */
  readonly quotes: readonly string[];
  /** Names between exclamation marks. */
  readonly decorations: readonly string[];
  readonly tuplet?: TupletMark;
  /** Heads that the parser lost between its elements. */
  readonly lost: readonly NoteHead[];
  /** Accidentals of less than a semitone, which no spelled pitch can hold. */
  readonly microtones: readonly { readonly start: number; readonly end: number }[];
}

const pattern =
  /"([^"\n]*)"|!([^!\n]*)!|\((\d+)(?::(\d*))?(?::(\d*))?|([{}])|(\^\^|__|=|[\^_](?:\d*\/\d*)?)?([A-Ga-g])([,']*)(\d*)(\/*)(\d*)([\t ]*\.?-)?/g;
const signs: Readonly<Record<string, number>> = { '^^': 2, '^': 1, '=': 0, _: -1, __: -2 };

/** Reads a length such as `3/2`, `/`, `//` (ABC 2.1, section 4.3); lengths beyond all notation count as one unit. */
export function readLength(numerator: string, slashes: string, denominator: string): Fraction {
  const n = numerator === '' ? 1 : Number(numerator);
  const d = denominator === '' ? 2 ** slashes.length : Number(denominator);
  return n > 9999 || d > 9999 || d === 0 ? one : multiply(fraction(n), fraction(1, d));
}

const octaveOf = (name: string, marks: string): number =>
  (name === name.toLowerCase() ? 5 : 4) + [...marks].reduce((sum, mark) => sum + (mark === "'" ? 1 : -1), 0);

const letterOf = (name: string): Letter => letters.find(letter => letter === name.toUpperCase()) ?? 'C';

/** Reads what stands between two offsets of the music code; the element itself begins at `elementStart`, what is before belongs to it. */
export function readWrittenNote(music: string, from: number, elementStart: number, end: number): WrittenNote {
  const heads: NoteHead[] = [];
  const graces: NoteHead[] = [];
  const lost: NoteHead[] = [];
  const quotes: string[] = [];
  const decorations: string[] = [];
  const microtones: { start: number; end: number }[] = [];
  let tuplet: TupletMark | undefined;
  let inGrace = false;
  for (const match of music.slice(from, end).matchAll(pattern)) {
    const [
      text,
      quote,
      decoration,
      p,
      q,
      r,
      brace,
      sign = '',
      name,
      marks = '',
      n = '',
      slashes = '',
      d = '',
      tie,
    ] = match;
    const start = from + match.index;
    if (quote !== undefined) quotes.push(quote);
    else if (decoration !== undefined) decorations.push(decoration);
    else if (p !== undefined)
      tuplet = { p: Number(p), q: Number(q ?? 0), r: Number(r ?? 0), start, end: start + text.length };
    else if (brace !== undefined) inGrace = brace === '{';
    else if (name !== undefined) {
      const accidental = signs[sign];
      if (accidental === undefined && sign !== '') microtones.push({ start, end: start + sign.length + 1 });
      const kept = start >= elementStart ? heads : lost;
      (inGrace ? graces : kept).push({
        start,
        end: start + text.length - (tie?.length ?? 0),
        letter: letterOf(name),
        octave: octaveOf(name, marks),
        ...(accidental === undefined ? {} : { accidental }),
        length: readLength(n, slashes, d),
        tied: tie !== undefined,
      });
    }
  }
  return {
    heads,
    graces,
    lost,
    quotes,
    decorations,
    microtones,
    ...(tuplet === undefined ? {} : { tuplet }),
  };
}
