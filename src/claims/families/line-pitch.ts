import { article } from '../terms/chord-name.js';
import type { Parser } from '../grammar/index.js';
import { chromaOf, pitchClassOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { isHeldInto, missingEvidence, noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, list, map, mark, optional, quiet, sequence, word } from '../grammar/index.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { be, have, printBe, printHave, printVerb, verb } from '../terms/verb.js';
import { sayMoment } from '../place/say-moment.js';
import type { Line } from '../subjects/line.js';
import type { LineNote } from '../subjects/line-notes.js';
import { nothingSounds } from './judged.js';

/** What a line is at its place: throughout, somewhere, at its first or at its last note. */
export interface LinePitch {
  readonly how: 'is' | 'has' | 'begins' | 'ends' | 'only';
  readonly note: NoteName;
  /** Further notes that it may have: `only C and D`. */
  readonly others?: readonly NoteName[];
}

const nameOf = (note: Note, like: NoteName): NoteName =>
  like.octave === undefined
    ? { pitchClass: pitchClassOf(note.pitch) }
    : { pitchClass: pitchClassOf(note.pitch), octave: note.pitch.octave };

function chosen(how: LinePitch['how'], notes: readonly LineNote[]): readonly LineNote[] {
  switch (how) {
    case 'begins':
      return notes.slice(0, 1);
    case 'ends':
      return notes.slice(-1);
    case 'is':
    case 'has':
    case 'only':
      return notes;
  }
}

const said = (notes: readonly LineNote[]): string =>
  notes
    .slice(0, 6)
    .map(({ note }) => printPitch(note.pitch))
    .join(' ') + (notes.length > 6 ? ' ...' : '');

const named = (how: LinePitch['how']): Parser<LinePitch> =>
  map(sequence(quiet(optional(article)), noteName), ([, note]) => ({ how, note }));

/** `begins on D`: the verb says which end is meant. */
const edges = (
  [
    ['begins on', 'begin on', 'begins'],
    ['begins with', 'begin with', 'begins'],
    ['starts on', 'start on', 'begins'],
    ['starts with', 'start with', 'begins'],
    ['opens on', 'open on', 'begins'],
    ['ends on', 'end on', 'ends'],
    ['ends with', 'end with', 'ends'],
  ] as const
).map(([singular, plural, how]) => [verb(singular, plural), named(how)] as const);

const nextNote = quiet(
  choice(
    map(sequence(mark(','), optional(word('and', 'or'))), () => undefined),
    map(word('and', 'or'), () => undefined),
  ),
);
/** `C`, `C and D`, `C, D or E`. */
export const onlyNotes: Parser<LinePitch> = map(
  sequence(noteName, optional(sequence(nextNote, list(noteName, nextNote)))),
  ([note, more]) => ({ how: 'only', note, ...(more === undefined ? {} : { others: more[1] }) }),
);

/** The pitch of a line: claims A1 of the trade for a voice, with the octave compared where one is given. */
export const linePitchFamily = family<Line, LinePitch>({
  name: 'line',
  examples: [
    'the soprano of bar 3 beat 1 is F#5',
    'the bass of bar 7 is F#',
    'the top line of bars 1-4 begins on D5',
    'voice 2 of bar 3 has C#',
  ],
  phrases: [
    [be, named('is')],
    [have, named('has')],
    [verb('plays', 'play'), named('has')],
    [have, map(sequence(word('only', 'nothing but'), onlyNotes), ([, says]) => says)],
    [verb('plays', 'play'), map(sequence(word('only', 'nothing but'), onlyNotes), ([, says]) => says)],
    [verb('holds', 'hold'), named('is')],
    [verb('stays on', 'stay on'), named('is')],
    [verb('remains on', 'remain on'), named('is')],
    [verb('sings', 'sing'), named('has')],
    [verb('strikes', 'strike'), named('has')],
    [verb('reaches', 'reach'), named('has')],
    [verb('touches', 'touch'), named('has')],
    ...edges,
  ],
  print: ({ how, note, others = [] }, form) => {
    if (how === 'only') {
      const all = [note, ...others].map(printNoteName);
      const last = all.length > 1 ? ` and ${all.at(-1) ?? ''}` : '';
      return `${printHave(form)} only ${all.length > 1 ? all.slice(0, -1).join(', ') : all.join('')}${last}`;
    }
    const verbs = {
      is: printBe(form),
      has: printHave(form),
      begins: printVerb('begins on', 'begin on', form),
      ends: printVerb('ends on', 'end on', form),
    };
    return `${verbs[how]} ${printNoteName(note)}`;
  },
  check: (line, says, context, make): Finding<Line> => {
    const notes = chosen(says.how, line.notes);
    const asked = [says.note, ...(says.others ?? [])];
    const wanted = asked.map(printNoteName).join(' or ');
    const [first] = notes;
    if (first === undefined) return nothingSounds(line.name);
    const matching = notes.filter(({ note }) => asked.some(name => isNamed(note, name)));
    const others = notes.filter(each => !matching.includes(each));
    const supports = matching.map(({ note }) =>
      noteEvidence(
        'supports',
        note,
        isHeldInto(note, line.span.range) ? 'sounding on from before' : 'sounding',
        context,
      ),
    );
    const [match] = matching;
    // What is said of a beat is said of its moment.
    const isAtMoment = line.span.moment !== undefined && match === first;
    if (match !== undefined && (others.length === 0 || says.how === 'has' || isAtMoment))
      return {
        verdict: 'holds',
        code: 'C0311',
        reason: `${line.name} ${says.how === 'has' ? 'has' : 'is'} ${printPitch(match.note.pitch)}`,
        evidence: supports,
      };
    if (match !== undefined && says.how === 'only') {
      const [other] = others;
      return {
        verdict: 'fails',
        code: 'C0313',
        reason: `${line.name} has ${other === undefined ? '' : printPitch(other.note.pitch)} as well: ${said(notes)}`,
        evidence: others
          .slice(0, 6)
          .map(({ note }) => noteEvidence('contradicts', note, 'another note of the line', context)),
      };
    }
    if (match !== undefined) {
      return {
        verdict: 'arguable',
        code: 'C0312',
        reason: `${line.name} is ${wanted} on ${sayMoment(match.start, context)}, but it moves: ${said(notes)}`,
        evidence: [
          ...supports,
          ...others
            .slice(0, 6)
            .map(({ note }) => noteEvidence('contradicts', note, 'another note of the line', context)),
        ],
        instead: () => [make({ ...says, how: 'has' })],
      };
    }
    const near =
      notes.find(({ note }) => pitchClassOf(note.pitch) === says.note.pitchClass) ??
      notes.find(({ note }) => chromaOf(pitchClassOf(note.pitch)) === chromaOf(says.note.pitchClass)) ??
      first;
    return {
      verdict: 'fails',
      code: 'C0313',
      reason: `${line.name} ${says.how === 'is' ? 'is' : 'has'} ${said(notes)}, not ${wanted}`,
      evidence: [
        missingEvidence(says.note, line.span.range, 'not in the line', context),
        ...notes.slice(0, 6).map(({ note }) => noteEvidence('contradicts', note, 'in its place', context)),
      ],
      instead: () => [
        ...(says.how === 'only' ? [] : [make({ ...says, note: nameOf(near.note, says.note) })]),
        make({ how: 'has', note: nameOf(near.note, says.note) }),
      ],
    };
  },
});
