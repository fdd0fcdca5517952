import type { TuneObject } from 'abcjs';
// The parser alone: the library as a whole brings its engraver and its synthesizer, which cost every check a part of its start.
import tunebook from 'abcjs/src/api/abc_tunebook.js';
import { fraction, fromDecimal, multiply, type Fraction } from './fraction.js';
import { putMetres, withoutMetresBehindVoices } from './metre-behind-voice.js';

/** A note, chord or rest as the parser cuts it out of the music code. Offsets are those of the text given. */
export interface NoteElement {
  readonly kind: 'note';
  /** It may begin with chord symbols and end with spaces. */
  readonly start: number;
  readonly end: number;
  /** Length in unit note lengths, broken rhythm applied, tuplet factor not; absent where it is none that notation knows. */
  readonly length?: Fraction;
  /** A space without time, or a rest of whole bars; other rests are elements without heads. */
  readonly rest?: 'spacer' | 'bars';
  /** Number of bars of a multi-bar rest. */
  readonly restBars: number;
  /** Whether a tie starts at each head, in the order of the source. */
  readonly ties: readonly boolean[];
  readonly decorations: readonly string[];
  /** One syllable for each verse. */
  readonly lyrics: readonly string[];
  readonly slursStarted: number;
  readonly slursEnded: number;
}

/** A bar line. */
export interface BarElement {
  readonly kind: 'bar line';
  readonly start: number;
  readonly end: number;
  /** Text of the ending that starts here, such as `1` or `1,3`. */
  readonly ending?: string;
  readonly decorations: readonly string[];
}

export type MusicElement = NoteElement | BarElement;

/** What the engraver makes of a whole tune. */
export interface Engraving {
  /** Ranges of the notes that it draws, in the order of the text. */
  readonly notes: readonly { readonly start: number; readonly end: number }[];
  /** Ranges of the notes and rests that it draws directly behind a metre. */
  readonly behindMetre: readonly { readonly start: number; readonly end: number }[];
  /** The metre at the head of each staff of the first line, as a field writes it; empty where there is none, or none that is one fraction. */
  readonly openingMetres: readonly string[];
  /** Its complaints; line and column are 1-based. */
  readonly complaints: readonly {
    readonly line: number;
    readonly column: number;
    readonly message: string;
  }[];
}

/** What the parser really returns; its published types leave half of it out. */
interface ParsedItem {
  readonly el_type: string;
  readonly startChar: number;
  readonly endChar: number;
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

/** The parser takes a unit of 1/8 where it sees no `L:` field. */
const unitsInWhole = fraction(8);
/** Lengths are read back from floats: 1024ths and their thirds are the finest that notation knows. */
const finestDenominator = 3072;
const longestInWholes = 1000;

const restKinds: Readonly<Record<string, NoteElement['rest']>> = {
  spacer: 'spacer',
  multimeasure: 'bars',
  'invisible-multimeasure': 'bars',
};

const count = (slur: unknown): number =>
  Array.isArray(slur) ? slur.length : typeof slur === 'number' ? slur : 0;

/** The parser hides an escaped percent sign in other characters, and joins words that share a note with a hard space. */
const plainText = (text: string): string => text.replaceAll('\u200B\uFF05', '%').replaceAll('\u00A0', ' ');

function lengthOf(duration: number): Fraction | undefined {
  if (!(duration > 0 && duration < longestInWholes)) return undefined;
  const length = fromDecimal(duration, finestDenominator);
  return length.n === 0 ? undefined : multiply(length, unitsInWhole);
}

function convertNote(item: ParsedItem): NoteElement {
  const length = lengthOf(item.duration ?? 0);
  const pitches = item.pitches ?? [];
  const rest = item.rest === undefined ? undefined : restKinds[item.rest.type];
  return {
    kind: 'note',
    start: item.startChar,
    end: item.endChar,
    ...(length === undefined ? {} : { length }),
    ...(rest === undefined ? {} : { rest }),
    restBars: item.rest?.text ?? 1,
    ties: pitches.map(pitch => pitch.startTie !== undefined),
    decorations: item.decoration ?? [],
    lyrics: (item.lyric ?? []).map(({ syllable, divider }) => {
      const text = plainText(syllable);
      return divider === '-' && text !== '' ? `${text}-` : text;
    }),
    slursStarted: count(item.startSlur) + pitches.reduce((sum, pitch) => sum + count(pitch.startSlur), 0),
    slursEnded: count(item.endSlur) + pitches.reduce((sum, pitch) => sum + count(pitch.endSlur), 0),
  };
}

function convert(item: ParsedItem): MusicElement | undefined {
  if (item.el_type === 'note') return convertNote(item);
  if (item.el_type !== 'bar') return undefined;
  const ending = item.startEnding === undefined ? {} : { ending: item.startEnding };
  return {
    kind: 'bar line',
    start: item.startChar,
    end: item.endChar,
    ...ending,
    decorations: item.decoration ?? [],
  };
}

/** A voice within one line of the score. */
interface ParsedStretch {
  readonly items: readonly ParsedItem[];
  /** Whether the staff has a metre at the head of the line. */
  readonly hasMetre: boolean;
}

/** The lines of the score, each with its voices from the top. */
function linesOf(tune: TuneObject | undefined): readonly (readonly ParsedStretch[])[] {
  return (tune?.lines ?? []).map(line =>
    (line.staff ?? []).flatMap(staff => {
      const voices: readonly unknown[] = staff.voices ?? [];
      return voices.map(items => ({
        items: items as readonly ParsedItem[],
        hasMetre: staff.meter !== undefined,
      }));
    }),
  );
}

const itemsOf = (tune: TuneObject | undefined): readonly ParsedItem[] =>
  linesOf(tune).flatMap(line => line.flatMap(({ items }) => items));

/** The notes and rests behind a metre, be it in the line, at its head, or at the end of the line before. */
function itemsBehindMetre(tune: TuneObject | undefined): readonly ParsedItem[] {
  let announced = false;
  return linesOf(tune).flatMap(line => {
    const found: ParsedItem[] = [];
    let announcedNext = false;
    for (const { items, hasMetre } of line) {
      let isBehind = hasMetre || announced;
      for (const item of items) {
        if (item.el_type === 'meter') isBehind = true;
        if (item.el_type !== 'note') continue;
        if (isBehind) found.push(item);
        isBehind = false;
      }
      announcedNext ||= isBehind;
    }
    announced = announcedNext;
    return found;
  });
}

interface ParsedMetre {
  readonly type: string;
  readonly value?: readonly { readonly num: string; readonly den?: string }[];
}

function metreText({ type, value = [] }: ParsedMetre): string {
  if (type === 'common_time') return '4/4';
  if (type === 'cut_time') return '2/2';
  const [only] = value;
  return value.length === 1 && only?.den !== undefined ? `${only.num}/${only.den}` : '';
}

/** The metre with which each staff of the first line begins. */
function openingMetres(tune: TuneObject | undefined): readonly string[] {
  const first = tune?.lines.find(line => line.staff !== undefined);
  return (first?.staff ?? []).map(staff => {
    const voices = (staff.voices ?? []) as readonly (readonly ParsedItem[])[];
    const before = voices.flatMap(items =>
      items.slice(
        0,
        items.findIndex(item => item.el_type === 'note'),
      ),
    );
    const metre: unknown = before.findLast(item => item.el_type === 'meter') ?? staff.meter;
    return metre === undefined ? '' : metreText(metre as ParsedMetre);
  });
}

const inOrder = (a: { readonly start: number; readonly end: number }, b: typeof a): number =>
  a.start - b.start || a.end - b.end;

/**
 * Reads music code (no fields, one stream for all voices) into elements in the order of the text. Fields are read by us,
 * because the parser moves voices, applies lengths and metres across voices and forgets positions.
 */
export function readMusicCode(music: string): readonly MusicElement[] {
  return itemsOf(tunebook.parseOnly(music)[0])
    .map(convert)
    .filter(element => element !== undefined)
    .sort(inOrder);
}

/** The first line of music code on which the parser gives up; `undefined` where each of them alone can be read. */
export function findUnreadableLine(
  music: string,
): { readonly start: number; readonly end: number } | undefined {
  for (const line of music.matchAll(/.+/g)) {
    try {
      tunebook.parseOnly(line[0]);
    } catch {
      return { start: line.index, end: line.index + line[0].trimEnd().length };
    }
  }
  return undefined;
}

const complaint = /^Music Line:(\d+):(\d+): ([^<]*?):? {2}/;

/** Reads a whole tune as the engraver does when it draws it. Its complaints are HTML; only their plain part is taken. */
export function readEngraving(tune: string): Engraving {
  const { abc, metres } = withoutMetresBehindVoices(tune);
  const parsed = tunebook.parseOnly(abc)[0];
  if (parsed !== undefined) putMetres(parsed, metres);
  const rangeOf = ({ startChar, endChar }: ParsedItem): { start: number; end: number } => ({
    start: startChar,
    end: endChar,
  });
  return {
    notes: itemsOf(parsed)
      .filter(item => item.el_type === 'note' && item.pitches !== undefined)
      .map(rangeOf)
      .sort(inOrder),
    behindMetre: itemsBehindMetre(parsed).map(rangeOf).sort(inOrder),
    openingMetres: openingMetres(parsed),
    complaints: (parsed?.warnings ?? []).flatMap(text => {
      const match = complaint.exec(text);
      return match === null
        ? []
        : [{ line: Number(match[1]), column: Number(match[2]), message: match[3] ?? '' }];
    }),
  };
}
