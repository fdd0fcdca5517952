import { expect } from 'vitest';
import { chord, printChord, segmentAt } from '../../src/harmony/index.js';
import type { Analysis } from '../../src/harmony/index.js';
import { compare, staffStepOf } from '../../src/score/index.js';
import type { Note, Score } from '../../src/score/index.js';
import type { NonChordToneRow, ToneRole } from '../fixtures/harmony/non-chord-tone-pieces.js';
import type { Evidence } from '../fixtures/harmony/pieces.js';
import { analysed, momentOf, noteAt, unitOf } from './pieces.js';

/** Where a tied note was struck: the engine names a tone by its first note head. */
function struck(score: Score, note: Note): Note {
  const before = note.tiedFrom === undefined ? undefined : score.notes[note.tiedFrom];
  return before === undefined ? note : struck(score, before);
}

/** The harmonies in order; over a pedal without inversion, since the pedal hides it (Hutchinson, Non-Chord Tones). */
function chordsOf({ segments, pedals }: Analysis): string {
  return segments
    .map(segment =>
      printChord(pedals.length > 0 ? chord(segment.chord.root, segment.chord.quality) : segment.chord),
    )
    .join(' ');
}

/** Each note is what the row says, over the chords that it names, at the intervals that it names. */
export function checkNonChordTones({ piece, chords, roles, intervals }: NonChordToneRow): void {
  const analysis = analysed(piece);
  const { score } = analysis;
  const unit = unitOf(piece);
  const headOf = (at: Evidence): Note => {
    const note = noteAt(score, at, unit);
    if (note === undefined) throw new Error(`${at.join(' ')} does not sound`);
    return struck(score, note);
  };
  const said = ({ at, ...role }: ToneRole): ToneRole => {
    const segment = segmentAt(analysis, momentOf(score, at[1], at[2], unit));
    const { id } = headOf(at);
    if (segment?.chordTones.includes(id)) return { at, is: 'chord tone' };
    const named = segment?.nonChordTones.find(({ note }) => note === id);
    if (named === undefined) throw new Error(`${at.join(' ')} is not named`);
    // Where the row says nothing of a property, the engine may say anything of it.
    const place = (claimed: Evidence | undefined, note: Note['id'] | undefined): Evidence | undefined =>
      claimed !== undefined && headOf(claimed).id === note ? claimed : undefined;
    const preparation = place(role.preparation, named.preparation);
    const resolution = place(role.resolution, named.resolution);
    return {
      at,
      is: named.kind,
      ...(role.chromatic === undefined ? {} : { chromatic: named.chromatic }),
      ...(role.figure === undefined || named.figure === undefined ? {} : { figure: named.figure }),
      ...(preparation === undefined ? {} : { preparation }),
      ...(resolution === undefined ? {} : { resolution }),
    };
  };

  expect.soft(roles.map(said)).toEqual(roles);
  expect.soft(chordsOf(analysis)).toBe(chords);
  for (const [bar, beat, upper, lower, interval] of intervals ?? []) {
    const moment = momentOf(score, bar, beat, unit);
    const [above, below] = [upper, lower].map(voice =>
      score.notes.findLast(
        note => note.voice === score.voices[voice - 1]?.id && compare(note.onset, moment) <= 0,
      ),
    );
    if (above === undefined || below === undefined) throw new Error('no such voices');
    // Compound intervals are named by their simple ones.
    const steps = staffStepOf(above.pitch) - staffStepOf(below.pitch);
    expect.soft((steps - (interval - 1)) % 7).toBe(0);
  }
}
