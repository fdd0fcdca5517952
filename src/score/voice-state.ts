import type { Diagnostic, SourceText } from '../diagnostics/index.js';
import type { Field } from './abc-text.js';
import type { BarLine } from './bar-line.js';
import { add, zero, type Fraction } from './fraction.js';
import { readKey, transposeSignature, type KeyInForce } from './key.js';
import { readMeter, readUnit } from './meter.js';
import type { Meter, Voice } from './model.js';
import type { NoteHead } from './note-heads.js';
import { readTempo } from './tempo.js';
import { fifthsOfTransposition } from './transposition.js';
import { lengthOfBar, type MarkDraft, type NoteDraft, type TempoDraft, type VoiceBar } from './voice-bars.js';
import { octavesOfClef, readStaffProperties } from './voice-fields.js';

/** How far an accidental reaches: its own note, its octave, or all octaves, to the bar line (ABC 2.1, section 11.3). */
export type AccidentalReach = 'not' | 'octave' | 'pitch';

/** A tie that waits for its second note. */
export interface OpenTie {
  readonly head: NoteHead;
  readonly draft: NoteDraft;
  readonly alter: number;
  readonly layer: number;
  /** Whole notes from the start of the voice at which the tied note ends. */
  readonly end: Fraction;
}

/** What is known at one point of a voice while it is read. */
export interface VoiceState {
  readonly source: SourceText;
  readonly voice: Voice;
  readonly bars: VoiceBar[];
  readonly reach: AccidentalReach;
  readonly report: (finding: Diagnostic) => void;
  bar: VoiceBar | undefined;
  /** What is written between two bars waits here for the next one. */
  opening: BarLine[];
  waitingMarks: MarkDraft[];
  waitingTempos: TempoDraft[];
  barStart: Fraction;
  layer: number;
  meter: Meter;
  key: KeyInForce;
  unit: Fraction;
  octave: number;
  /** Semitones. */
  transpose: number;
  /** Accidentals in force, by letter or by letter and octave. */
  readonly accidentals: Map<string, number>;
  ties: readonly OpenTie[];
  /** The ties that run into every alternative ending. */
  tiesIntoEndings: readonly OpenTie[];
  tuplet: { readonly factor: Fraction; left: number } | undefined;
}

/** What the header sets for every voice. */
export type VoiceDefaults = Pick<VoiceState, 'source' | 'reach' | 'report' | 'meter' | 'key' | 'unit'> & {
  readonly octave: number;
  readonly transpose: number;
};

export function startVoice(voice: Voice, defaults: VoiceDefaults): VoiceState {
  return {
    ...defaults,
    voice,
    octave: defaults.octave + octavesOfClef(voice.clef),
    bars: [],
    bar: undefined,
    opening: [],
    waitingMarks: [],
    waitingTempos: [],
    barStart: zero,
    layer: 0,
    accidentals: new Map(),
    ties: [],
    tiesIntoEndings: [],
    tuplet: undefined,
  };
}

export const fifthsOf = (state: VoiceState): number =>
  fifthsOfTransposition(state.transpose, state.key.signature.fifths);

const soundingKey = (state: VoiceState): VoiceBar['key'] =>
  transposeSignature(state.key.signature, fifthsOf(state));

/** The bar being written, started at a source offset where there is none. */
export function openBar(state: VoiceState, at: number): VoiceBar {
  state.bar ??= {
    notes: [],
    rests: [],
    marks: state.waitingMarks.splice(0),
    tempos: state.waitingTempos.splice(0),
    layers: [zero],
    opening: state.opening.splice(0),
    closing: [],
    meter: state.meter,
    key: soundingKey(state),
    start: at,
    end: at,
  };
  return state.bar;
}

export function closeBar(state: VoiceState): void {
  if (state.bar === undefined) return;
  state.barStart = add(state.barStart, lengthOfBar(state.bar));
  state.bars.push(state.bar);
  state.bar = undefined;
  state.layer = 0;
  state.accidentals.clear();
}

/** `&`: back to the start of the bar for another layer (ABC 2.1, section 7.4). */
export function startOverlay(state: VoiceState, at: number): void {
  const bar = openBar(state, at);
  state.layer += 1;
  bar.layers[state.layer] = zero;
  state.tuplet = undefined;
  state.accidentals.clear();
}

/** Applies the clef, octave and transposition among the words of a `V:` or `K:` field. */
export function applyStaff(state: VoiceState, words: string): void {
  const { clef, octave, transpose } = readStaffProperties(words);
  if (octave !== undefined || clef !== undefined)
    state.octave = (octave ?? 0) + octavesOfClef(clef ?? state.voice.clef);
  if (transpose !== undefined) state.transpose = transpose;
}

const hasBegun = (bar: VoiceBar): boolean => bar.notes.length + bar.rests.length > 0;

/** Applies a `K:`, `L:`, `M:` or `Q:` field to a voice; a value that cannot be read is reported elsewhere and changes nothing. */
export function applyField(state: VoiceState, field: Field): void {
  if (field.letter === 'L') state.unit = readUnit(field.value) ?? state.unit;
  else if (field.letter === 'M') state.meter = readMeter(field.value) ?? state.meter;
  else if (field.letter === 'Q') {
    const tempo = readTempo(field.value, state.unit);
    const offset = state.bar?.layers[state.layer] ?? zero;
    if (tempo !== undefined) (state.bar?.tempos ?? state.waitingTempos).push({ offset, tempo });
  } else {
    state.key = readKey(field.value) ?? state.key;
    state.accidentals.clear();
    applyStaff(state, field.value);
  }
  if (state.bar !== undefined && !hasBegun(state.bar)) {
    state.bar.meter = state.meter;
    state.bar.key = soundingKey(state);
  }
}
