import type { Diagnostic, SourceText } from '../diagnostics/index.js';
import type { AbcText, Field } from './abc-text.js';
import { findingAt } from './finding.js';
import { add, compare } from './fraction.js';
import type { Note, Score, Voice } from './model.js';
import { midiOf } from './pitch.js';
import { readStaffProperties, voiceIdOf } from './voice-fields.js';

/** Fewer notes could lie anywhere. */
const leastNotes = 6;

/**
 * Reports a voice whose clef lowers it by an octave (`treble-8`) although it is written where it sounds: it lies below the bass with every
 * note, and an octave higher it lies below it with none.
 */
export function checkClefs(
  source: SourceText,
  abc: AbcText,
  score: Score,
  report: (finding: Diagnostic) => void,
): void {
  for (const voice of score.voices) {
    if (!voice.clef.endsWith('-8') || voice.overlayOf !== undefined) continue;
    const pairs = withBass(score, voice);
    const isSunken = pairs.every(([note, bass]) => note < bass && bass <= note + 12);
    if (pairs.length < leastNotes || !isSunken) continue;
    const field = clefField(abc, voice);
    report(
      findingAt(
        source,
        'S0209',
        'warning',
        `voice \`${voice.id}\` lies below the bass with every note, because its clef \`${voice.clef}\` lowers it by an octave`,
        field ?? score.notes.find(note => note.voice === voice.id)?.span ?? { start: 0, end: 1 },
        {
          notes: ['the notes behind such a clef are written an octave higher than they sound'],
          help: `write \`clef=${voice.clef} octave=1\`, so that the letters say what sounds, or write its notes an octave higher`,
        },
      ),
    );
  }
}

/** The notes of a voice, each with the lowest note that sounds on a staff below it then; both as MIDI numbers. */
function withBass(score: Score, voice: Voice): readonly (readonly [number, number])[] {
  const lower = new Set(score.voices.filter(({ staff }) => staff > voice.staff).map(({ id }) => id));
  const below = score.notes.filter(note => lower.has(note.voice) && !note.grace);
  let sounding: readonly Note[] = [];
  let next = 0;
  return score.notes.flatMap((note): readonly (readonly [number, number])[] => {
    if (note.voice !== voice.id || note.grace) return [];
    const begun: Note[] = [];
    for (let one = below[next]; one !== undefined && compare(one.onset, note.onset) <= 0; one = below[++next])
      begun.push(one);
    sounding = [...sounding, ...begun].filter(
      ({ onset, duration }) => compare(note.onset, add(onset, duration)) < 0,
    );
    return sounding.length === 0
      ? []
      : [[midiOf(note.pitch), Math.min(...sounding.map(({ pitch }) => midiOf(pitch)))]];
  });
}

/** The field that gives a voice its clef. */
function clefField(abc: AbcText, voice: Voice): Field | undefined {
  const named = abc.fields.filter(({ value }) => readStaffProperties(value).clef === voice.clef);
  return (
    named.find(field => field.letter === 'V' && voiceIdOf(field) === voice.id) ??
    named.find(({ letter }) => letter === 'K')
  );
}
