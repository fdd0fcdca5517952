import type { Claim, Predicate } from '../claim.js';
import { conjunction } from '../conjunction.js';
import { noteInChordFamily, partOfChord } from '../families/note-in-chord.js';
import { notePitchFamily } from '../families/note-pitch.js';
import { degreeOfNote, noteDegreeFamily } from '../families/scale-degree.js';
import { choice, list, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { scope } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { statement } from '../statement.js';
import { edgeNote } from '../subjects/edge-note.js';
import { lineName } from '../subjects/line-name.js';
import type { LineName } from '../subjects/line-name.js';
import type { PointedNotes } from '../subjects/note.js';
import { twoLines } from '../subjects/pair.js';
import { article } from '../terms/chord-name.js';
import { noteName } from '../terms/note-name.js';
import { startsOrEnds } from '../terms/verb.js';
import type { Edge } from '../terms/verb.js';
import { and, denied } from './links.js';

/** `the melody ends on the tonic`, `the bass starts on D in bars 1-4`: the piece where no place is named. */
export const edgeSentence: Parser<Claim> = rule('EdgeSentence', () => {
  const say = (line: LineName, place: Place, { how, negated }: Edge, says: Predicate<PointedNotes>): Claim =>
    statement(edgeNote(how === 'begins' ? 'first' : 'last', line, place), denied(negated, says));
  const degree = choice<Predicate<PointedNotes>>(
    map(degreeOfNote, says => noteDegreeFamily.make(says)),
    map(partOfChord, says => noteInChordFamily.make(says)),
  );
  const note = map(sequence(quiet(optional(article)), noteName), ([, named]) =>
    notePitchFamily.make({ note: named }),
  );
  return choice(
    map(sequence(lineName, scope, startsOrEnds, degree), ([line, place, edge, says]) =>
      say(line, place, edge, says),
    ),
    map(sequence(lineName, list(sequence(startsOrEnds, degree), and), scope), ([line, said, place]) =>
      conjunction(said.map(([edge, says]) => say(line, place, edge, says))),
    ),
    // `the soprano and the bass end on the tonic`: each of them.
    map(
      sequence(twoLines, optional(word('both', 'each')), scope, startsOrEnds, degree),
      ([lines, , place, edge, says]) => conjunction(lines.map(line => say(line, place, edge, says))),
    ),
    map(sequence(lineName, startsOrEnds, note), ([line, edge, says]) =>
      say(line, { kind: 'piece' }, edge, says),
    ),
  );
});
