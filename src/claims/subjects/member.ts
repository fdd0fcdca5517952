import { pitchClassOf, printPitchClass } from '../../score/index.js';
import type { Note, PitchClass } from '../../score/index.js';
import { chordWith, leadingTonesIn } from '../chord-part.js';
import type { ChordPart } from '../chord-part.js';
import type { Subject } from '../claim.js';
import { missingEvidence } from '../evidence.js';
import { choice, map, optional, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { at, placeName, printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { chordPartName } from '../terms/chord-part-name.js';
import { lineName, printLine } from './line-name.js';
import type { LineName } from './line-name.js';
import { lineNotes } from './line-notes.js';
import { once } from './note.js';
import type { PointedNotes } from './note.js';
import { soundingIn } from './sounding.js';
import type { Span } from './span.js';
import { subjectAt } from './subject-at.js';

export type Member = ChordPart | 'leading tone';

/** Where a member of the chords of a range is looked for, and as what tone. */
interface Sought extends Range {
  readonly tone: PitchClass;
}

function soughtIn(member: Member, range: Range, context: ClaimContext): readonly Sought[] {
  if (member === 'leading tone') return leadingTonesIn(range, context);
  const found = chordWith(member, range, context);
  return found?.tone === undefined ? [] : [{ tone: found.tone, ...found.range }];
}

/** What a beat lacks may come later in its chord: the seventh over a bass that stands already, a tone of a broken chord. */
function laterIn(member: Member, { moment }: Span, context: ClaimContext): readonly Sought[] {
  if (moment === undefined || member === 'leading tone') return [];
  const found = chordWith(member, { start: moment, end: moment }, context);
  return found?.tone === undefined ? [] : [{ tone: found.tone, start: moment, end: found.ends }];
}

/** `line`: only the notes of one line. */
export const memberNotes = (member: Member, place: Place, line?: LineName): Subject<PointedNotes> => {
  const inLine = line === undefined ? '' : ` in ${printLine(line)}`;
  const print = (): string => `the ${member}${inLine} of ${printPlace(place)}`;
  return subjectAt({
    content: { member, place, ...(line === undefined ? {} : { line }) },
    print,
    place,
    again: other => memberNotes(member, other, line),
    find: (whole, context) => {
      const { range } = whole;
      const sought = soughtIn(member, range, context);
      const tone = sought[0]?.tone;
      const notesOf = (places: readonly Sought[]): readonly Note[] =>
        once(
          places.flatMap(each =>
            (line === undefined
              ? soundingIn(context.analysis.score, each)
              : (lineNotes(context.analysis.score, line, each) ?? []).map(({ note }) => note)
            ).filter(note => pitchClassOf(note.pitch) === each.tone && !note.grace),
          ),
        );
      const here = notesOf(sought);
      const [first, ...rest] = here.length > 0 ? here : notesOf(laterIn(member, whole, context));
      if (first === undefined)
        return {
          kind: 'none',
          finding: {
            verdict: 'fails',
            code: 'C0302',
            reason:
              tone === undefined
                ? `the chord of ${printPlace(place)} has no ${member}`
                : `the ${member} ${printPitchClass(tone)} never sounds${inLine} in ${printPlace(place)}`,
            evidence:
              tone === undefined
                ? []
                : [missingEvidence({ pitchClass: tone }, range, 'never sounding', context)],
          },
        };
      return {
        kind: 'found',
        subject: {
          span: whole,
          notes: [first, ...rest],
          name: print(),
          ...(line === undefined ? {} : { line }),
        },
      };
    },
  });
};

/** A member that the place follows later: `the leading tone rises in bar 11`. */
export const member: Parser<Member> = map(
  sequence(
    word('the'),
    choice<Member>(
      chordPartName,
      map(word('leading tone', 'leading note', 'leading-note'), () => 'leading tone'),
    ),
    optional(word('of the chord')),
  ),
  ([, named]) => named,
);

/** `the seventh of bar 15`, `the leading tone of bar 2`: a note by its part in the chord. */
export const memberName: Parser<Subject<PointedNotes>> = rule('MemberOfAPlace', () =>
  choice(
    map(sequence(member, at, placeName), ([named, , place]) => memberNotes(named, place)),
    map(sequence(member, word('in'), lineName, at, placeName), ([named, , line, , place]) =>
      memberNotes(named, place, line),
    ),
  ),
);
