import type { MusicElement, NoteElement } from './abc.js';
import type { AbcText, Field } from './abc-text.js';
import { readBarLine, type BarLine } from './bar-line.js';
import { add, divide, fraction, greatest, isBefore, multiply, zero, type Fraction } from './fraction.js';
import { noKey, readKey, type KeyInForce } from './key.js';
import { defaultUnit, freeMeter, isCompound, readMeter } from './meter.js';
import type { Meter, Mark, Voice, VoiceId } from './model.js';
import {
  readLength,
  readWrittenNote,
  type NoteHead,
  type TupletMark,
  type WrittenNote,
} from './note-heads.js';
import type { Pitch } from './pitch.js';
import { fifthsOfTransposition, transposePitch } from './transposition.js';
import { octavesOfClef, readStaffProperties, voiceIdOf, wordsAfterId } from './voice-fields.js';

/** A note before its bar has got its place in time. Ties are links between drafts. */
export interface NoteDraft {
  readonly pitch: Pitch;
  /** From the start of the bar. */
  readonly offset: Fraction;
  readonly duration: Fraction;
  readonly layer: number;
  readonly grace: boolean;
  readonly start: number;
  readonly end: number;
  tiedFrom?: NoteDraft;
  tiedTo?: NoteDraft;
}

export interface RestDraft {
  readonly offset: Fraction;
  readonly duration: Fraction;
  readonly layer: number;
  readonly start: number;
  readonly end: number;
}

export interface MarkDraft {
  readonly kind: Mark['kind'];
  readonly text: string;
  readonly offset: Fraction;
  readonly layer: number;
}

/** One bar as one voice writes it. */
export interface VoiceBar {
  readonly notes: NoteDraft[];
  readonly rests: RestDraft[];
  readonly marks: MarkDraft[];
  /** Length of each layer; layer 0 is the voice, the others are its overlays. */
  readonly layers: Fraction[];
  meter: Meter;
  key: KeyInForce;
  start: number;
  end: number;
  opening: BarLine[];
  closing: BarLine[];
}

type AccidentalReach = 'not' | 'octave' | 'pitch';

interface PendingTie {
  readonly head: NoteHead;
  readonly draft: NoteDraft;
  readonly alter: number;
  readonly layer: number;
  /** Offset from the start of the voice at which the tied note ends. */
  readonly end: Fraction;
}

interface VoiceState {
  readonly voice: Voice;
  readonly bars: VoiceBar[];
  bar: VoiceBar | undefined;
  opening: BarLine[];
  barStart: Fraction;
  layer: number;
  meter: Meter;
  key: KeyInForce;
  unit: Fraction;
  octave: number;
  transpose: number;
  accidentals: Map<string, number>;
  ties: readonly PendingTie[];
  tiesBeforeEnding: readonly PendingTie[];
  tuplet: { readonly factor: Fraction; left: number } | undefined;
}

/** Length of what the voice and its overlays write into the bar. */
export const lengthOfBar = (bar: VoiceBar): Fraction => bar.layers.reduce(greatest, zero);

const implicitTupletTime = (p: number, meter: Meter): number => {
  // ABC 2.1, section 4.13, table of default values.
  if (p === 3 || p === 6) return 2;
  if (p === 2 || p === 4 || p === 8) return 3;
  return isCompound(meter) ? 3 : 2;
};

const tupletOf = (mark: TupletMark, meter: Meter): VoiceState['tuplet'] =>
  mark.p === 0
    ? undefined
    : {
        factor: fraction(mark.q === 0 ? implicitTupletTime(mark.p, meter) : mark.q, mark.p),
        left: mark.r === 0 ? mark.p : mark.r,
      };

const dynamics = new Set(['pppp', 'ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff', 'ffff', 'sfz']);
const dynamicSpans = /^(crescendo|diminuendo|[<>])[()]$/;

function kindOfDecoration(name: string): Mark['kind'] | undefined {
  if (dynamics.has(name) || dynamicSpans.test(name)) return 'dynamic';
  if (name === 'fermata' || name === 'invertedfermata') return 'fermata';
  if (name === 'staccato') return 'staccato';
  if (name === 'accent') return 'accent';
  if (name === 'breath') return 'breath';
  return undefined;
}

/** Reads the voices of a tune bar by bar. */
export function readVoiceBars(
  abc: AbcText,
  elements: readonly MusicElement[],
  voices: readonly Voice[],
): ReadonlyMap<VoiceId, readonly VoiceBar[]> {
  const headerValue = (letter: string): string | undefined =>
    abc.fields.findLast(field => field.header && field.letter === letter)?.value;
  const firstKey = abc.fields.find(field => field.letter === 'K' && !field.inline);
  const meter = readMeter(headerValue('M') ?? 'none') ?? freeMeter;
  const unit = readUnit(headerValue('L')) ?? defaultUnit(meter);
  const key = readKey(firstKey?.value ?? '') ?? noKey;
  const reach = accidentalReach(abc.fields);
  const common = readStaffProperties(firstKey?.value ?? '');
  const states = new Map<VoiceId, VoiceState>();
  for (const voice of voices) {
    states.set(voice.id, {
      voice,
      bars: [],
      bar: undefined,
      opening: [],
      barStart: zero,
      layer: 0,
      meter,
      key,
      unit,
      octave: (common.octave ?? 0) + octavesOfClef(voice.clef),
      transpose: common.transpose ?? 0,
      accidentals: new Map(),
      ties: [],
      tiesBeforeEnding: [],
      tuplet: undefined,
    });
  }
  const first = voices[0];
  let current = first === undefined ? undefined : states.get(first.id);
  const start = (field: Field): void => {
    if (field.letter === 'V') {
      const state = states.get(voiceIdOf(field));
      if (state === undefined) return;
      if (!field.header) current = state;
      applyStaff(state, wordsAfterId(field));
    } else if (current !== undefined && !field.header && field !== firstKey) applyField(current, field);
  };
  const pending = abc.fields.filter(field => 'VKML'.includes(field.letter));
  let nextField = 0;
  let nextOverlay = 0;
  let barLineEnd = 0;
  for (const element of elements) {
    const written =
      element.kind === 'note' ? readWrittenNote(abc.music, element.start, element.end) : undefined;
    const at = positionOf(element, written, abc.music);
    for (
      let field = pending[nextField];
      field !== undefined && field.start < at;
      field = pending[++nextField]
    )
      start(field);
    if (current === undefined) break;
    for (
      let sign = abc.overlays[nextOverlay];
      sign !== undefined && sign < at;
      sign = abc.overlays[++nextOverlay]
    )
      startOverlay(current);
    if (element.kind === 'bar line') {
      if (element.start < barLineEnd) continue;
      const line = readBarLine(abc.music, element.start, element.end, element.ending);
      barLineEnd = line.end;
      placeBarLine(current, line);
    } else if (written !== undefined) placeNote(current, element, written, at, reach);
  }
  for (const state of states.values()) closeBar(state);
  return new Map([...states].map(([id, state]) => [id, state.bars]));
}

function accidentalReach(fields: readonly Field[]): AccidentalReach {
  for (const field of fields) {
    const word = /^\s*propagate-accidentals\s+(not|octave|pitch)/.exec(field.value)?.[1];
    if ((field.letter === '%' || field.letter === 'I') && (word === 'not' || word === 'octave')) return word;
  }
  return 'pitch';
}

function readUnit(value: string | undefined): Fraction | undefined {
  const match = /^\s*(\d+)(?:\s*\/\s*(\d+))?\s*$/.exec(value ?? '');
  return match === null
    ? undefined
    : readLength(match[1] ?? '', match[2] === undefined ? '' : '/', match[2] ?? '1');
}

function positionOf(element: MusicElement, written: WrittenNote | undefined, music: string): number {
  if (element.kind === 'bar line') return element.end - 1;
  const head = written?.heads[0];
  if (head !== undefined) return head.start;
  const rest = music.slice(element.start, element.end).search(/[xyzXZ]/);
  return element.start + Math.max(0, rest);
}

function applyStaff(state: VoiceState, words: string): void {
  const { clef, octave, transpose } = readStaffProperties(words);
  if (octave !== undefined || clef !== undefined)
    state.octave = (octave ?? 0) + octavesOfClef(clef ?? state.voice.clef);
  if (transpose !== undefined) state.transpose = transpose;
}

function applyField(state: VoiceState, field: Field): void {
  if (field.letter === 'M') {
    state.meter = readMeter(field.value) ?? state.meter;
    if (state.bar !== undefined && state.bar.notes.length + state.bar.rests.length === 0)
      state.bar.meter = state.meter;
  } else if (field.letter === 'L') state.unit = readUnit(field.value) ?? state.unit;
  else {
    state.key = readKey(field.value) ?? state.key;
    state.accidentals.clear();
    applyStaff(state, field.value);
  }
}

function openBar(state: VoiceState, at: number): VoiceBar {
  state.bar ??= {
    notes: [],
    rests: [],
    marks: [],
    layers: [zero],
    meter: state.meter,
    key: state.key,
    start: at,
    end: at,
    opening: state.opening.splice(0),
    closing: [],
  };
  return state.bar;
}

function closeBar(state: VoiceState): void {
  if (state.bar === undefined) return;
  state.barStart = add(state.barStart, lengthOfBar(state.bar));
  state.bars.push(state.bar);
  state.bar = undefined;
  state.layer = 0;
  state.accidentals.clear();
}

function startOverlay(state: VoiceState): void {
  const bar = openBar(state, 0);
  state.layer += 1;
  bar.layers[state.layer] = zero;
  state.accidentals.clear();
}

function placeBarLine(state: VoiceState, line: BarLine): void {
  const bar = state.bar ?? state.bars.at(-1);
  if (state.bar !== undefined) state.bar.end = line.end;
  bar?.closing.push(line);
  closeBar(state);
  state.opening.push(line);
  if (line.ending === undefined) return;
  if (line.ending.includes(1)) state.tiesBeforeEnding = state.ties;
  else state.ties = state.tiesBeforeEnding;
}

/** Takes the accidental that is in force for a head and remembers a written one. */
function alterOf(
  state: VoiceState,
  head: NoteHead,
  reach: AccidentalReach,
  tie: PendingTie | undefined,
): number {
  const place = reach === 'octave' ? `${head.letter}${String(head.octave)}` : head.letter;
  if (head.accidental !== undefined) {
    if (reach !== 'not') state.accidentals.set(place, head.accidental);
    return head.accidental;
  }
  return state.accidentals.get(place) ?? tie?.alter ?? state.key.alters[head.letter];
}

function placeNote(
  state: VoiceState,
  element: NoteElement,
  written: WrittenNote,
  at: number,
  reach: AccidentalReach,
): void {
  if (element.rest === 'spacer') return;
  if (element.rest === 'bars') {
    for (let count = 0; count < element.restBars; count++) {
      if (count > 0) closeBar(state);
      const bar = openBar(state, at);
      bar.rests.push({ offset: zero, duration: state.meter.length, layer: 0, start: at, end: element.end });
      bar.layers[0] = state.meter.length;
      bar.end = element.end;
    }
    return;
  }
  const bar = openBar(state, at);
  const { layer } = state;
  const offset = bar.layers[layer] ?? zero;
  if (written.tuplet !== undefined) state.tuplet = tupletOf(written.tuplet, state.meter) ?? state.tuplet;
  const factor = state.tuplet?.factor ?? fraction(1);
  if (state.tuplet !== undefined && (state.tuplet.left -= 1) <= 0) state.tuplet = undefined;
  const duration = multiply(multiply(element.length, state.unit), factor);
  const onset = add(state.barStart, offset);
  const fifths = fifthsOfTransposition(state.transpose, state.key.signature.fifths);
  const draft = (head: NoteHead, alter: number, length: Fraction, grace: boolean): NoteDraft => {
    const pitch = transposePitch(
      { letter: head.letter, alter, octave: head.octave + state.octave },
      state.transpose,
      fifths,
    );
    const note: NoteDraft = {
      pitch,
      offset,
      duration: length,
      layer,
      grace,
      start: head.start,
      end: head.end,
    };
    bar.notes.push(note);
    return note;
  };
  for (const head of written.graces) draft(head, alterOf(state, head, reach, undefined), zero, true);
  const open = state.ties.filter(tie => tie.layer !== layer || isBefore(onset, tie.end));
  const ending = state.ties.filter(tie => tie.layer === layer);
  const firstLength = written.heads[0]?.length ?? fraction(1);
  const started: PendingTie[] = [];
  const used = new Set<PendingTie>();
  for (const [index, head] of written.heads.entries()) {
    const tie = ending.find(({ head: from }) => from.letter === head.letter && from.octave === head.octave);
    const alter = alterOf(state, head, reach, tie);
    const own = firstLength.n === 0 ? duration : multiply(duration, divide(head.length, firstLength));
    const note = draft(head, alter, own, false);
    if (tie !== undefined && tie.alter === alter) {
      note.tiedFrom = tie.draft;
      tie.draft.tiedTo ??= note;
      used.add(tie);
    }
    if (element.ties[index] === true) started.push({ head, draft: note, alter, layer, end: add(onset, own) });
  }
  state.ties = [...open.filter(tie => !used.has(tie)), ...started];
  if (written.heads.length === 0) bar.rests.push({ offset, duration, layer, start: at, end: element.end });
  bar.layers[layer] = add(offset, duration);
  bar.end = Math.max(bar.end, element.end);
  placeMarks(bar, element, written, offset, layer);
}

function placeMarks(
  bar: VoiceBar,
  element: NoteElement,
  written: WrittenNote,
  offset: Fraction,
  layer: number,
): void {
  const mark = (kind: Mark['kind'], text: string): void => void bar.marks.push({ kind, text, offset, layer });
  for (const quote of written.quotes) {
    if (/^[\^_<>@]/.test(quote)) mark('annotation', quote.slice(1));
    else mark('chord symbol', quote);
  }
  for (const name of element.decorations) {
    const kind = kindOfDecoration(name);
    if (kind !== undefined) mark(kind, name);
  }
  for (const syllable of element.lyrics) if (syllable !== '') mark('lyric', syllable);
  for (let slur = 0; slur < element.slursStarted; slur++) mark('slur start', '(');
  for (let slur = 0; slur < element.slursEnded; slur++) mark('slur end', ')');
}
