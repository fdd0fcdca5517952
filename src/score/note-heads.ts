import { fraction, multiply, one, type Fraction } from './fraction.js';
import type { Letter } from './pitch.js';

/** A note head as the source writes it. Offsets are those of the source. */
export interface NoteHead {
  readonly start: number;
  readonly end: number;
  readonly letter: Letter;
  /** Octave without clef and transposition; `C` stands in octave 4. */
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
}

/** What stands inside the source range of one note, chord or rest. */
export interface WrittenNote {
  readonly heads: readonly NoteHead[];
  readonly graces: readonly NoteHead[];
  /** Texts in double quotes, without the quotes. */
  readonly quotes: readonly string[];
  /** Names between exclamation marks. */
  readonly decorations: readonly string[];
  readonly tuplet?: TupletMark;
}

const pattern =
  /"([^"\n]*)"|!([^!\n]*)!|\((\d+)(?::(\d*))?(?::(\d*))?|([{}])|(\^\^|\^|__|_|=)?([A-Ga-g])([,']*)(\d*)(\/*)(\d*)([\t ]*\.?-)?/g;
const accidentals: Readonly<Record<string, number>> = { '^^': 2, '^': 1, '=': 0, _: -1, __: -2 };

/** Reads a length such as `3/2`, `/`, `//` (ABC 2.1, section 4.3). */
export function readLength(numerator: string, slashes: string, denominator: string): Fraction {
  const n = numerator === '' ? 1 : Number(numerator);
  const d = denominator === '' ? 2 ** slashes.length : Number(denominator);
  if (!Number.isSafeInteger(n) || !Number.isSafeInteger(d) || d === 0) return one;
  return multiply(fraction(n), fraction(1, d));
}

const octaveOf = (name: string, marks: string): number =>
  (name === name.toLowerCase() ? 5 : 4) + [...marks].reduce((sum, mark) => sum + (mark === "'" ? 1 : -1), 0);

/** Reads the note heads between two offsets of the music code. */
export function readWrittenNote(music: string, start: number, end: number): WrittenNote {
  const heads: NoteHead[] = [];
  const graces: NoteHead[] = [];
  const quotes: string[] = [];
  const decorations: string[] = [];
  let tuplet: TupletMark | undefined;
  let inGrace = false;
  for (const match of music.slice(start, end).matchAll(pattern)) {
    const [
      text,
      quote,
      decoration,
      p,
      q,
      r,
      brace,
      accidental,
      name,
      marks = '',
      n = '',
      slashes = '',
      d = '',
      tie,
    ] = match;
    const at = start + match.index;
    if (quote !== undefined) quotes.push(quote);
    else if (decoration !== undefined) decorations.push(decoration);
    else if (p !== undefined) tuplet = { p: Number(p), q: Number(q ?? 0), r: Number(r ?? 0), start: at };
    else if (brace !== undefined) inGrace = brace === '{';
    else if (name !== undefined) {
      const head: NoteHead = {
        start: at,
        end: at + text.length - (tie?.length ?? 0),
        letter: name.toUpperCase() as Letter,
        octave: octaveOf(name, marks),
        ...(accidental === undefined ? {} : { accidental: accidentals[accidental] ?? 0 }),
        length: readLength(n, slashes, d),
        tied: tie !== undefined,
      };
      (inGrace ? graces : heads).push(head);
    }
  }
  return { heads, graces, quotes, decorations, ...(tuplet === undefined ? {} : { tuplet }) };
}
