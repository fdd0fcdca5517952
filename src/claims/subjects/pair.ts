import type { Note } from '../../score/index.js';
import { compare, equals, isBefore } from '../../score/index.js';
import type { Fraction } from '../../score/index.js';
import type { Subject } from '../claim.js';
import { choice, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, before, placeName, printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { lineSubject } from './line.js';
import { lineName, printLine } from './line-name.js';
import type { LineName } from './line-name.js';
import type { LineNote } from './line-notes.js';
import type { Span } from './span.js';
import { subjectAt } from './subject-at.js';

/** Two notes of two lines that sound together, from `start` to `end`. */
export interface Together {
  readonly upper: Note;
  readonly lower: Note;
  readonly start: Fraction;
  readonly end: Fraction;
}

/** Two lines over a stretch of the score. The one that is named first is `upper`, wherever it lies. */
export interface Pair {
  readonly span: Span;
  readonly upper: readonly LineNote[];
  readonly lower: readonly LineNote[];
  readonly name: string;
}

/** The notes of two lines as they sound together, in time order; one entry for each change of either. */
export function together(upper: readonly LineNote[], lower: readonly LineNote[]): readonly Together[] {
  const found: Together[] = [];
  const hasEnded = (note: LineNote | undefined, by: Fraction): boolean =>
    note !== undefined && !isBefore(by, note.end);
  // What has ended when one note begins has ended for all that begin later.
  let first = 0;
  for (const above of upper) {
    while (hasEnded(lower[first], above.start)) first++;
    for (let at = first; at < lower.length; at++) {
      const below = lower[at];
      if (below === undefined || !isBefore(below.start, above.end)) break;
      if (hasEnded(below, above.start)) continue;
      const start = isBefore(above.start, below.start) ? below.start : above.start;
      const end = isBefore(above.end, below.end) ? above.end : below.end;
      found.push({ upper: above.note, lower: below.note, start, end });
    }
  }
  return found.sort((a, b) => compare(a.start, b.start));
}

/** A change from one sounding pair to the next without a rest between. */
export interface Move {
  readonly from: Together;
  readonly to: Together;
}

/** All changes in which at least one line takes another note, repeated notes left out. */
export function movesOf(pairs: readonly Together[]): readonly Move[] {
  return pairs.flatMap((to, at) => {
    const from = pairs[at - 1];
    if (from === undefined || !equals(from.end, to.start)) return [];
    return [{ from, to }];
  });
}

export const pairSubject = (first: LineName, second: LineName, place: Place): Subject<Pair> => {
  const print = (): string => `${printLine(first)} and ${printLine(second)} of ${printPlace(place)}`;
  return subjectAt<Pair>({
    content: { lines: [first, second], place },
    plural: true,
    print,
    place,
    again: other => pairSubject(first, second, other),
    find: (whole, context) => {
      const [above, below] = [first, second].map(line => lineSubject(line, place).resolve(context));
      if (above?.kind === 'none') return above;
      if (below?.kind === 'none') return below;
      if (above?.kind !== 'found' || below?.kind !== 'found')
        throw new Error('both lines are found where their place is');
      return {
        kind: 'found',
        subject: {
          span: whole,
          upper: above.subject.notes,
          lower: below.subject.notes,
          name: print(),
        },
      };
    },
  });
};

/** `the soprano and the bass`, `the outer voices`: the upper one first. */
export const twoLines: Parser<readonly [LineName, LineName]> = rule('TwoLines', () =>
  choice(
    map(sequence(lineName, word('and'), lineName), ([first, , second]) => [first, second] as const),
    map(
      sequence(
        quiet(optional(word('the'))),
        word('outer voices', 'outer parts', 'outer lines', 'two voices', 'two parts', 'two lines'),
      ),
      () => [{ kind: 'edge', edge: 'top' } as const, { kind: 'edge', edge: 'bottom' } as const],
    ),
    map(word('the hands', 'both hands', 'the two hands'), () => [
      { kind: 'hand', hand: 'right' } as const,
      { kind: 'hand', hand: 'left' } as const,
    ]),
  ),
);

/** `the soprano and the bass of bar 3`, `in bar 3 the soprano and the bass`. */
export const pairSubjectName: Parser<Subject<Pair>> = choice(
  map(
    sequence(quiet(optional(word('the interval between'))), twoLines, at, placeName),
    ([, [first, second], , place]) => pairSubject(first, second, place),
  ),
  map(sequence(before, twoLines), ([place, [first, second]]) => pairSubject(first, second, place)),
);
