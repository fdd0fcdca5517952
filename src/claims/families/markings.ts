import { compare, equals, isBefore } from '../../score/index.js';
import type { Mark, MarkKind, TempoMark } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { choice, map, mark, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { sayMoment } from '../place/say-moment.js';
import { liesIn } from '../segments.js';
import { noteEnd } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { lengthOf, noteValue, printNoteValue, valueOfLength } from '../terms/note-value.js';
import type { NoteValue } from '../terms/note-value.js';
import { count } from '../terms/number.js';
import { be, have, haveNo, printBe, printHas, printHave } from '../terms/verb.js';

type Dynamic = 'pppp' | 'ppp' | 'pp' | 'p' | 'mp' | 'mf' | 'f' | 'ff' | 'fff' | 'ffff';
type Hairpin = 'crescendo' | 'diminuendo';

/** What the score writes beside the notes: a tempo, a fermata, how loud it is. */
export type MarkingSays =
  | { readonly kind: 'tempo'; readonly beatsPerMinute: number; readonly beat?: NoteValue }
  /** As many of them, where a number is said. */
  | { readonly kind: 'fermata'; readonly count?: number }
  | { readonly kind: 'dynamic'; readonly dynamic: Dynamic }
  | { readonly kind: 'hairpin'; readonly hairpin: Hairpin };

const perMinute = quiet(optional(word('beats per minute', 'beats a minute', 'bpm')));
const tempo: Parser<MarkingSays> = choice(
  map(
    sequence(noteValue, choice(mark('='), word('equals')), count),
    ([beat, , beatsPerMinute]): MarkingSays => ({ kind: 'tempo', beatsPerMinute, beat }),
  ),
  map(sequence(count, perMinute), ([beatsPerMinute]): MarkingSays => ({ kind: 'tempo', beatsPerMinute })),
  map(
    sequence(count, noteValue, word('beats per minute', 'per minute', 'a minute')),
    ([beatsPerMinute, beat]): MarkingSays => ({ kind: 'tempo', beatsPerMinute, beat }),
  ),
);
const fermata: Parser<MarkingSays> = map(
  sequence(
    choice<number | undefined>(
      count,
      map(optional(article), () => undefined),
    ),
    word('fermata', 'fermatas', 'pause', 'pauses', 'pause mark', 'pause marks'),
  ),
  ([number]) => (number === undefined ? { kind: 'fermata' } : { kind: 'fermata', count: number }),
);
const hairpin: Parser<MarkingSays> = map(
  sequence(
    optional(article),
    wordsFor<Hairpin>([
      ['crescendo', 'crescendo'],
      ['diminuendo', 'diminuendo', 'decrescendo'],
    ]),
  ),
  ([, of]) => ({ kind: 'hairpin', hairpin: of }),
);
const dynamic: Parser<MarkingSays> = map(
  wordsFor<Dynamic>([
    ['pppp', 'pppp'],
    ['ppp', 'ppp', 'pianississimo'],
    ['pp', 'pp', 'pianissimo'],
    ['p', 'p', 'piano'],
    ['mp', 'mp', 'mezzo-piano'],
    ['mf', 'mf', 'mezzo-forte'],
    ['f', 'f', 'forte'],
    ['ff', 'ff', 'fortissimo'],
    ['fff', 'fff', 'fortississimo'],
    ['ffff', 'ffff'],
  ]),
  of => ({ kind: 'dynamic', dynamic: of }),
);

/** Marks of a kind that stand in a place. */
const marksIn = (span: Span, kind: MarkKind, context: ClaimContext): readonly Mark[] =>
  context.analysis.score.marks.filter(each => each.kind === kind && liesIn(each.onset, span.range));

/** The tempo in force where a place begins, and those that begin in it. */
function temposIn({ range }: Span, context: ClaimContext): readonly TempoMark[] {
  const { tempos } = context.analysis.score;
  const before = tempos.findLast(each => compare(each.onset, range.start) <= 0);
  const inside = tempos.filter(each => isBefore(range.start, each.onset) && isBefore(each.onset, range.end));
  return [...(before === undefined ? [] : [before]), ...inside];
}

const sayTempo = ({ beat, beatsPerMinute }: TempoMark): string => {
  const value = valueOfLength(beat);
  return `${value === undefined ? 'beat' : printNoteValue(value, false)} = ${String(beatsPerMinute)}`;
};

const isTempo = (says: Extract<MarkingSays, { readonly kind: 'tempo' }>, tempo_: TempoMark): boolean =>
  tempo_.beatsPerMinute === says.beatsPerMinute &&
  (says.beat === undefined || compare(lengthOf(says.beat), tempo_.beat) === 0);

const answer = (holds: boolean, reason: string): Finding<Span> => ({
  verdict: holds ? 'holds' : 'fails',
  code: holds ? 'C1621' : 'C1622',
  reason,
  evidence: [],
});

/** Signs in several voices that end at one time are one pause; who counts the signs counts more of them. */
function countFermatas(
  span: Span,
  wanted: number,
  marks: readonly Mark[],
  context: ClaimContext,
): Finding<Span> {
  const { notes } = context.analysis.score;
  const ends = marks.map(each => {
    const held = notes.filter(note => equals(note.onset, each.onset) && note.voice === each.voice);
    return held.map(noteEnd)[0] ?? each.onset;
  });
  const pauses = ends.filter((end, at) => ends.findIndex(other => equals(other, end)) === at).length;
  const fitting = [marks.length, pauses].filter(number => number === wanted).length;
  const said = (number: number): string => `${String(number)} ${number === 1 ? 'fermata' : 'fermatas'}`;
  return {
    verdict: fitting === 2 ? 'holds' : fitting === 1 ? 'arguable' : 'fails',
    code: fitting === 2 ? 'C1621' : fitting === 1 ? 'C1624' : 'C1622',
    reason:
      marks.length === pauses
        ? `${span.name} has ${said(pauses)}`
        : `${span.name} has ${said(pauses)} where the voices pause together, written as ${String(marks.length)} signs`,
    evidence: [],
  };
}

/** Tempo, fermatas and dynamics as the score writes them: claim M3 of the trade as far as signs go; `Andante is 90` is opinion. */
export const markingsFamily = family<Span, MarkingSays>({
  name: 'markings',
  examples: [
    'the piece has a tempo of quarter note = 90',
    'bar 32 has a fermata',
    'bar 23 is marked f',
    'bar 12 has a crescendo',
  ],
  phrases: [
    [have, map(sequence(word('a tempo of'), tempo), ([, says]) => says)],
    [have, fermata],
    [haveNo, fermata],
    [have, hairpin],
    [haveNo, hairpin],
    [be, map(sequence(word('marked'), dynamic), ([, says]) => says)],
  ],
  aspects: [
    [word('tempo', 'tempo mark', 'metronome mark'), be, tempo],
    [word('dynamic', 'dynamic mark', 'dynamics'), be, dynamic],
  ],
  print: (says, form) => {
    switch (says.kind) {
      case 'tempo':
        return `${printHave(form)} a tempo of ${says.beat === undefined ? '' : `${printNoteValue(says.beat, false)} = `}${String(says.beatsPerMinute)}`;
      case 'fermata':
        return says.count === undefined
          ? printHas(form, 'a', 'fermata')
          : `${printHave(form)} ${String(says.count)} ${says.count === 1 ? 'fermata' : 'fermatas'}`;
      case 'hairpin':
        return printHas(form, 'a', says.hairpin);
      case 'dynamic':
        return `${printBe(form)} marked ${says.dynamic}`;
    }
  },
  check: (span, says, context, make): Finding<Span> => {
    switch (says.kind) {
      case 'tempo': {
        const tempos = temposIn(span, context);
        const [first] = tempos;
        if (first === undefined)
          return {
            verdict: 'undecided',
            code: 'C1623',
            reason: 'the score gives no tempo in beats per minute',
            evidence: [],
            pointless: true,
          };
        const beat = valueOfLength(first.beat);
        return {
          ...answer(
            tempos.every(each => isTempo(says, each)),
            `the score says ${tempos.map(sayTempo).join(', then ')}`,
          ),
          instead: () => [
            make({
              kind: 'tempo',
              beatsPerMinute: first.beatsPerMinute,
              ...(beat === undefined ? {} : { beat }),
            }),
          ],
        };
      }
      case 'fermata': {
        const found = marksIn(span, 'fermata', context);
        if (says.count !== undefined)
          return {
            ...countFermatas(span, says.count, found, context),
            instead: () => (found.length === 0 ? [] : [make({ kind: 'fermata', count: found.length })]),
          };
        const [first] = found;
        return answer(
          first !== undefined,
          first === undefined
            ? `no fermata stands in ${span.name}`
            : `a fermata stands in ${sayMoment(first.onset, context)}`,
        );
      }
      case 'hairpin': {
        const [first] = marksIn(span, 'dynamic', context).filter(({ text }) => text.startsWith(says.hairpin));
        return answer(
          first !== undefined,
          first === undefined
            ? `no ${says.hairpin} begins or ends in ${span.name}`
            : `a ${says.hairpin} ${first.text.endsWith(')') ? 'ends' : 'begins'} in ${sayMoment(first.onset, context)}`,
        );
      }
      case 'dynamic': {
        const marked = marksIn(span, 'dynamic', context).filter(({ text }) => /^[pmf]+$/u.test(text));
        const names = [...new Set(marked.map(({ text }) => text))];
        return answer(
          names.includes(says.dynamic),
          names.length === 0
            ? `no dynamic is written in ${span.name}`
            : `${span.name} is marked ${names.join(', ')}`,
        );
      }
    }
  },
});
