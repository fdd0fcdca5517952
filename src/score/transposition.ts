import { midiOf, pitchClassOf, spell, transposed, type Pitch } from './pitch.js';

/**
 * Position on the line of fifths by which a transposition of so many semitones moves, chosen so that the key keeps the
 * fewest accidentals (a part in D major that sounds two semitones lower sounds in C major, not in B sharp major).
 */
export function fifthsOfTransposition(semitones: number, keyFifths: number): number {
  if (semitones % 12 === 0) return 0;
  const nearest = ((((semitones * 7) % 12) + 18) % 12) - 6;
  return [nearest - 12, nearest, nearest + 12].reduce((best, candidate) => {
    const difference = Math.abs(keyFifths + candidate) - Math.abs(keyFifths + best);
    return difference < 0 || (difference === 0 && Math.abs(candidate) < Math.abs(best)) ? candidate : best;
  });
}

/** The pitch so many semitones higher, spelled by a shift of `fifths` on the line of fifths. */
export function transposePitch(pitch: Pitch, semitones: number, fifths: number): Pitch {
  if (semitones === 0) return pitch;
  const spelled = { ...spell(transposed(pitchClassOf(pitch), fifths)), octave: pitch.octave };
  const octaves = (midiOf(pitch) + semitones - midiOf(spelled)) / 12;
  return { ...spelled, octave: spelled.octave + octaves };
}
