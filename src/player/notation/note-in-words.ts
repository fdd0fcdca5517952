import { withArticle } from '../../claims/index.js';
import { degreeOf, printChord, printKey, segmentAt } from '../../harmony/index.js';
import type { Analysis, Segment } from '../../harmony/index.js';
import { pitchClassOf, placeAt, printFraction, printPitch, toNumber } from '../../score/index.js';
import type { Fraction, Note, Score } from '../../score/index.js';
import { pitchInWords } from './in-words.js';
import { withAccidentals } from '../../timeline/index.js';
import { voiceInWords } from './voice-in-words.js';

/** Members of a chord stacked in thirds. */
const members = ['root', 'third', 'fifth', 'seventh', 'ninth'] as const;
/** Names of the degrees (common practice); the seventh is the leading tone where it is a semitone under the tonic. */
const degreeNames = [
  'tonic',
  'supertonic',
  'mediant',
  'subdominant',
  'dominant',
  'submediant',
  'leading tone',
] as const;
const alterations = new Map([
  [-2, 'doubly lowered '],
  [-1, 'lowered '],
  [1, 'raised '],
  [2, 'doubly raised '],
]);

const noteValues: readonly (readonly [number, string])[] = [
  [1, 'whole note'],
  [1 / 2, 'half note'],
  [1 / 4, 'quarter note'],
  [1 / 8, 'eighth note'],
  [1 / 16, 'sixteenth note'],
  [1 / 32, 'thirty-second note'],
];

/** `dotted quarter note`; a value that no single note has is told as a fraction of a whole note. */
export function valueInWords(duration: Fraction): string {
  const length = toNumber(duration);
  for (const [value, name] of noteValues) {
    if (Math.abs(length - value) < 1e-9) return name;
    if (Math.abs(length - value * 1.5) < 1e-9) return `dotted ${name}`;
  }
  return length === 0 ? 'grace note' : `${printFraction(duration)} of a whole note`;
}

/** `degree 5 of D minor, the dominant`; in minor the raised seventh is the leading tone and the plain one the subtonic. */
export function degreeInWords(note: Pick<Note, 'pitch'>, { key }: Pick<Segment, 'key'>): string {
  const { degree, alter } = degreeOf(key, pitchClassOf(note.pitch));
  const plain = degree === 7 && key.mode === 'minor' && alter === 0;
  const leading = degree === 7 && key.mode === 'minor' && alter === 1;
  const name = plain ? 'subtonic' : (degreeNames[degree - 1] ?? '');
  const altered = leading ? '' : (alterations.get(alter) ?? '');
  return `degree ${degree} of ${withAccidentals(printKey(key))}, the ${altered}${name}`;
}

/** What a note is to the harmony it sounds in: a member of the chord, or what kind of foreign tone. */
export function roleInWords(note: Pick<Note, 'id' | 'pitch'>, segment: Segment): string {
  const chordName = withAccidentals(printChord(segment.chord));
  const foreign = segment.nonChordTones.find(one => one.note === note.id);
  if (foreign !== undefined) {
    const figure = foreign.figure === undefined ? '' : ` ${foreign.figure.replace('-', '–')}`;
    return `${withArticle(foreign.kind)}${figure} over ${chordName}`;
  }
  const member = segment.chord.tones.indexOf(pitchClassOf(note.pitch));
  const name = members[member];
  return name === undefined ? `foreign to ${chordName}` : `${name} of ${chordName}`;
}

/** Bar and beat of a note: `bar 3, beat 2`; the pickup by its name. */
export function placeInWords({ score }: Analysis, note: Note, beat: Fraction | undefined): string {
  const place = placeAt(score, note.onset, beat);
  const label = score.bars[note.bar]?.label ?? '';
  const bar = label === '0' ? 'pickup' : `bar ${label}`;
  return place === undefined ? bar : `${bar}, beat ${Math.round(toNumber(place.beat) * 100) / 100}`;
}

/** The note from which a note is tied over; itself where it is not. */
function struckNote(score: Score, note: Note): Note {
  const before = note.tiedFrom === undefined ? undefined : score.notes[note.tiedFrom];
  return before === undefined || before.id >= note.id ? note : struckNote(score, before);
}

/**
 * One note in words: name, length, voice and place, and, where `told`, its degree and its role in the harmony (kept back while labels are
 * covered).
 */
export function noteInWords(analysis: Analysis, note: Note, told: boolean, beat?: Fraction): string {
  const { voices } = analysis.score;
  const name = voiceInWords(
    voices,
    voices.findIndex(({ id }) => id === note.voice),
  );
  const tied = note.tiedFrom === undefined ? '' : ', tied over';
  const what = `${pitchInWords(printPitch(note.pitch))}, ${valueInWords(note.duration)}${tied}, ${name}, ${placeInWords(analysis, note, beat)}`;
  const segment = segmentAt(analysis, note.onset);
  if (!told || segment === undefined) return `${what}.`;
  // The analysis speaks of a tone by the note that strikes it.
  const struck = { ...note, id: struckNote(analysis.score, note).id };
  return `${what}: ${roleInWords(struck, segment)}; ${degreeInWords(note, segment)}.`;
}
