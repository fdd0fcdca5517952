import { equals, toNumber } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, list, map, mark, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import type { Line } from '../subjects/line.js';
import { lengthOf, noteValue, printNoteValue, sayLength } from '../terms/note-value.js';
import type { NoteValue } from '../terms/note-value.js';
import { be, have, printBe, printVerb, verb } from '../terms/verb.js';
import { nothingSounds } from './judged.js';

/** Note values in which a line moves: throughout, or for the most part. */
export interface PrevailingSays {
  /** `in`: throughout, where a few other notes do not matter. */
  readonly how: 'only' | 'mostly' | 'in';
  /** Triplets have no value of their own: three of them stand for two notes. */
  readonly values: readonly (NoteValue | 'triplets')[];
}

const next = quiet(
  choice(
    map(sequence(mark(','), optional(word('and', 'or'))), () => undefined),
    map(word('and', 'or'), () => undefined),
  ),
);
const value: Parser<PrevailingSays['values'][number]> = choice<PrevailingSays['values'][number]>(
  noteValue,
  map(word('triplets', 'triplet quavers', 'quaver triplets', 'eighth-note triplets'), () => 'triplets'),
);
const values = list(value, next);
const several: Parser<PrevailingSays['values']> = map(
  sequence(value, next, list(value, next)),
  ([first, , others]) => [first, ...others],
);
const mostly = word(
  'mostly',
  'mainly',
  'largely',
  'predominantly',
  'chiefly',
  'almost entirely',
  'mostly only',
);
const only = word('only', 'nothing but', 'entirely', 'exclusively', 'solely', 'throughout', 'all');
const preposition = quiet(optional(word('in')));
const inMostly: Parser<PrevailingSays> = map(sequence(mostly, preposition, values), ([, , of]) => ({
  how: 'mostly',
  values: of,
}));
/** Of a single value other words say so: `has only crotchets`. */
const inOnly: Parser<PrevailingSays> = map(sequence(only, preposition, values), ([, , of]) => ({
  how: 'only',
  values: of,
}));
const inValues: Parser<PrevailingSays> = map(sequence(word('in'), values), ([, of]) => ({
  how: 'in',
  values: of,
}));

const isTriplet = ({ duration }: Note): boolean => duration.d % 3 === 0;
const isOf = (note: Note, of: PrevailingSays['values'][number]): boolean =>
  of === 'triplets' ? isTriplet(note) : equals(note.duration, lengthOf(of));
const said = (of: PrevailingSays['values']): string => {
  const names = of.map(each => (each === 'triplets' ? each : printNoteValue(each)));
  const last = names.at(-1) ?? '';
  return names.length > 1 ? `${names.slice(0, -1).join(', ')} and ${last}` : last;
};

/** The usual motion of a line: claim M3 of the trade. */
export const prevailingValuesFamily = family<Line, PrevailingSays>({
  name: 'prevailing note values',
  examples: [
    'the left hand of bars 1-4 moves mostly in quarter notes',
    'the soprano of bars 9-10 moves only in quarter notes and half notes',
  ],
  phrases: [
    ...(['moves', 'goes', 'runs', 'plays', 'proceeds'] as const).flatMap(each => {
      const of = verb(each, each === 'goes' ? 'go' : each.slice(0, -1));
      return [[of, inMostly] as const, [of, inOnly] as const];
    }),
    [be, inMostly],
    [be, inOnly],
    [be, inValues],
    ...(['moves', 'runs', 'goes', 'proceeds'] as const).map(
      each => [verb(each, each === 'goes' ? 'go' : each.slice(0, -1)), inValues] as const,
    ),
    [verb('plays', 'play'), map(values, (of): PrevailingSays => ({ how: 'in', values: of }))],
    [have, inMostly],
    [have, map(sequence(only, several), ([, of]): PrevailingSays => ({ how: 'only', values: of }))],
  ],
  print: ({ how, values: of }, form) =>
    how === 'in'
      ? `${printBe(form)} in ${said(of)}`
      : `${printVerb('moves', 'move', form)} ${how} in ${said(of)}`,
  check: ({ notes, name }, { how, values: of }, context: ClaimContext, make): Finding<Line> => {
    const heads = notes.map(({ note }) => note).filter(note => !note.grace);
    const fitting = heads.filter(note => of.some(each => isOf(note, each)));
    const others = heads.filter(note => !fitting.includes(note));
    const [other] = others;
    if (heads.length === 0) return nothingSounds(name);
    // A long note may count for more than a short one.
    const weights = [({ duration }: Note): number => toNumber(duration), (): number => 1];
    const most = weights.map(weight => {
      const all = (of_: readonly Note[]): number => of_.reduce((sum, note) => sum + weight(note), 0);
      return 2 * all(fitting) > all(heads);
    });
    const nearly = 4 * others.length <= heads.length;
    const holds = how === 'mostly' ? most.every(Boolean) : other === undefined;
    const doubtful = how === 'mostly' ? most.some(Boolean) : how === 'in' && nearly;
    return {
      verdict: holds ? 'holds' : doubtful ? 'arguable' : 'fails',
      code: holds ? 'C1611' : doubtful ? 'C1614' : 'C1612',
      reason: `${String(fitting.length)} of ${String(heads.length)} notes of ${name} are ${said(of)}${other === undefined ? '' : `; another is ${sayLength(other.duration)}`}`,
      evidence: (holds ? fitting : others)
        .slice(0, 8)
        .map(note =>
          noteEvidence(holds ? 'supports' : 'contradicts', note, sayLength(note.duration), context),
        ),
      instead: () => [make({ how: 'mostly', values: of })],
    };
  },
});
