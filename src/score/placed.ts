import type { SourceText } from '../diagnostics/index.js';
import { add, compare, zero, type Fraction } from './fraction.js';
import type { Bar, Mark, Note, NoteId, Rest, TempoMark, Voice, VoiceId } from './model.js';
import { midiOf, staffStepOf } from './pitch.js';
import type { Direction } from './playing-order.js';
import type { NoteDraft, VoiceBar } from './voice-bars.js';
import { layerId } from './voice-fields.js';

/** The bars of every voice, in the order of the score. */
export type VoiceBars = ReadonlyMap<VoiceId, readonly VoiceBar[]>;

interface InScore {
  readonly voice: VoiceId;
  readonly bar: VoiceBar;
  readonly index: number;
  readonly start: Fraction;
}

/** Every bar of every voice with its start in whole notes. */
const eachBar = (voices: VoiceBars, bars: readonly Bar[]): readonly InScore[] =>
  [...voices].flatMap(([voice, written]) =>
    written.map((bar, index) => ({ voice, bar, index, start: bars[index]?.start ?? zero })),
  );

const byOnset = (a: { readonly onset: Fraction }, b: { readonly onset: Fraction }): number =>
  compare(a.onset, b.onset);

/** Earlier first; grace notes before their main note, in written order; then from low to high. */
const noteOrder = (a: Omit<Note, 'id'>, b: Omit<Note, 'id'>): number =>
  byOnset(a, b) ||
  Number(b.grace) - Number(a.grace) ||
  (a.grace ? a.span.start - b.span.start : 0) ||
  midiOf(a.pitch) - midiOf(b.pitch) ||
  staffStepOf(a.pitch) - staffStepOf(b.pitch) ||
  a.span.start - b.span.start;

const noteId = (index: number): NoteId => index as NoteId;

export function placeNotes(source: SourceText, voices: VoiceBars, bars: readonly Bar[]): readonly Note[] {
  const placed = eachBar(voices, bars).flatMap(({ voice, bar, index, start }) =>
    bar.notes.map(draft => {
      const { pitch, duration, grace } = draft;
      const span = { source, start: draft.start, end: draft.end };
      const note = {
        pitch,
        onset: add(start, draft.offset),
        duration,
        voice: layerId(voice, draft.layer),
        bar: index,
        grace,
        span,
      };
      return { draft, note };
    }),
  );
  placed.sort((a, b) => noteOrder(a.note, b.note));
  const ids = new Map(placed.map(({ draft }, index) => [draft, noteId(index)]));
  const idOf = (draft: NoteDraft | undefined): NoteId | undefined =>
    draft === undefined ? undefined : ids.get(draft);
  return placed.map(({ draft, note }, index) => {
    const tiedFrom = idOf(draft.tiedFrom);
    const tiedTo = idOf(draft.tiedTo);
    return {
      id: noteId(index),
      ...note,
      ...(tiedFrom === undefined ? {} : { tiedFrom }),
      ...(tiedTo === undefined ? {} : { tiedTo }),
    };
  });
}

export const placeRests = (source: SourceText, voices: VoiceBars, bars: readonly Bar[]): readonly Rest[] =>
  eachBar(voices, bars)
    .flatMap(({ voice, bar, index, start }) =>
      bar.rests.map(({ offset, duration, layer, ...range }): Rest => ({
        onset: add(start, offset),
        duration,
        voice: layerId(voice, layer),
        bar: index,
        span: { source, ...range },
      })),
    )
    .sort(byOnset);

/** Marks, and tempo words that name no speed as annotations. */
export const placeMarks = (voices: VoiceBars, bars: readonly Bar[]): readonly Mark[] =>
  eachBar(voices, bars)
    .flatMap(({ voice, bar, start }): Mark[] => [
      ...bar.marks.map(({ kind, text, offset, layer }): Mark => ({
        kind,
        text,
        onset: add(start, offset),
        voice: layerId(voice, layer),
      })),
      ...bar.tempos
        .filter(({ tempo }) => tempo.beat === undefined && tempo.text !== undefined)
        .map(({ offset, tempo }): Mark => ({
          kind: 'annotation',
          text: tempo.text ?? '',
          onset: add(start, offset),
          voice,
        })),
    ])
    .sort(byOnset);

/** Tempo marks, each moment once however many voices repeat it. */
export function placeTempos(voices: VoiceBars, bars: readonly Bar[]): readonly TempoMark[] {
  const tempos = new Map<string, TempoMark>();
  for (const { bar, start } of eachBar(voices, bars)) {
    for (const { offset, tempo } of bar.tempos) {
      const { beat, beatsPerMinute, text } = tempo;
      const onset = add(start, offset);
      const key = `${String(onset.n)}/${String(onset.d)}`;
      if (beat === undefined || beatsPerMinute === undefined) continue;
      tempos.set(key, { onset, beat, beatsPerMinute, ...(text === undefined ? {} : { text }) });
    }
  }
  return [...tempos.values()].sort(byOnset);
}

/** The directions of all voices in written order, each once. */
export function directionsOf(voices: VoiceBars): readonly Direction[] {
  const found = new Map<string, Direction>();
  for (const written of voices.values()) {
    for (const [bar, { marks }] of written.entries()) {
      for (const { kind, text, offset } of marks) {
        if (kind === 'direction') found.set(`${String(bar)} ${text}`, { text, bar, atStart: offset.n === 0 });
      }
    }
  }
  return [...found.values()].sort((a, b) => a.bar - b.bar || Number(b.atStart) - Number(a.atStart));
}

/** The voices of the score, each followed by its overlays. */
export const withOverlays = (voices: readonly Voice[], written: VoiceBars): readonly Voice[] =>
  voices.flatMap(voice => {
    const layers = (written.get(voice.id) ?? []).reduce((most, bar) => Math.max(most, bar.layers.length), 1);
    return Array.from({ length: layers }, (_, layer): Voice =>
      layer === 0 ? voice : { ...voice, id: layerId(voice.id, layer), overlayOf: voice.id },
    );
  });
