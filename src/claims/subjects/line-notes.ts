import { compare, equals, greatest, isBefore, least, midiOf } from '../../score/index.js';
import type { Fraction, Note, Score, Voice } from '../../score/index.js';
import type { Range } from '../model.js';
import { instrumentCalled } from '../terms/instrument.js';
import type { Instrument } from '../terms/instrument.js';
import type { LineName } from './line-name.js';
import { noteEnd, soundEnd, soundingIn } from './sounding.js';

/** A note as part of a line: the stretch of the asked range for which it is the line. */
export interface LineNote {
  readonly note: Note;
  readonly start: Fraction;
  readonly end: Fraction;
}

/** Which notes belong to a line, and which of those sounding at once is the line. */
interface Strand {
  readonly voices: ReadonlySet<string>;
  /** Absent where all of them count. */
  readonly edge?: 'top' | 'bottom';
}

const idsOf = (voices: readonly Voice[]): ReadonlySet<string> => new Set(voices.map(voice => voice.id));

/** Voices with their overlays. */
const withOverlays = (score: Score, found: readonly Voice[]): readonly Voice[] =>
  score.voices.filter(voice => found.includes(voice) || found.some(other => other.id === voice.overlayOf));

function voicesNamed(score: Score, name: string): readonly Voice[] {
  const wanted = name.toLowerCase();
  return withOverlays(
    score,
    score.voices.filter(voice => voice.name.toLowerCase() === wanted || voice.id.toLowerCase() === wanted),
  );
}

/** The one voice of an instrument; none where there are several and the sentence does not say which. */
function voicesOf(score: Score, { instrument, number }: Instrument): readonly Voice[] {
  const found = score.voices.filter(voice => {
    const own = instrumentCalled(voice.name) ?? instrumentCalled(voice.id);
    return own?.instrument === instrument && (number === undefined || own.number === number);
  });
  return found.length === 1 ? withOverlays(score, found) : [];
}

function onStaff(score: Score, which: 'first' | 'last'): readonly Voice[] {
  const staves = score.voices.map(voice => voice.staff);
  const staff = which === 'first' ? Math.min(...staves) : Math.max(...staves);
  return score.voices.filter(voice => voice.staff === staff);
}

/** The voice of a song by any of its names (common practice of scores). */
const singers = /^(?:voice|vocals?|vocal line|singer|song|solo voice)$/iu;
const hands = { right: /^(?:r\.? ?h\.?|right(?: hand)?)$/iu, left: /^(?:l\.? ?h\.?|left(?: hand)?)$/iu };
const titled = (score: Score, name: RegExp): readonly Voice[] =>
  withOverlays(
    score,
    score.voices.filter(voice => name.test(voice.name) || name.test(voice.id)),
  );

/** The staves of a piano beside other parts, or a piece for piano alone. */
function pianoOf(score: Score): readonly Voice[] {
  const named = titled(score, /^(?:piano|pianoforte|pno\.?|pf\.?)(?: ?(?:r\.?h\.?|l\.?h\.?|right|left))?$/iu);
  const byHands = (['right', 'left'] as const).map(hand => titled(score, hands[hand]));
  return byHands.every(voices => voices.length > 0) ? byHands.flat() : named;
}

function strandOf(score: Score, line: LineName): Strand | undefined {
  switch (line.kind) {
    case 'edge':
      return line.edge === 'top'
        ? { voices: idsOf(onStaff(score, 'first')), edge: 'top' }
        : { voices: idsOf(score.voices), edge: 'bottom' };
    case 'hand': {
      const own = titled(score, hands[line.hand]);
      if (own.length > 0) return { voices: idsOf(own) };
      if (new Set(score.voices.map(voice => voice.staff)).size !== 2) return undefined;
      return { voices: idsOf(onStaff(score, line.hand === 'right' ? 'first' : 'last')) };
    }
    case 'voice': {
      const voices =
        line.name.toLowerCase() === 'voice' ? titled(score, singers) : voicesNamed(score, line.name);
      return voices.length === 0 ? undefined : { voices: idsOf(voices) };
    }
    case 'instrument': {
      const voices = line.instrument === 'piano' ? pianoOf(score) : voicesOf(score, line);
      return voices.length === 0 ? undefined : { voices: idsOf(voices) };
    }
    case 'part': {
      const own = voicesNamed(score, line.part);
      const edge = line.part === 'bass' ? 'bottom' : 'top';
      if (own.length > 0) return { voices: idsOf(own), edge };
      if (line.part === 'soprano') return strandOf(score, { kind: 'edge', edge: 'top' });
      if (line.part === 'bass') return strandOf(score, { kind: 'edge', edge: 'bottom' });
      const parts = score.voices.filter(voice => voice.overlayOf === undefined);
      const part = parts[line.part === 'alto' ? 1 : 2];
      return parts.length === 4 && part !== undefined ? { voices: idsOf([part]), edge } : undefined;
    }
  }
}

/** Every moment of a range at which a note of the strand begins or ends. */
function moments(notes: readonly Note[], range: Range): readonly Fraction[] {
  const times = [range.start, ...notes.flatMap(note => [note.onset, noteEnd(note)])]
    .filter(time => compare(time, range.start) >= 0 && isBefore(time, range.end))
    .sort(compare);
  return times.filter((time, at) => at === 0 || !equals(time, times[at - 1] ?? time));
}

const hasBegun = (note: Note | undefined, by: Fraction): boolean =>
  note !== undefined && compare(note.onset, by) <= 0;

/** The outermost note at each moment, joined while it stays the same note or the same tied pitch. `notes` are in the order of the score. */
export function edgeOf(notes: readonly Note[], range: Range, edge: 'top' | 'bottom'): readonly LineNote[] {
  const times = moments(notes, range);
  const line: LineNote[] = [];
  let begun = 0;
  let sounding: readonly Note[] = [];
  times.forEach((time, at) => {
    const end = times[at + 1] ?? range.end;
    const from = begun;
    while (hasBegun(notes[begun], time)) begun++;
    sounding = [...sounding, ...notes.slice(from, begun)].filter(note => isBefore(time, noteEnd(note)));
    const [first] = sounding;
    if (first === undefined) return;
    const note = sounding.reduce((best, each) => {
      const higher = midiOf(each.pitch) - midiOf(best.pitch);
      return (edge === 'top' ? higher : -higher) > 0 ? each : best;
    }, first);
    const last = line.at(-1);
    const continues = last !== undefined && equals(last.end, time);
    if (continues && (last.note === note || last.note.tiedTo === note.id))
      line[line.length - 1] = { ...last, end };
    else line.push({ note, start: time, end });
  });
  return line;
}

/**
 * The notes of a line within a range, in time order; `undefined` where the score has no such line. The top line is the
 * highest of the top staff, the bottom line the lowest of all; grace notes belong to no line.
 */
export function lineNotes(score: Score, line: LineName, range: Range): readonly LineNote[] | undefined {
  const strand = strandOf(score, line);
  if (strand === undefined) return undefined;
  const notes = soundingIn(score, range).filter(note => !note.grace && strand.voices.has(note.voice));
  if (strand.edge !== undefined) return edgeOf(notes, range, strand.edge);
  return notes
    .filter(
      note =>
        note.tiedFrom === undefined || isBefore(note.onset, range.start) || equals(note.onset, range.start),
    )
    .map(note => ({
      note,
      start: greatest(note.onset, range.start),
      end: least(soundEnd(note, score), range.end),
    }));
}

/** The lines that a score has, for messages. */
export function describeLines(score: Score): string {
  const names = score.voices
    .filter(voice => voice.overlayOf === undefined)
    .map(voice => (voice.name === '' || voice.name === voice.id ? voice.id : `${voice.id} (${voice.name})`));
  return `its voices are ${names.join(', ')}`;
}

/** Whether the bass is a voice of its own: one that is called so, or the lowest of four. */
export const hasOwnBass = (score: Score): boolean =>
  voicesNamed(score, 'bass').length > 0 ||
  score.voices.filter(voice => voice.overlayOf === undefined).length === 4;
