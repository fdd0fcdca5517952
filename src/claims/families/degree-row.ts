import { midiOf, pitchClassOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, list, map, mark, nothing, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { segmentsIn } from '../segments.js';
import { isStep, stepBetween } from '../subjects/line-steps.js';
import type { Line } from '../subjects/line.js';
import { degreeName, lineDegree, printDegree, printLineDegree, toneOfDegree } from '../terms/degree.js';
import type { DegreeName } from '../terms/degree.js';
import { have, printVerb, verb } from '../terms/verb.js';
import { nothingSounds } from './judged.js';
import { risingAndFalling, upOrDown } from './line-way.js';

/** Degrees that a line goes through one behind the other, somewhere in its place. */
export interface DegreeRowSays {
  readonly degrees: readonly DegreeName[];
  readonly up?: boolean;
  /** Further than a step. */
  readonly leap?: true;
  /** Said as `from the dominant to the tonic`. */
  readonly named?: true;
}
/** `from the dominant to the tonic`. */
const fromDegree: Parser<readonly DegreeName[]> = map(
  sequence(word('from'), degreeName, word('to'), degreeName),
  ([, first, , second]) => [first, second],
);

const arrow = quiet(
  choice(
    map(mark('-', '–', '→', ','), () => undefined),
    map(word('to', 'and'), () => undefined),
    nothing(undefined),
  ),
);
const row: Parser<readonly DegreeName[]> = map(
  sequence(lineDegree, arrow, list(lineDegree, arrow)),
  ([first, , others]) => [first, ...others],
);
const through = quiet(
  optional(word('through scale degrees', 'through degrees', 'through', 'scale degrees', 'degrees')),
);
const going = (up: boolean): Parser<DegreeRowSays> =>
  map(sequence(through, row), ([, degrees]) => ({ degrees, up }));

const isLeap = (a: Note, b: Note): boolean => {
  const step = stepBetween(a, b);
  return step !== undefined && !isStep(step);
};

/** Rows of degrees: claims A5 and I1 of the trade. */
export const degreeRowFamily = family<Line, DegreeRowSays>({
  name: 'row of degrees',
  examples: ['the soprano of bar 1 falls through 3 2 1', 'the soprano of bars 1-2 has the degrees 3 2 1'],
  phrases: [
    ...risingAndFalling.map(([singular, plural, up]) => [verb(singular, plural), going(up)] as const),
    [
      have,
      map(
        sequence(word('the degrees', 'scale degrees', 'the scale degrees', 'degrees'), row),
        ([, degrees]): DegreeRowSays => ({ degrees }),
      ),
    ],
    ...(
      [
        ['leaps', 'leap', { leap: true }],
        ['jumps', 'jump', { leap: true }],
        ['moves', 'move', {}],
        ['goes', 'go', {}],
        ['steps', 'step', {}],
        ['rises', 'rise', { up: true }],
        ['falls', 'fall', { up: false }],
        ['drops', 'drop', { up: false }],
        ['descends', 'descend', { up: false }],
      ] as const
    ).map(
      ([singular, plural, how]) =>
        [
          verb(singular, plural),
          map(sequence(optional(upOrDown), fromDegree), ([up, degrees]): DegreeRowSays => ({
            degrees,
            ...how,
            ...(up === undefined ? {} : { up }),
            named: true,
          })),
        ] as const,
    ),
  ],
  print: ({ degrees, up, leap, named }, form) => {
    if (named === true) {
      const ends = degrees.map(printDegree).join(' to ');
      const way = up === undefined ? '' : up ? ' up' : ' down';
      return `${leap === true ? printVerb('leaps', 'leap', form) : printVerb('moves', 'move', form)}${way} from ${ends}`;
    }
    const listed = degrees.map(printLineDegree).join(' ');
    if (up === undefined) return `${printVerb('has', 'have', form)} the degrees ${listed}`;
    return `${up ? printVerb('rises', 'rise', form) : printVerb('falls', 'fall', form)} through ${listed}`;
  },
  check: ({ notes, name, span }, { degrees, up, leap }, context): Finding<Line> => {
    const all = notes.map(({ note }) => note);
    const sounding = all.filter(
      (note, at) => at === 0 || midiOf(note.pitch) !== midiOf(all[at - 1]?.pitch ?? note.pitch),
    );
    if (sounding.length === 0) return nothingSounds(name);
    const keys = [segmentsIn(context.analysis, span.range)[0]?.key ?? context.home, context.home];
    const isRow = (part: readonly Note[]): boolean =>
      part.length === degrees.length &&
      keys.some(key =>
        part.every((note, at) => {
          const degree = degrees[at];
          return degree !== undefined && toneOfDegree(degree, key) === pitchClassOf(note.pitch);
        }),
      ) &&
      (leap !== true || part.every((note, at) => at === 0 || isLeap(part[at - 1] ?? note, note))) &&
      (up === undefined ||
        part.every((note, at) => {
          const before = part[at - 1];
          return before === undefined || midiOf(note.pitch) > midiOf(before.pitch) === up;
        }));
    const found = sounding.map((_, at) => sounding.slice(at, at + degrees.length)).find(isRow);
    const shown = found ?? sounding;
    return {
      verdict: found === undefined ? 'fails' : 'holds',
      code: found === undefined ? 'C1102' : 'C1101',
      reason: `${name} goes ${shown
        .slice(0, 16)
        .map(({ pitch }) => printPitch(pitch))
        .join(' ')}`,
      evidence: shown
        .slice(0, 16)
        .map(note =>
          noteEvidence(found === undefined ? 'contradicts' : 'supports', note, 'a note of the line', context),
        ),
    };
  },
});
