import { add, compare, divide, equals, fraction, isBefore, multiply, subtract } from '../../score/index.js';
import type { Fraction, Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, list, map, mark, nothing, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { barAt, beatUnitOf, endOf } from '../place/beats.js';
import { isTernary, weakness } from '../place/weight.js';
import { soundEnd, soundingIn } from '../subjects/sounding.js';
import type { Line } from '../subjects/line.js';
import type { Span } from '../subjects/span.js';
import { article, articleOf, withArticle } from '../terms/chord-name.js';
import {
  bareNoteValue,
  lengthOf,
  noteValue,
  printNoteValue,
  sayLength,
  valueOfLength,
} from '../terms/note-value.js';
import type { NoteValue } from '../terms/note-value.js';
import { count } from '../terms/number.js';
import { be, have, haveNo, printHas, printHave, verb } from '../terms/verb.js';
import type { VerbForm } from '../terms/verb.js';
import { nothingSounds } from './judged.js';

/** What note values a place has, and how its notes lie against the beat. */
export type RhythmSays =
  | { readonly kind: 'value'; readonly only: boolean; readonly value: NoteValue }
  | { readonly kind: 'count'; readonly count: number; readonly value: NoteValue }
  /** The values of the notes of a line in their order. */
  | { readonly kind: 'pattern'; readonly values: readonly NoteValue[] }
  | { readonly kind: 'triplets' | 'syncopation' | 'hemiola' | 'dotted rhythm' };

const complement: Parser<RhythmSays> = choice(
  map(sequence(word('only', 'nothing but'), noteValue), ([, value]): RhythmSays => ({
    kind: 'value',
    only: true,
    value,
  })),
  map(sequence(optional(article), noteValue), ([, value]): RhythmSays => ({
    kind: 'value',
    only: false,
    value,
  })),
  map(sequence(count, noteValue), ([number, value]): RhythmSays => ({ kind: 'count', count: number, value })),
  map(word('triplets', 'a triplet'), (): RhythmSays => ({ kind: 'triplets' })),
  map(word('a syncopation', 'syncopation', 'syncopations'), (): RhythmSays => ({ kind: 'syncopation' })),
  map(word('a hemiola', 'hemiola'), (): RhythmSays => ({ kind: 'hemiola' })),
  map(
    word('a dotted rhythm', 'dotted rhythms', 'dotted rhythm', 'a dotted note', 'dotted notes'),
    (): RhythmSays => ({
      kind: 'dotted rhythm',
    }),
  ),
);
const nextValue = quiet(
  choice(
    map(mark(',', '-', '–'), () => undefined),
    map(word('and', 'then'), () => undefined),
    map(sequence(mark(','), word('and', 'then')), () => undefined),
    nothing(undefined),
  ),
);
/** `the rhythm dotted quarter, eighth, quarter`. */
const pattern: Parser<RhythmSays> = map(
  sequence(
    word('the rhythm'),
    quiet(optional(mark(':'))),
    list(
      map(sequence(quiet(optional(article)), choice(noteValue, bareNoteValue)), ([, value]) => value),
      nextValue,
    ),
  ),
  ([, , values]) => ({ kind: 'pattern', values }),
);

function print(says: RhythmSays, form: VerbForm): string {
  switch (says.kind) {
    case 'value': {
      if (says.only) return `${printHave(form)} only ${printNoteValue(says.value)}`;
      const name = printNoteValue(says.value, false);
      return printHas(form, articleOf(name), name);
    }
    case 'count':
      return `${printHave(form)} ${String(says.count)} ${printNoteValue(says.value, says.count !== 1)}`;
    case 'pattern':
      return `${printHave(form)} the rhythm ${says.values.map(value => printNoteValue(value, false)).join(', ')}`;
    case 'triplets':
      return printHas(form, '', 'triplets');
    case 'syncopation':
    case 'hemiola':
    case 'dotted rhythm':
      return printHas(form, 'a', says.kind);
  }
}

/** The parts of a beat that a note within it is counted by: of a triplet, or of a duplet in compound metre, the beats alone. */
function partOf(unit: Fraction, position: Fraction): Fraction {
  const isOfThirds = position.d % 3 === 0;
  if (isTernary(unit)) return isOfThirds ? multiply(unit, fraction(1, 3)) : unit;
  return isOfThirds ? unit : multiply(unit, fraction(1, 2));
}

/** A note that begins on a weaker place than one over which it is held. */
function isSyncopated(note: Note, context: ClaimContext): boolean {
  const { score } = context.analysis;
  const bar = barAt(score, note.onset);
  if (bar === undefined || note.tiedFrom !== undefined) return false;
  const own = weakness(bar, note.onset, context.beatUnit);
  const end = soundEnd(note, score);
  const unit = beatUnitOf(bar.meter, context.beatUnit);
  const start = subtract(note.onset, subtract(bar.start, bar.startsAt));
  const step = own > 2 ? partOf(unit, divide(start, unit)) : unit;
  // The next place of the grid of beats (or half beats) after the onset.
  const index = Math.floor((start.n * step.d) / (start.d * step.n)) + 1;
  for (let at = index; at < index + 32; at++) {
    const moment = add(subtract(bar.start, bar.startsAt), multiply(step, fraction(at)));
    if (!isBefore(moment, end)) return false;
    const there = barAt(score, moment);
    if (
      there !== undefined &&
      isBefore(moment, endOf(there)) &&
      weakness(there, moment, context.beatUnit) < own
    )
      return true;
  }
  return false;
}

/** Two bars of triple metre struck every two beats: three groups where two bars lie. */
function hemiolas(notes: readonly Note[], span: Span, context: ClaimContext): readonly Note[] {
  const { bars } = context.analysis.score;
  const struck = notes.filter(note => note.tiedFrom === undefined && !note.grace);
  return bars.flatMap((bar, at) => {
    const next = bars[at + 1];
    const unit = beatUnitOf(bar.meter, undefined);
    if (
      next === undefined ||
      !equals(divide(bar.meter.length, unit), fraction(3)) ||
      !equals(bar.length, bar.meter.length)
    )
      return [];
    if (isBefore(bar.start, span.range.start) || compare(endOf(next), span.range.end) > 0) return [];
    const beat = (number: number): Fraction => add(bar.start, multiply(unit, fraction(number)));
    const at2 = [0, 2, 4].map(number => struck.find(note => equals(note.onset, beat(number))));
    const barLine = struck.some(note => equals(note.onset, beat(3)));
    const found = at2.flatMap(note => note ?? []);
    return !barLine && found.length === 3 ? found : [];
  });
}

const isTriplet = ({ duration }: Note): boolean => duration.d % 3 === 0;

function check(
  notes: readonly Note[],
  says: Exclude<RhythmSays, { readonly kind: 'count' }>,
  span: Span,
  context: ClaimContext,
): { readonly holds: boolean; readonly notes: readonly Note[]; readonly reason: string } {
  const struck = notes.filter(note => note.tiedFrom === undefined && !note.grace);
  switch (says.kind) {
    case 'value': {
      const wanted = lengthOf(says.value);
      const written = notes.filter(note => !note.grace);
      const matching = written.filter(note => equals(note.duration, wanted));
      const others = written.filter(note => !equals(note.duration, wanted));
      const [other] = others;
      if (!says.only)
        return {
          holds: matching.length > 0,
          notes: matching.length > 0 ? matching : others.slice(0, 4),
          reason:
            matching.length > 0
              ? `${String(matching.length)} of the notes are ${printNoteValue(says.value)}`
              : `no note of ${span.name} is ${withArticle(printNoteValue(says.value, false))}`,
        };
      return {
        holds: other === undefined && written.length > 0,
        notes: other === undefined ? matching : others,
        reason:
          other === undefined
            ? `all notes are ${printNoteValue(says.value)}`
            : `${String(others.length)} of ${String(written.length)} notes are of another value, the first ${withArticle(sayLength(other.duration))}`,
      };
    }
    case 'pattern': {
      const written = notes.filter(note => !note.grace && compare(span.range.start, note.onset) <= 0);
      const holds =
        written.length === says.values.length &&
        written.every((note, at) => {
          const value = says.values[at];
          return value !== undefined && equals(note.duration, lengthOf(value));
        });
      return {
        holds,
        notes: written,
        reason: `the notes are ${written
          .slice(0, 12)
          .map(note => sayLength(note.duration))
          .join(', ')}`,
      };
    }
    case 'dotted rhythm': {
      const found = notes.filter(note => !note.grace && (valueOfLength(note.duration)?.dots ?? 0) > 0);
      return {
        holds: found.length > 0,
        notes: found,
        reason: found.length > 0 ? `${String(found.length)} of the notes are dotted` : 'no note is dotted',
      };
    }
    case 'triplets': {
      const found = struck.filter(isTriplet);
      return {
        holds: found.length > 0,
        notes: found,
        reason: found.length > 0 ? 'notes of a third of a beat sound' : 'no note divides by three',
      };
    }
    case 'syncopation': {
      const found = struck.filter(note => isSyncopated(note, context));
      return {
        holds: found.length > 0,
        notes: found,
        reason:
          found.length > 0
            ? 'a note begins on a weak place and is held over a stronger one'
            : 'no note is held over a place that is stronger than the one where it begins',
      };
    }
    case 'hemiola': {
      const found = hemiolas(notes, span, context);
      return {
        holds: found.length > 0,
        notes: found,
        reason:
          found.length > 0
            ? 'two bars are struck in three groups of two beats'
            : 'no two bars are struck in three groups of two beats',
      };
    }
  }
}

/** The notes of a value that are written in a place; a tie makes one more. */
const ofValue = (notes: readonly Note[], value: NoteValue, { range }: Span): readonly Note[] =>
  notes.filter(
    note => !note.grace && equals(note.duration, lengthOf(value)) && compare(range.start, note.onset) <= 0,
  );

/** How many they are where a chord counts as one, and where each of its notes counts. */
function countsOf(notes: readonly Note[]): readonly [chords: number, heads: number] {
  const first = notes.filter(
    (note, at) =>
      !notes.slice(0, at).some(other => other.voice === note.voice && equals(other.onset, note.onset)),
  );
  return [first.length, notes.length];
}

/** A number that is true by one way of counting chords and not by the other is arguable. */
function checkCount<S>(
  notes: readonly Note[],
  says: Extract<RhythmSays, { readonly kind: 'count' }>,
  { name, span }: Placed,
  context: ClaimContext,
): Finding<S> {
  const found = ofValue(notes, says.value, span);
  const [chords, heads] = countsOf(found);
  const fitting = [chords, heads].filter(number => number === says.count).length;
  const counted = (number: number): string => `${String(number)} ${printNoteValue(says.value, number !== 1)}`;
  return {
    verdict: fitting === 2 ? 'holds' : fitting === 1 ? 'arguable' : 'fails',
    code: fitting === 2 ? 'C1611' : fitting === 1 ? 'C1613' : 'C1612',
    reason:
      heads === chords
        ? `${name} has ${counted(heads)}`
        : `${name} has ${counted(chords)} where a chord counts as one, ${String(heads)} where each of its notes counts`,
    evidence: found
      .slice(0, 8)
      .map(note =>
        noteEvidence(fitting > 0 ? 'supports' : 'contradicts', note, sayLength(note.duration), context),
      ),
  };
}

interface Placed {
  readonly span: Span;
  readonly name: string;
}

function finding<S>(
  placed: Placed,
  notes: readonly Note[],
  says: RhythmSays,
  context: ClaimContext,
): Finding<S> {
  if (notes.length === 0) return nothingSounds(placed.name);
  if (says.kind === 'count') return checkCount(notes, says, placed, context);
  const { holds, notes: decisive, reason } = check(notes, says, placed.span, context);
  return {
    verdict: holds ? 'holds' : 'fails',
    code: holds ? 'C1611' : 'C1612',
    reason,
    evidence: decisive
      .slice(0, 8)
      .map(note => noteEvidence(holds ? 'supports' : 'contradicts', note, sayLength(note.duration), context)),
  };
}

const onlyValue = map(noteValue, (value): RhythmSays => ({ kind: 'value', only: true, value }));
const phrases = [
  [have, complement],
  [haveNo, complement],
  [be, map(word('syncopated'), (): RhythmSays => ({ kind: 'syncopation' }))],
  [be, map(sequence(word('all', 'only', 'nothing but'), onlyValue), ([, says]) => says)],
  [be, map(sequence(article, onlyValue), ([, says]) => says)],
  [verb('consists of', 'consist of'), onlyValue],
] as const;

/** What a place does in a value. Of a line it is said less strictly, see prevailing-values.ts. */
const doings = [
  [verb('moves in', 'move in'), onlyValue],
  [verb('plays', 'play'), map(sequence(quiet(optional(word('only'))), onlyValue), ([, says]) => says)],
  [verb('runs in', 'run in'), onlyValue],
] as const;

const valuesOf = (notes: readonly Note[]): readonly RhythmSays[] => {
  const values = notes.flatMap(note => valueOfLength(note.duration) ?? []);
  const [first] = values;
  return first === undefined
    ? []
    : [
        { kind: 'value', only: true, value: first },
        { kind: 'value', only: false, value: first },
      ];
};

/** Which values there are says nothing of a syncopation. */
function instead(says: RhythmSays, notes: readonly Note[], span: Span): readonly RhythmSays[] {
  if (says.kind === 'value') return valuesOf(notes);
  return says.kind === 'count'
    ? countsOf(ofValue(notes, says.value, span)).map(count_ => ({ ...says, count: count_ }))
    : [];
}

/** Note values, triplets, syncopation, hemiola: claims M3 and M4 of the trade, for a place. */
export const rhythmFamily = family<Span, RhythmSays>({
  name: 'rhythm',
  examples: ['bars 1-4 have only eighth notes', 'bar 3 has a syncopation', 'bars 5-6 have a hemiola'],
  phrases: [...phrases, ...doings],
  print,
  check: (span, says, context, make) => {
    const notes = soundingIn(context.analysis.score, span.range);
    return {
      ...finding<Span>({ span, name: span.name }, notes, says, context),
      instead: () => instead(says, notes, span).map(make),
    };
  },
});

/** The same for one line. */
export const lineRhythmFamily = family<Line, RhythmSays>({
  name: 'rhythm of a line',
  examples: [
    'the soprano of bar 1 has only quarter notes',
    'the soprano of bar 1 has the rhythm dotted quarter note, eighth note, quarter note',
  ],
  phrases: [
    ...phrases,
    [verb('plays', 'play'), map(sequence(word('only'), onlyValue), ([, says]) => says)],
    [have, pattern],
  ],
  print,
  check: ({ span, notes, name }, says, context, make) => {
    const heads = notes.map(({ note }) => note);
    return {
      ...finding<Line>({ span, name }, heads, says, context),
      instead: () => instead(says, heads, span).map(make),
    };
  },
});
