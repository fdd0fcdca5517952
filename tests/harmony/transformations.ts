import { pitchClassOf, printPitchClass, readPitchClass, spell, transposed } from '../../src/score/index.js';
import { add, compare, equals, isBefore, midiOf, multiply, fraction } from '../../src/score/index.js';
import type { Fraction, Note, NoteId, Pitch, Score, VoiceId } from '../../src/score/index.js';

/** Rewritings of a score that a listener would give the same account of. */

/** An interval upwards as fifths on the line of fifths and semitones: a minor third is -3 and 3. */
export interface Shift {
  readonly name: string;
  readonly fifths: number;
  readonly semitones: number;
}

function transposedPitch(pitch: Pitch, { fifths, semitones }: Shift): Pitch {
  const spelled = { ...spell(transposed(pitchClassOf(pitch), fifths)), octave: pitch.octave };
  return { ...spelled, octave: pitch.octave + (midiOf(pitch) + semitones - midiOf(spelled)) / 12 };
}

export function transposeScore(score: Score, shift: Shift): Score {
  const bars = score.bars.map(bar => {
    const tonic = readPitchClass(bar.key.tonic ?? '');
    const named = tonic === undefined ? {} : { tonic: printPitchClass(transposed(tonic, shift.fifths)) };
    return { ...bar, key: { ...bar.key, fifths: bar.key.fifths + shift.fifths, ...named } };
  });
  const notes = score.notes.map(note => ({ ...note, pitch: transposedPitch(note.pitch, shift) }));
  return { ...score, bars, notes };
}

const twice = (time: Fraction): Fraction => multiply(time, fraction(2));

/** Every note twice as long, in a metre whose unit is twice as long. */
export function doubleValues(score: Score): Score {
  const longer = <Timed extends { readonly onset: Fraction; readonly duration: Fraction }>(
    event: Timed,
  ): Timed => ({
    ...event,
    onset: twice(event.onset),
    duration: twice(event.duration),
  });
  return {
    ...score,
    notes: score.notes.map(longer),
    rests: score.rests.map(longer),
    bars: score.bars.map(bar => ({
      ...bar,
      start: twice(bar.start),
      length: twice(bar.length),
      startsAt: twice(bar.startsAt),
      meter: {
        text: `${String(bar.meter.beats)}/${String(bar.meter.unit / 2)}`,
        beats: bar.meter.beats,
        unit: bar.meter.unit / 2,
        length: twice(bar.meter.length),
      },
    })),
    tempos: score.tempos.map(tempo => ({ ...tempo, onset: twice(tempo.onset) })),
    marks: score.marks.map(mark => ({ ...mark, onset: twice(mark.onset) })),
    length: twice(score.length),
  };
}

/** Each voice on a staff of its own. */
export function respread(score: Score): Score {
  return { ...score, voices: score.voices.map((voice, at) => ({ ...voice, staff: at })) };
}

/** Where a voice holds single notes and chords, the chords in a voice of their own, on a staff of their own. */
export function splitVoices(score: Score): Score {
  const isInChord = (note: Note): boolean =>
    score.notes.some(
      other =>
        other !== note && other.voice === note.voice && !other.grace && equals(other.onset, note.onset),
    );
  const chordsOf = (voice: VoiceId): VoiceId => `${voice}.chords` as VoiceId;
  const notes = score.notes.map(note =>
    note.grace || !isInChord(note) ? note : { ...note, voice: chordsOf(note.voice) },
  );
  const used = new Set(notes.map(({ voice }) => voice));
  const voices = score.voices
    .flatMap(voice => [voice, { ...voice, id: chordsOf(voice.id) }])
    .filter(({ id }) => used.has(id))
    .map((voice, staff) => ({ ...voice, staff }));
  return { ...score, notes, voices };
}

const soundsUntil = (note: Note): Fraction => add(note.onset, note.duration);

/** Notes that can be doubled an octave higher below the highest tone; tied notes are left alone. */
export function doublable(score: Score, which: 'bass' | 'inner'): readonly Note[] {
  return score.notes.filter(note => {
    if (note.grace || note.tiedFrom !== undefined || note.tiedTo !== undefined) return false;
    const together = score.notes.filter(
      other =>
        !other.grace && isBefore(other.onset, soundsUntil(note)) && isBefore(note.onset, soundsUntil(other)),
    );
    const isBass = together.every(other => midiOf(other.pitch) >= midiOf(note.pitch));
    if (isBass !== (which === 'bass')) return false;
    const octave = midiOf(note.pitch) + 12;
    // Above the doubling a tone must sound all the time, and it must not meet a tone that is there already.
    const roof = together.find(
      other =>
        midiOf(other.pitch) > octave &&
        compare(other.onset, note.onset) <= 0 &&
        compare(soundsUntil(other), soundsUntil(note)) >= 0,
    );
    return roof !== undefined && together.every(other => midiOf(other.pitch) !== octave);
  });
}

/** The score with an octave doubling of each of the notes, in the same voice and rhythm. */
export function doubleInside(score: Score, notes: readonly Note[]): Score {
  const added = notes.map(note => ({ ...note, pitch: { ...note.pitch, octave: note.pitch.octave + 1 } }));
  const all = [...score.notes, ...added].sort(
    (a, b) =>
      compare(a.onset, b.onset) || Number(b.grace) - Number(a.grace) || midiOf(a.pitch) - midiOf(b.pitch),
  );
  const place = new Map(all.map((note, index) => [note, index as NoteId]));
  const moved = (id: NoteId | undefined): NoteId | undefined => {
    const note = id === undefined ? undefined : score.notes[id];
    return note === undefined ? undefined : place.get(note);
  };
  return {
    ...score,
    notes: all.map((note, index) => {
      const { tiedFrom, tiedTo, ...rest } = note;
      const [from, to] = [moved(tiedFrom), moved(tiedTo)];
      return {
        ...rest,
        id: index as NoteId,
        ...(from === undefined ? {} : { tiedFrom: from }),
        ...(to === undefined ? {} : { tiedTo: to }),
      };
    }),
  };
}
