import { chord, describeChord } from '../../harmony/index.js';
import type { ChordQuality, Segment } from '../../harmony/index.js';
import { compare, greatest, least, pitchClassOf, printPitch } from '../../score/index.js';
import type { Note, PitchClass } from '../../score/index.js';
import { chordParts } from '../chord-part.js';
import type { ChordPart } from '../chord-part.js';
import { noteEvidence } from '../evidence.js';
import { choice, map, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { noteFamily } from '../note-family.js';
import type { NoteFinding } from '../note-family.js';
import { segmentsIn } from '../segments.js';
import { soundEnd, struckHead } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { article, chordSymbol, printChordWords, rootedChord } from '../terms/chord-name.js';
import { chordPartName, chordPartOf } from '../terms/chord-part-name.js';
import { be, printBe } from '../terms/verb.js';

/** Which member of its chord a note is, and of which chord where the sentence names it. */
export interface NoteInChordSays {
  readonly part: ChordPart;
  readonly of?: { readonly root: PitchClass; readonly quality: ChordQuality };
}

/** `the third of the chord`, `the seventh of A7`. */
export const partOfChord: Parser<NoteInChordSays> = map(
  sequence(
    quiet(optional(choice(article, word('the')))),
    choice<NoteInChordSays>(
      map(chordPartOf, part => ({ part })),
      map(
        sequence(
          chordPartName,
          word('of'),
          choice(
            rootedChord,
            map(sequence(quiet(optional(article)), chordSymbol), ([, { root, quality }]) => ({
              root,
              quality,
            })),
          ),
        ),
        ([part, , of]) => ({ part, of }),
      ),
    ),
  ),
  ([, says]) => says,
);

/** The chords of a place while a note sounds in it. */
function chordsOf(note: Note, { range, moment }: Span, context: ClaimContext): readonly Segment[] {
  const { score } = context.analysis;
  const asked = moment === undefined ? range : { start: moment, end: moment };
  const onset = struckHead(note, score.notes).onset;
  const start = greatest(onset, asked.start);
  const end = moment === undefined ? least(soundEnd(note, score), asked.end) : moment;
  return segmentsIn(context.analysis, compare(start, end) <= 0 ? { start, end } : asked);
}

const nameOf = (note: Note, { chord: of, roman }: Segment): string => {
  const part = chordParts[of.tones.indexOf(pitchClassOf(note.pitch))];
  return part === undefined
    ? `no member of ${describeChord(of)} (${roman})`
    : `the ${part} of ${describeChord(of)} (${roman})`;
};

function checkNote(
  note: Note,
  says: NoteInChordSays,
  span: Span,
  context: ClaimContext,
): NoteFinding<NoteInChordSays> {
  const tone = pitchClassOf(note.pitch);
  const index = chordParts.indexOf(says.part);
  const segments = chordsOf(note, span, context);
  const [first] = segments;
  if (first === undefined)
    return { verdict: 'undecided', code: 'C0604', reason: 'no chord can be read there', evidence: [] };
  const fits = ({ chord: read }: Segment): boolean =>
    read.tones[index] === tone &&
    (says.of === undefined ||
      (says.of.root === read.root &&
        chord(says.of.root, says.of.quality).tones.every(each => read.tones.includes(each))));
  const fitting = segments.filter(fits);
  const other = segments.find(segment => !fits(segment));
  const shown = fitting.length === 0 ? first : (fitting[0] ?? first);
  const own = chordParts[first.chord.tones.indexOf(tone)];
  const instead: readonly NoteInChordSays[] = own === undefined ? [] : [{ part: own }];
  const role = fitting.length === 0 ? 'contradicts' : 'supports';
  return {
    verdict: fitting.length === 0 ? 'fails' : other === undefined ? 'holds' : 'arguable',
    code: fitting.length === 0 ? 'C0116' : 'C0115',
    reason:
      fitting.length === 0 || other === undefined
        ? `${printPitch(note.pitch)} is ${nameOf(note, shown)}`
        : `${printPitch(note.pitch)} is ${nameOf(note, shown)}, but the chord changes while it sounds: ${nameOf(note, other)}`,
    evidence: [noteEvidence(role, note, nameOf(note, shown), context)],
    instead,
  };
}

const families = noteFamily<NoteInChordSays>({
  name: 'member of the chord',
  examples: [
    'the G of bar 15 is the seventh of the chord',
    'the bass of bar 4 is the third of the chord',
    'the C# of bar 2 is the fifth of an F# dominant seventh chord',
  ],
  phrases: [[be, partOfChord]],
  print: ({ part, of }, form) =>
    `${printBe(form)} the ${part} of ${of === undefined ? 'the chord' : printChordWords(of)}`,
  checkNote,
});

/** What a note is in its chord: claims B1 and B3 of the trade, asked of the note. */
export const noteInChordFamily = families.ofNotes;
export const lineInChordFamily = families.ofLine;
