import type { NoteElement } from './abc.js';
import { add, divide, multiply, one, zero, type Fraction } from './fraction.js';
import { marksOfNote } from './marks.js';
import type { NoteHead, WrittenNote } from './note-heads.js';
import { endlessRest, impossibleLength, microtone, noNoteValue } from './reading-findings.js';
import { dropLateTies, tieInto } from './ties.js';
import { transposePitch } from './transposition.js';
import { startTuplet, tupletFactor } from './tuplets.js';
import type { NoteDraft } from './voice-bars.js';
import { closeBar, fifthsOf, openBar, type OpenTie, type VoiceState } from './voice-state.js';

/** Rests fill a voice up to this many bars: a slip in the number must not fill the memory. */
const mostBars = 5000;

/** The alteration of a head: written, in force in this bar, carried by a tie over the bar line, or of the key. */
function alterOf(state: VoiceState, head: NoteHead, tie: OpenTie | undefined): number {
  const place = state.reach === 'octave' ? `${head.letter}${String(head.octave)}` : head.letter;
  if (head.accidental !== undefined && state.reach !== 'not') state.accidentals.set(place, head.accidental);
  return head.accidental ?? state.accidentals.get(place) ?? tie?.alter ?? state.key.alters[head.letter];
}

function placeMultiBarRest(state: VoiceState, element: NoteElement, at: number): void {
  const left = Math.max(0, mostBars - state.bars.length);
  dropLateTies(state, state.layer, add(state.barStart, state.bar?.layers[state.layer] ?? zero), []);
  if (element.restBars > left) state.report(endlessRest(state.source, at, element.end));
  for (let count = 0; count < Math.min(element.restBars, left); count++) {
    if (count > 0) closeBar(state);
    const bar = openBar(state, at);
    const offset = bar.layers[state.layer] ?? zero;
    const duration = state.meter.length;
    bar.rests.push({ offset, duration, layer: state.layer, start: at, end: element.end });
    bar.layers[state.layer] = add(offset, duration);
    bar.end = element.end;
  }
}

/** Places the heads of a chord; its length is that of the first head (ABC 2.1, section 4.17). */
function placeHeads(state: VoiceState, element: NoteElement, written: WrittenNote, duration: Fraction): void {
  const bar = openBar(state, written.heads[0]?.start ?? element.start);
  const { layer } = state;
  const offset = bar.layers[layer] ?? zero;
  const onset = add(state.barStart, offset);
  const fifths = fifthsOf(state);
  const place = (head: NoteHead, alter: number, length: Fraction, grace: boolean): NoteDraft => {
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
  for (const head of written.graces) place(head, alterOf(state, head, undefined), zero, true);
  const [first] = written.heads;
  const parserAgrees = element.ties.length === written.heads.length;
  const started: OpenTie[] = [];
  for (const [index, head] of written.heads.entries()) {
    const tie = tieInto(state, layer, head);
    const alter = alterOf(state, head, tie);
    const length =
      first === undefined || first.length.n === 0
        ? duration
        : multiply(duration, divide(head.length, first.length));
    const note = place(head, alter, length, false);
    if (tie?.alter === alter) {
      state.ties = state.ties.filter(other => other !== tie);
      note.tiedFrom = tie.draft;
      tie.draft.tiedTo ??= note;
    }
    if ((parserAgrees && element.ties[index] === true) || head.tied)
      started.push({ head, draft: note, alter, layer, end: add(onset, length) });
  }
  state.ties = [...state.ties, ...started];
  dropLateTies(state, layer, onset, started);
}

/** Whether one note can be written that long: a power of two with up to four dots (common practice of notation). */
function isNoteValue({ n, d }: Fraction): boolean {
  let odd = n;
  while (odd % 2 === 0) odd /= 2;
  return [1, 3, 7, 15, 31].includes(odd) && Number.isInteger(Math.log2(d));
}

/** Places one note, chord or rest at the point that its voice has reached. `at` is the offset of its first sign. */
export function placeElement(
  state: VoiceState,
  element: NoteElement,
  written: WrittenNote,
  at: number,
): void {
  if (written.tuplet !== undefined) startTuplet(state, written.tuplet);
  for (const range of written.microtones) state.report(microtone(state.source, range));
  if (element.rest === 'bars') return placeMultiBarRest(state, element, at);
  const bar = openBar(state, at);
  const { layer } = state;
  const offset = bar.layers[layer] ?? zero;
  if (element.rest === 'spacer') {
    if (written.graces.length > 0) placeHeads(state, element, written, zero);
  } else {
    if (element.length === undefined) state.report(impossibleLength(state.source, at, element.end));
    const nominal = multiply(element.length ?? one, state.unit);
    const duration = multiply(nominal, tupletFactor(state));
    const [first] = written.heads;
    if (first !== undefined) {
      if (element.length !== undefined && !isNoteValue(nominal))
        state.report(noNoteValue(state.source, first, nominal));
      placeHeads(state, element, written, duration);
    } else {
      dropLateTies(state, layer, add(state.barStart, offset), []);
      bar.rests.push({ offset, duration, layer, start: at, end: element.end });
    }
    bar.layers[layer] = add(offset, duration);
  }
  bar.end = Math.max(bar.end, element.end);
  for (const mark of marksOfNote(element, written)) bar.marks.push({ ...mark, offset, layer });
}
