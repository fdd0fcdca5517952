import { add, equals, least, midiOf, subtract, zero } from '../score/index.js';
import type { Fraction, Note, NoteId, PlayedBar, Score, VoiceId } from '../score/index.js';
import type { PassageClock } from './passage-clock.js';
import { heldByPedal } from './pedal.js';
import { velocitiesOf } from './velocity.js';

/** A note of a passage, in seconds from the passage's first bar. */
export interface PassageNote {
  readonly start: number;
  readonly end: number;
  readonly midi: number;
  readonly velocity: number;
  readonly voice: string;
  readonly notes: readonly NoteId[];
}

/** A bar of a passage, in seconds from the passage's first bar. */
export interface PassageBar {
  readonly start: number;
  readonly end: number;
  readonly bar: number;
  readonly pass: number;
}

export interface WrittenPassage {
  readonly seconds: number;
  readonly bars: readonly PassageBar[];
  /** Sorted by start, then by pitch. */
  readonly notes: readonly PassageNote[];
}

/** Length of one grace note in seconds; it is taken from the time before the main note. Common practice for short grace notes. */
export const graceSeconds = 0.09;
/** A staccato note sounds half its length. Source: common practice; H. Riemann and most primers give the half. */
const staccatoShare = 0.5;

interface Sounding {
  readonly note: Note;
  readonly onset: Fraction;
  end: Fraction;
  readonly chain: NoteId[];
}

/**
 * Strikes of a passage in whole notes of playing time. A tie chain is struck once. The passage is heard as if cut from the page: a
 * note tied in from before it is struck at its start, a note tied out of it ends with it.
 */
function strikes(
  score: Score,
  order: readonly PlayedBar[],
  isHeard: (note: Note) => boolean,
): readonly Sounding[] {
  const notesOfBar = new Map<number, Note[]>();
  for (const note of score.notes) {
    if (!isHeard(note)) continue;
    const others = notesOfBar.get(note.bar);
    if (others === undefined) notesOfBar.set(note.bar, [note]);
    else others.push(note);
  }
  const struck: Sounding[] = [];
  const lastOfNote = new Map<NoteId, Sounding>();
  let barStart = zero;
  for (const { bar: index } of order) {
    const bar = score.bars[index];
    if (bar === undefined) continue;
    for (const note of notesOfBar.get(index) ?? []) {
      const onset = add(barStart, subtract(note.onset, bar.start));
      const end = add(onset, note.duration);
      const before = note.tiedFrom === undefined ? undefined : lastOfNote.get(note.tiedFrom);
      const goesOn = before !== undefined && !note.grace && equals(before.end, onset);
      const sounding = goesOn ? before : { note, onset, end, chain: [] };
      sounding.end = end;
      sounding.chain.push(note.id);
      lastOfNote.set(note.id, sounding);
      if (!goesOn) struck.push(sounding);
    }
    barStart = add(barStart, bar.length);
  }
  for (const sounding of struck) sounding.end = least(sounding.end, barStart);
  return struck;
}

/** A key that is struck again first comes up: ends each note where the same key of the same voice is struck next. */
function releasedBeforeNextStrike(notes: readonly PassageNote[]): readonly PassageNote[] {
  const nextStrike = new Map<string, number>();
  const released = [...notes].reverse().map(note => {
    const key = `${note.voice} ${String(note.midi)}`;
    const next = nextStrike.get(key);
    nextStrike.set(key, note.start);
    return next !== undefined && next < note.end && next > note.start ? { ...note, end: next } : note;
  });
  return released.reverse();
}

/** Bars of the passage as they are heard. */
function timedBars(score: Score, order: readonly PlayedBar[], clock: PassageClock): readonly PassageBar[] {
  const heardBefore = new Map<number, number>();
  let at = zero;
  return order.flatMap(({ bar: index }) => {
    const bar = score.bars[index];
    if (bar === undefined) return [];
    const pass = heardBefore.get(index) ?? 0;
    heardBefore.set(index, pass + 1);
    const start = clock(at);
    at = add(at, bar.length);
    return [{ start, end: clock(at), bar: index, pass }];
  });
}

/**
 * A passage as written: notes and bars in seconds. `voice` leaves one voice (with its overlays) and silences the others.
 * `pedal` are the moments at which the pedal is changed; without it every note ends as written.
 * Grace notes stand before their main note; where the passage begins with them, everything starts later by their length.
 */
export function writtenPassage(
  score: Score,
  order: readonly PlayedBar[],
  clock: PassageClock,
  voice?: VoiceId,
  pedal?: readonly Fraction[],
): WrittenPassage {
  const ownVoices =
    voice === undefined
      ? undefined
      : new Set(score.voices.filter(v => v.id === voice || v.overlayOf === voice).map(v => v.id));
  const struck = strikes(score, order, note => ownVoices === undefined || ownVoices.has(note.voice));
  const velocityOf = velocitiesOf(score);
  const staccato = new Set(
    score.marks
      .filter(mark => mark.kind === 'staccato')
      .map(mark => `${mark.voice} ${mark.onset.n}/${mark.onset.d}`),
  );

  const graces = new Map<string, Sounding[]>();
  for (const sounding of struck.filter(({ note }) => note.grace)) {
    const key = `${sounding.note.voice} ${sounding.onset.n}/${sounding.onset.d}`;
    graces.set(key, [...(graces.get(key) ?? []), sounding]);
  }
  const written = [...graces.values()].map(group => group.toSorted((a, b) => a.note.id - b.note.id));
  const leading = Math.max(
    0,
    ...written.filter(group => group[0]?.onset.n === 0).map(group => group.length * graceSeconds),
  );

  const plain = struck
    .filter(({ note }) => !note.grace)
    .map(({ note, onset, end, chain }): PassageNote => {
      const start = clock(onset) + leading;
      const isShort = staccato.has(`${note.voice} ${note.onset.n}/${note.onset.d}`);
      const short = isShort && pedal === undefined ? staccatoShare : 1;
      const released = pedal === undefined ? end : heldByPedal(end, pedal);
      return {
        start,
        end: start + (clock(released) + leading - start) * short,
        midi: midiOf(note.pitch),
        velocity: velocityOf(note),
        voice: note.voice,
        notes: chain,
      };
    });
  const ornaments = written.flatMap(group =>
    group.map(({ note, onset, chain }, place): PassageNote => {
      const start = Math.max(0, clock(onset) + leading - (group.length - place) * graceSeconds);
      return {
        start,
        end: start + graceSeconds,
        midi: midiOf(note.pitch),
        velocity: velocityOf(note),
        voice: note.voice,
        notes: chain,
      };
    }),
  );
  const bars = timedBars(score, order, clock).map(bar => ({
    ...bar,
    start: bar.start + leading,
    end: bar.end + leading,
  }));
  const notes = [...plain, ...ornaments]
    .filter(note => note.end > note.start)
    .sort((a, b) => a.start - b.start || a.midi - b.midi);
  return { seconds: bars.at(-1)?.end ?? 0, bars, notes: releasedBeforeNextStrike(notes) };
}
