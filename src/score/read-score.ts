import type { Result, SourceText, Span } from '../diagnostics/index.js';
import { readMusicCode } from './abc.js';
import { readAbcText, type AbcText } from './abc-text.js';
import { placeBars } from './bars.js';
import { add, compare, zero } from './fraction.js';
import type { Bar, Mark, Note, NoteId, Rest, Score, Voice, VoiceId } from './model.js';
import { midiOf, staffStepOf } from './pitch.js';
import { unfoldRepeats } from './playing-order.js';
import { readVoices } from './voice-fields.js';
import { readVoiceBars, type NoteDraft, type VoiceBar } from './voice-reader.js';

const textOf = (abc: AbcText, letter: string): string =>
  abc.fields.find(field => field.letter === letter)?.value.trim() ?? '';

const layerId = (voice: VoiceId, layer: number): VoiceId =>
  (layer === 0 ? voice : `${voice}${'&'.repeat(1)}${String(layer)}`) as VoiceId;

/** Adds a voice for every overlay behind the voice it lies over. */
function withOverlays(
  voices: readonly Voice[],
  bars: ReadonlyMap<VoiceId, readonly VoiceBar[]>,
): readonly Voice[] {
  return voices.flatMap(voice => {
    const layers = Math.max(1, ...(bars.get(voice.id) ?? []).map(bar => bar.layers.length));
    return Array.from({ length: layers }, (_, layer): Voice =>
      layer === 0 ? voice : { ...voice, id: layerId(voice.id, layer), overlayOf: voice.id },
    );
  });
}

interface Placed {
  readonly draft: NoteDraft;
  readonly note: Omit<Note, 'id'>;
}

function placeNotes(
  source: SourceText,
  bars: readonly Bar[],
  voiceBars: ReadonlyMap<VoiceId, readonly VoiceBar[]>,
): readonly Note[] {
  const placed: Placed[] = [];
  for (const [voice, written] of voiceBars) {
    for (const [index, bar] of written.entries()) {
      const start = bars[index]?.start ?? zero;
      for (const draft of bar.notes) {
        const { pitch, duration, grace } = draft;
        const span: Span = { source, start: draft.start, end: draft.end };
        placed.push({
          draft,
          note: {
            pitch,
            onset: add(start, draft.offset),
            duration,
            voice: layerId(voice, draft.layer),
            bar: index,
            grace,
            span,
          },
        });
      }
    }
  }
  placed.sort(
    ({ note: a }, { note: b }) =>
      compare(a.onset, b.onset) ||
      Number(b.grace) - Number(a.grace) ||
      (a.grace ? a.span.start - b.span.start : 0) ||
      midiOf(a.pitch) - midiOf(b.pitch) ||
      staffStepOf(a.pitch) - staffStepOf(b.pitch) ||
      a.span.start - b.span.start,
  );
  const ids = new Map(placed.map(({ draft }, index) => [draft, index as NoteId]));
  return placed.map(({ draft, note }, index) => {
    const from = draft.tiedFrom === undefined ? undefined : ids.get(draft.tiedFrom);
    const to = draft.tiedTo === undefined ? undefined : ids.get(draft.tiedTo);
    return {
      id: index as NoteId,
      ...note,
      ...(from === undefined ? {} : { tiedFrom: from }),
      ...(to === undefined ? {} : { tiedTo: to }),
    };
  });
}

/** Reads an ABC tune (standard 2.1). Never throws; what is wrong or doubtful is in the findings. */
export function readScore(source: SourceText): Result<Score> {
  const abc = readAbcText(source);
  const voices = readVoices(abc);
  const voiceBars = readVoiceBars(abc, readMusicCode(abc.music), voices);
  const bars = placeBars(source, [...voiceBars.values()]);
  const reference = [...voiceBars.values()].reduce(
    (best, written) => (written.length > best.length ? written : best),
    [],
  );
  const rests: Rest[] = [];
  const marks: Mark[] = [];
  for (const [id, written] of voiceBars) {
    for (const [index, bar] of written.entries()) {
      const start = bars[index]?.start ?? zero;
      for (const rest of bar.rests) {
        rests.push({
          onset: add(start, rest.offset),
          duration: rest.duration,
          voice: layerId(id, rest.layer),
          bar: index,
          span: { source, start: rest.start, end: rest.end },
        });
      }
      for (const { kind, text, offset, layer } of bar.marks)
        marks.push({ kind, text, onset: add(start, offset), voice: layerId(id, layer) });
    }
  }
  const last = bars.at(-1);
  const byOnset = (a: Rest | Mark, b: Rest | Mark): number => compare(a.onset, b.onset);
  const score: Score = {
    source,
    title: textOf(abc, 'T'),
    composer: textOf(abc, 'C'),
    voices: withOverlays(voices, voiceBars),
    notes: placeNotes(source, bars, voiceBars),
    rests: rests.sort(byOnset),
    bars,
    playingOrder: unfoldRepeats(reference),
    tempos: [],
    marks: marks.sort(byOnset),
    length: last === undefined ? zero : add(last.start, last.length),
  };
  return { value: score, diagnostics: [] };
}
