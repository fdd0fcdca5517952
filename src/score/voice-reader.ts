import type { Diagnostic, SourceText } from '../diagnostics/index.js';
import type { MusicElement } from './abc.js';
import type { AbcText, Field } from './abc-text.js';
import { readBarLine, type BarLine } from './bar-line.js';
import { zero } from './fraction.js';
import { noKey, readKey } from './key.js';
import { marksOfBarLine } from './marks.js';
import { defaultUnit, freeMeter, readMeter, readUnit } from './meter.js';
import type { Voice, VoiceId } from './model.js';
import { readWrittenNote, type WrittenNote } from './note-heads.js';
import { placeElement } from './place-note.js';
import { dropTies } from './ties.js';
import { lostNote, musicBeforeVoice, unreadableEnding } from './reading-findings.js';
import type { VoiceBar } from './voice-bars.js';
import { readStaffProperties, voiceIdOf, wordsAfterId } from './voice-fields.js';
import {
  applyField,
  applyStaff,
  closeBar,
  startOverlay,
  startVoice,
  type AccidentalReach,
  type VoiceDefaults,
  type VoiceState,
} from './voice-state.js';

function accidentalReach(fields: readonly Field[]): AccidentalReach {
  const words = fields
    .filter(field => field.letter === '%' || field.letter === 'I')
    .map(field => /^\s*propagate-accidentals\s+(not|octave|pitch)\b/.exec(field.value)?.[1]);
  return words.includes('not') ? 'not' : words.includes('octave') ? 'octave' : 'pitch';
}

function defaultsOf(abc: AbcText, source: SourceText, report: (finding: Diagnostic) => void): VoiceDefaults {
  const header = (letter: string): string | undefined =>
    abc.fields.findLast(field => field.place === 'header' && field.letter === letter)?.value;
  const meter = readMeter(header('M') ?? '') ?? freeMeter;
  const { octave = 0, transpose = 0 } = readStaffProperties(header('K') ?? '');
  return {
    source,
    report,
    reach: accidentalReach(abc.fields),
    meter,
    key: readKey(header('K') ?? '') ?? noKey,
    unit: readUnit(header('L') ?? '') ?? defaultUnit(meter),
    octave,
    transpose,
  };
}

/** Offset of the sign itself, behind everything that belongs to it. */
function positionOf(element: MusicElement, written: WrittenNote, music: string): number {
  if (element.kind === 'bar line') return element.end - 1;
  const rest = music.slice(element.start, element.end).search(/[xyzXZ]/);
  return written.heads[0]?.start ?? element.start + Math.max(0, rest);
}

function placeBarLine(
  state: VoiceState,
  line: BarLine,
  decorations: readonly string[],
  written: WrittenNote,
): void {
  const bar = state.bar ?? state.bars.at(-1);
  const marks = marksOfBarLine(decorations, written).map(mark => ({
    ...mark,
    offset: bar?.layers[0] ?? zero,
    layer: 0,
  }));
  (bar?.marks ?? state.waitingMarks).push(...marks);
  if (state.bar !== undefined) state.bar.end = line.end;
  bar?.closing.push(line);
  closeBar(state);
  state.opening.push(line);
  if (line.ending === undefined) return;
  if (line.ending.includes(1)) state.tiesIntoEndings = state.ties;
  else state.ties = state.tiesIntoEndings;
}

/**
 * Reads the voices of a tune bar by bar. A field applies to the voice in which it stands; one that stands between the
 * header and the first note or `V:` applies to all.
 */
export function readVoiceBars(
  abc: AbcText,
  source: SourceText,
  elements: readonly MusicElement[],
  voices: readonly Voice[],
  report: (finding: Diagnostic) => void,
): ReadonlyMap<VoiceId, readonly VoiceBar[]> {
  const defaults = defaultsOf(abc, source, report);
  const states = new Map(voices.map(voice => [voice.id, startVoice(voice, defaults)]));
  let current: VoiceState | undefined;
  const apply = (field: Field): void => {
    if (field.letter === 'V') {
      const named = states.get(voiceIdOf(field));
      if (named !== undefined) applyStaff(named, wordsAfterId(field));
      if (field.place !== 'header') current = named;
    } else if (field.place !== 'header') {
      for (const state of current === undefined ? states.values() : [current]) applyField(state, field);
    } else if (field.letter === 'Q') {
      const [first] = states.values();
      if (first !== undefined) applyField(first, field);
    }
  };
  const fields = abc.fields.filter(field => 'VKMLQ'.includes(field.letter));
  let field = 0;
  let overlay = 0;
  let readTo = abc.start;
  for (const element of elements) {
    // Signs that the parser left out of its elements, such as a tuplet in front of a grace note, belong to the next element.
    const written = readWrittenNote(abc.music, Math.min(readTo, element.start), element.start, element.end);
    const at = positionOf(element, written, abc.music);
    for (let next = fields[field]; next !== undefined && next.start < at; next = fields[++field]) apply(next);
    if (current === undefined) {
      [current] = states.values();
      if (current === undefined) break;
      if (states.size > 1) report(musicBeforeVoice(source, at, current.voice));
    }
    for (let sign = abc.overlays[overlay]; sign !== undefined && sign < at; sign = abc.overlays[++overlay])
      startOverlay(current, sign);
    for (const head of written.lost) report(lostNote(source, head));
    if (element.kind === 'note') placeElement(current, element, written, at);
    else if (element.end > readTo) {
      const line = readBarLine(abc.music, Math.max(element.start, readTo), element.end, element.ending);
      if (element.ending !== undefined && line.ending === undefined) report(unreadableEnding(source, line));
      placeBarLine(current, line, element.decorations, written);
      readTo = line.end;
    }
    readTo = Math.max(readTo, element.end);
  }
  for (const state of states.values()) {
    closeBar(state);
    dropTies(state, state.ties);
  }
  return new Map([...states].map(([id, state]) => [id, state.bars]));
}
