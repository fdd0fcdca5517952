import type { Witness } from '../harmony/index.js';
import { isBefore, printPitch } from '../score/index.js';
import type { Note } from '../score/index.js';
import type { ClaimContext, Evidence, EvidenceRole, Range } from './model.js';
import { momentOf } from './place/beats.js';
import { printNoteName } from './terms/note-name.js';
import type { NoteName } from './terms/note-name.js';
import { voiceLabel } from './subjects/voice-title.js';
import { printBeat } from './terms/number.js';

/** The voice of a note as a reader calls it, see `voiceLabel`. */
function voiceName({ voice: id }: Note, { analysis: { score } }: ClaimContext): string {
  const voice = score.voices.find(each => each.id === id);
  return voice === undefined ? id : voiceLabel(voice, score);
}

/** A sounding note that decided a verdict. */
export function noteEvidence(role: EvidenceRole, note: Note, why: string, context: ClaimContext): Evidence {
  const moment = momentOf(context.analysis.score, note.onset, context.beatUnit);
  return {
    role,
    pitch: printPitch(note.pitch),
    voice: voiceName(note, context),
    bar: moment?.bar ?? '',
    beat: moment === undefined ? '' : printBeat(moment.beat),
    why,
    note: note.id,
    span: note.span,
  };
}

/** Evidence as plain data for a page or a worker: without its place in the source, the note is known by its number. */
export const withoutPlace = ({
  role,
  pitch,
  voice,
  bar,
  beat,
  why,
  note,
}: Evidence): Omit<Evidence, 'span'> => ({
  role,
  pitch,
  voice,
  bar,
  beat,
  why,
  ...(note === undefined ? {} : { note }),
});

/** A tone that would have to sound somewhere in a range, in one octave where the sentence names it. */
export function missingEvidence(tone: NoteName, range: Range, why: string, context: ClaimContext): Evidence {
  const moment = momentOf(context.analysis.score, range.start, context.beatUnit);
  return {
    role: 'missing',
    pitch: printNoteName(tone),
    voice: '',
    bar: moment?.bar ?? '',
    beat: moment === undefined ? '' : printBeat(moment.beat),
    why,
  };
}

/** What the engine pointed at, as evidence. */
export function witnessEvidence(
  witnesses: readonly Witness[],
  range: Range,
  context: ClaimContext,
): readonly Evidence[] {
  return witnesses.flatMap(({ role, note: id, tone, why }) => {
    const note = id === undefined ? undefined : context.analysis.score.notes[id];
    if (note !== undefined) return [noteEvidence(role, note, why, context)];
    return tone === undefined ? [] : [missingEvidence({ pitchClass: tone }, range, why, context)];
  });
}

/** Whether a note sounds into a range without being struck in it. */
export const isHeldInto = (note: Note, range: Range): boolean =>
  note.tiedFrom !== undefined || isBefore(note.onset, range.start);
