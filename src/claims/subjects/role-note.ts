import { pitchClassOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import { leadingTonesIn } from '../chord-part.js';
import type { ChordPart } from '../chord-part.js';
import type { Judged, Subject } from '../claim.js';
import { missingEvidence, noteEvidence } from '../evidence.js';
import { noteNonChordToneFamily } from '../families/non-chord-tone.js';
import { noteInChordFamily } from '../families/note-in-chord.js';
import { choice, map, optional, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { at, placeName } from '../place/place-name.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import { nameOf, nonChordTone } from '../terms/non-chord-tone.js';
import type { NonChordToneSays } from '../terms/non-chord-tone.js';
import type { PointedName } from './note.js';
import { chordSubject } from './chord-subject.js';
import { lineName, printLine } from './line-name.js';
import { lineNotes } from './line-notes.js';
import { lineSubject } from './line.js';
import { once } from './note.js';
import type { PointedNotes } from './note.js';
import { soundingIn } from './sounding.js';
import { rangeOrMoment, span } from './span.js';
import type { Span } from './span.js';

/**
 * What a sentence says that a note is before it names it: `the seventh G`. Not the third and the fifth of a chord: `the third E` may be the E that
 * comes third.
 */
type Role =
  NonChordToneSays | { readonly part: Extract<ChordPart, 'root' | 'seventh' | 'ninth'> } | 'leading tone';

const role: Parser<Role> = choice<Role>(
  wordsFor<Role>([
    [{ part: 'root' }, 'root', 'chord root'],
    [{ part: 'seventh' }, 'seventh', 'chord seventh', 'chordal seventh', '7th'],
    [{ part: 'ninth' }, 'ninth', 'chord ninth', '9th'],
    ['leading tone', 'leading tone', 'leading note', 'leading-note'],
    [{ kind: 'suspension' }, 'suspended'],
  ]),
  nonChordTone,
);

const printRole = (of: Role): string => (of === 'leading tone' ? of : 'part' in of ? of.part : nameOf(of));

/** Whether a note plays a role in a place, with the reason. */
function playing(note: Note, of: Role, where: Span, context: ClaimContext): Judged {
  const named: PointedNotes = { span: where, notes: [note], name: printPitch(note.pitch) };
  if (of !== 'leading tone')
    return 'part' in of
      ? noteInChordFamily.make(of).check(named, context)
      : noteNonChordToneFamily.make(of).check(named, context);
  const tones = leadingTonesIn(rangeOrMoment(where), context);
  const leads = tones.some(({ tone }) => tone === pitchClassOf(note.pitch));
  return {
    verdict: leads ? 'holds' : 'fails',
    code: leads ? 'C0115' : 'C0116',
    reason: `${printPitch(note.pitch)} is ${leads ? 'the' : 'no'} leading tone in ${where.name}`,
    evidence: [noteEvidence(leads ? 'supports' : 'contradicts', note, 'the note that is named', context)],
  };
}

/** The notes of a name that play a role in a place. A note of that name which does not is another note. */
const roleNote = (of: Role, { name, line }: PointedName, where: Subject<Span>): Subject<PointedNotes> => {
  const inLine = line === undefined ? '' : ` in ${printLine(line)}`;
  const named = `${printRole(of)} ${printNoteName(name)}`;
  const print = (): string => `the ${named}${inLine} of ${where.print()}`;
  return {
    content: { role: of, name, of: where.content, ...(line === undefined ? {} : { line }) },
    plural: false,
    print,
    resolve: context => {
      const found = where.resolve(context);
      if (found.kind === 'none') return found;
      if (found.kind === 'endings')
        return {
          kind: 'endings',
          subjects: found.subjects.map(ending =>
            roleNote(of, line === undefined ? { name } : { name, line }, ending),
          ),
        };
      const whole = found.subject;
      const ofLine = line === undefined ? undefined : lineSubject(line, whole.place).resolve(context);
      if (ofLine?.kind === 'none') return ofLine;
      const { score } = context.analysis;
      const sounding =
        line === undefined
          ? soundingIn(score, whole.range)
          : (lineNotes(score, line, whole.range) ?? []).map(({ note }) => note);
      const candidates = once(sounding.filter(note => isNamed(note, name) && !note.grace));
      const asked = candidates.map(note => ({ note, is: playing(note, of, whole, context) }));
      const [first, ...rest] = asked.filter(({ is }) => is.verdict === 'holds').map(({ note }) => note);
      if (first !== undefined)
        return {
          kind: 'found',
          subject: {
            span: whole,
            notes: [first, ...rest],
            name: print(),
            ...(line === undefined ? {} : { line }),
          },
        };
      const doubtful = asked.find(({ is }) => is.verdict !== 'fails') ?? asked[0];
      return {
        kind: 'none',
        finding: doubtful?.is ?? {
          verdict: 'fails',
          code: 'C0302',
          reason: `there is no ${printNoteName(name)}${inLine} in ${whole.name}`,
          evidence: [missingEvidence(name, whole.range, 'never sounding', context)],
        },
      };
    },
    neighbours: () => [],
  };
};

/** `the seventh G in the bass of bar 6`, `the suspended E in bar 4`, `the seventh F of the applied dominant in bar 11`. */
export const roleNoteName: Parser<Subject<PointedNotes>> = rule('NoteByItsRole', () =>
  choice(
    map(
      sequence(
        word('the'),
        role,
        noteName,
        optional(map(sequence(word('in', 'of'), lineName), ([, line]) => line)),
        choice(
          map(sequence(at, placeName), ([, place]) => span(place)),
          map(sequence(word('of', 'in'), chordSubject), ([, of]) => of),
        ),
      ),
      ([, of, name, line, where]) => roleNote(of, line === undefined ? { name } : { name, line }, where),
    ),
    // `the seventh G of bar 6 in the bass`.
    map(
      sequence(word('the'), role, noteName, at, placeName, word('in'), lineName),
      ([, of, name, , place, , line]) => roleNote(of, { name, line }, span(place)),
    ),
  ),
);
