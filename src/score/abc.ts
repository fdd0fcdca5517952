import abcjs from 'abcjs';
import { fromDecimal, multiply, fraction, type Fraction } from './fraction.js';

/** A note, chord or rest as the parser cuts it out of the music code. */
export interface NoteElement {
  readonly kind: 'note';
  /** Range in the music code; it may begin with chord symbols and end with spaces. */
  readonly start: number;
  readonly end: number;
  /** Length in unit note lengths, broken rhythm applied, tuplet factor not. */
  readonly length: Fraction;
  readonly rest?: 'rest' | 'invisible' | 'spacer' | 'bars';
  /** Number of bars of a multi-bar rest. */
  readonly restBars: number;
  /** Whether a tie starts at each head, in the order of the source. */
  readonly ties: readonly boolean[];
  readonly decorations: readonly string[];
  readonly lyrics: readonly string[];
  readonly slursStarted: number;
  readonly slursEnded: number;
}

/** A bar line. */
export interface BarElement {
  readonly kind: 'bar line';
  readonly start: number;
  readonly end: number;
  readonly type: string;
  /** Text of the ending that starts here, such as `1` or `1,3`. */
  readonly ending?: string;
  readonly decorations: readonly string[];
}

export type MusicElement = NoteElement | BarElement;

/** What the parser really returns; its published types leave half of it out. */
interface ParsedItem {
  readonly el_type: string;
  readonly startChar: number;
  readonly endChar: number;
  readonly type?: string;
  readonly startEnding?: string;
  readonly duration?: number;
  readonly rest?: { readonly type: string; readonly text?: number };
  readonly pitches?: readonly {
    readonly startTie?: object;
    readonly startSlur?: unknown;
    readonly endSlur?: unknown;
  }[];
  readonly startSlur?: unknown;
  readonly endSlur?: unknown;
  readonly decoration?: readonly string[];
  readonly lyric?: readonly { readonly syllable: string; readonly divider: string }[];
}

/** The unit note length that the parser assumes where it sees no `L:` field. */
const parserUnit = fraction(8);
/** Lengths are read back from floats: 3072 = 1024 * 3 holds every notated length and its third. */
const finestDenominator = 3072;

const restKinds: Readonly<Record<string, NoteElement['rest']>> = {
  rest: 'rest',
  whole: 'rest',
  invisible: 'invisible',
  spacer: 'spacer',
  multimeasure: 'bars',
  'invisible-multimeasure': 'bars',
};

const count = (slur: unknown): number =>
  Array.isArray(slur) ? slur.length : typeof slur === 'number' ? slur : 0;

function convertNote(item: ParsedItem): NoteElement {
  const pitches = item.pitches ?? [];
  const rest = item.rest === undefined ? undefined : restKinds[item.rest.type];
  return {
    kind: 'note',
    start: item.startChar,
    end: item.endChar,
    length: multiply(fromDecimal(item.duration ?? 0, finestDenominator), parserUnit),
    ...(rest === undefined ? {} : { rest }),
    restBars: item.rest?.text ?? 1,
    ties: pitches.map(pitch => pitch.startTie !== undefined),
    decorations: item.decoration ?? [],
    lyrics: (item.lyric ?? []).map(({ syllable, divider }) => syllable + (divider === '-' ? '-' : '')),
    slursStarted: count(item.startSlur) + pitches.reduce((sum, pitch) => sum + count(pitch.startSlur), 0),
    slursEnded: count(item.endSlur) + pitches.reduce((sum, pitch) => sum + count(pitch.endSlur), 0),
  };
}

function convert(item: ParsedItem): MusicElement | undefined {
  if (item.el_type === 'note') return convertNote(item);
  if (item.el_type !== 'bar') return undefined;
  const ending = item.startEnding;
  return {
    kind: 'bar line',
    start: item.startChar,
    end: item.endChar,
    type: item.type ?? '',
    ...(ending === undefined ? {} : { ending }),
    decorations: item.decoration ?? [],
  };
}

/**
 * Reads music code (no fields, one stream for all voices) into elements in the order of the source.
 * Fields are read by us because the parser moves voices, applies lengths and metres across voices and forgets positions.
 */
export function readMusicCode(music: string): readonly MusicElement[] {
  const lines = abcjs.parseOnly(music)[0]?.lines ?? [];
  const items = lines
    .flatMap(line => line.staff ?? [])
    .flatMap(staff => staff.voices ?? [])
    .flat() as readonly unknown[];
  return (items as readonly ParsedItem[])
    .map(convert)
    .filter(element => element !== undefined)
    .sort((a, b) => a.start - b.start || a.end - b.end);
}
