import type { Verb } from '../terms/verb.js';
import { equals, midiOf, printPitch, subtract } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { sayMoment } from '../place/say-moment.js';
import { placeName, printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { rangeOf } from '../range-of.js';
import { lineName, lineNoun, printLine } from '../subjects/line-name.js';
import type { LineName } from '../subjects/line-name.js';
import { eventsOf, shiftOf, withinOctave } from '../subjects/events.js';
import type { Event } from '../subjects/events.js';
import type { Span } from '../subjects/span.js';
import { article, withArticle } from '../terms/chord-name.js';
import { intervalName, intervalNumber, printInterval, printNumber } from '../terms/interval-name.js';
import type { IntervalName } from '../terms/interval-name.js';
import { sayLength } from '../terms/note-value.js';
import { be, have, printVerb, verb } from '../terms/verb.js';
import { nothingSounds } from './judged.js';

/** How the copy lies against the model. */
export type Shift =
  | { readonly kind: 'none' }
  /** Every note the same interval away: a real transposition. */
  | { readonly kind: 'interval'; readonly interval: IntervalName; readonly up: boolean }
  /** Every note the same number of steps away, within the key: a tonal transposition. */
  | { readonly kind: 'steps'; readonly steps: number; readonly up: boolean }
  | { readonly kind: 'any' };

export interface RecurrenceSays {
  readonly place: Place;
  readonly shift: Shift;
  /** Only this line is compared. */
  readonly line?: LineName;
  /** The line that is copied, where it is another one. */
  readonly of?: LineName;
  /** Rhythm alone is compared. */
  readonly rhythm?: true;
}

const direction = wordsFor<boolean>([
  [true, 'higher', 'up', 'above'],
  [false, 'lower', 'down', 'below'],
]);
const shifted = (steps: number, up: boolean): Shift =>
  // Octaves are the same in a key and in semitones.
  steps % 7 === 0
    ? { kind: 'interval', interval: { steps, semitones: (12 * steps) / 7 }, up }
    : { kind: 'steps', steps, up };
const distance = choice<(up: boolean) => Shift>(
  map(intervalName, interval => up => ({ kind: 'interval', interval, up })),
  map(intervalNumber, steps => up => shifted(steps, up)),
  map(word('step'), () => up => shifted(1, up)),
);
const aDistance = map(sequence(optional(choice(article, word('one'))), distance), ([, of]) => of);
/** How a copy lies: `a step lower`, `transposed`. */
export const shift: Parser<Shift> = choice(
  map(sequence(quiet(optional(word('but', 'transposed'))), aDistance, direction), ([, of, up]) => of(up)),
  map(
    sequence(quiet(optional(word('transposed'))), direction, quiet(optional(word('by'))), aDistance),
    ([, up, , of]) => of(up),
  ),
  map(word('in transposition', 'transposed'), (): Shift => ({ kind: 'any' })),
);
const inLine = map(sequence(word('in'), lineName), ([, line]) => line);
const complement: Parser<RecurrenceSays> = rule('Recurrence', () =>
  map(
    sequence(
      optional(word('the rhythm of')),
      placeName,
      choice<Pick<RecurrenceSays, 'line' | 'of'> & { readonly moved?: Shift }>(
        map(sequence(optional(shift), optional(inLine)), ([moved, line]) => ({
          ...(moved === undefined ? {} : { moved }),
          ...(line === undefined ? {} : { line }),
        })),
        map(sequence(word('of'), lineName, optional(shift), inLine), ([, of, moved, line]) => ({
          of,
          line,
          ...(moved === undefined ? {} : { moved }),
        })),
      ),
    ),
    ([rhythm, place, { moved, ...lines }]): RecurrenceSays => ({
      place,
      shift: moved ?? { kind: 'none' },
      ...lines,
      ...(rhythm === undefined ? {} : { rhythm: true as const }),
    }),
  ),
);

const isDifferentFrom: Verb = map(
  word('is different from', 'are different from', 'is unlike', 'differs from', 'differ from'),
  () => ({
    negated: true,
  }),
);

/** ` a step lower`, with the space before it. */
export function printShift(of: Shift): string {
  switch (of.kind) {
    case 'none':
      return '';
    case 'any':
      return ' in transposition';
    case 'interval':
      return ` ${withArticle(printInterval(of.interval))} ${of.up ? 'higher' : 'lower'}`;
    case 'steps':
      return ` ${withArticle(printNumber(of.steps).replace(/s$/u, ''))} ${of.up ? 'higher' : 'lower'}`;
  }
}

interface Difference {
  readonly copy: Event | undefined;
  readonly model: Event | undefined;
}

/** A note that returns at its pitch and differs in its length or in where it stands in the bar. */
const isSamePitch = ({ copy, model }: Difference): boolean =>
  copy !== undefined && model !== undefined && midiOf(copy.note.pitch) === midiOf(model.note.pitch);

/** Whether a copied note lies where the shift puts it. */
function lies(moved: IntervalName, wanted: Shift, first: IntervalName): boolean {
  switch (wanted.kind) {
    case 'none':
      return moved.steps === 0 && moved.semitones === 0;
    case 'any':
      return moved.steps === first.steps;
    case 'interval': {
      const sign = wanted.up ? 1 : -1;
      // A voice may take the copy in another octave.
      return (
        withinOctave(moved.steps - sign * wanted.interval.steps, 7) === 0 &&
        withinOctave(moved.semitones - sign * wanted.interval.semitones, 12) === 0
      );
    }
    case 'steps':
      return withinOctave(moved.steps - (wanted.up ? 1 : -1) * wanted.steps, 7) === 0;
  }
}

/** The first places where the copy is not the model; both sorted by time and pitch. */
function differences(
  model: readonly Event[],
  copy: readonly Event[],
  says: RecurrenceSays,
): readonly Difference[] {
  const [firstModel] = model;
  const [firstCopy] = copy;
  if (firstModel === undefined || firstCopy === undefined)
    return model.length === copy.length ? [] : [{ model: firstModel, copy: firstCopy }];
  const first = shiftOf(firstModel.note, firstCopy.note);
  const fits = (a: Event, b: Event): boolean =>
    a.offset === b.offset &&
    a.length === b.length &&
    (says.rhythm === true || lies(shiftOf(a.note, b.note), says.shift, first));
  const left = [...copy];
  const unmatched: Event[] = [];
  for (const event of model) {
    const at = left.findIndex(other => fits(event, other));
    if (at >= 0) left.splice(at, 1);
    else unmatched.push(event);
  }
  return Array.from({ length: Math.max(unmatched.length, left.length) }, (_, at) => ({
    model: unmatched[at],
    copy: left[at],
  }));
}

const say = (event: Event | undefined, withLength: boolean, context: ClaimContext): string =>
  event === undefined
    ? 'no note'
    : `${printPitch(event.note.pitch)}${withLength ? ` (${sayLength(event.note.duration)})` : ''} in ${sayMoment(event.note.onset, context)}`;

/** The hand that may have had the model of what the other plays. */
const otherHandOf = ({ line, of }: RecurrenceSays): readonly LineName[] =>
  line?.kind === 'hand' && of === undefined
    ? [{ kind: 'hand', hand: line.hand === 'right' ? 'left' : 'right' }]
    : [];

/** Exact and transposed return: claims K2 and K3 of the trade. */
export const recurrenceFamily = family<Span, RecurrenceSays>({
  name: 'recurrence',
  examples: [
    'bars 25-27 repeat bars 1-3',
    'bars 19-20 repeat bars 17-18 a second lower',
    'bars 9-10 repeat bars 1-2 in the soprano',
    'bar 10 repeats the rhythm of bar 2',
  ],
  phrases: [
    ...(
      [
        ['repeats', 'repeat'],
        ['restates', 'restate'],
        ['echoes', 'echo'],
        ['recalls', 'recall'],
      ] as const
    ).map(([singular, plural]) => [verb(singular, plural), complement] as const),
    [
      be,
      map(
        sequence(word('the same as', 'identical to', 'identical with', 'equal to', 'like'), complement),
        ([, says]) => says,
      ),
    ],
    [
      be,
      map(
        sequence(
          word(
            'an exact repeat of',
            'a repeat of',
            'an exact repetition of',
            'a repetition of',
            'a restatement of',
            'a return of',
            'a copy of',
          ),
          complement,
        ),
        ([, says]) => says,
      ),
    ],
    [isDifferentFrom, complement],
    [be, map(sequence(placeName, shift), ([place, moved]): RecurrenceSays => ({ place, shift: moved }))],
    [
      be,
      map(sequence(word('a transposition of'), placeName), ([, place]): RecurrenceSays => ({
        place,
        shift: { kind: 'any' },
      })),
    ],
    [
      verb('transposes', 'transpose'),
      map(sequence(placeName, optional(shift)), ([place, moved]): RecurrenceSays => ({
        place,
        shift: moved ?? { kind: 'any' },
      })),
    ],
    [verb('brings back', 'bring back'), complement],
    [
      be,
      map(
        sequence(
          word('a sequential repetition of', 'a sequence of', 'a transposed repetition of'),
          placeName,
        ),
        ([, place]): RecurrenceSays => ({ place, shift: { kind: 'any' } }),
      ),
    ],
    [
      have,
      map(sequence(word('the same rhythm as', 'the rhythm of'), placeName), ([, place]): RecurrenceSays => ({
        place,
        shift: { kind: 'none' },
        rhythm: true,
      })),
    ],
    [
      have,
      map(
        sequence(word('the same'), lineNoun, word('as'), placeName),
        ([, line, , place]): RecurrenceSays => ({ place, shift: { kind: 'none' }, line }),
      ),
    ],
    [
      have,
      map(
        sequence(word('the same notes as', 'the same music as'), placeName),
        ([, place]): RecurrenceSays => ({
          place,
          shift: { kind: 'none' },
        }),
      ),
    ],
  ],
  print: ({ place, shift: moved, line, of, rhythm }, form) =>
    `${printVerb('repeats', 'repeat', form)} ${rhythm ? 'the rhythm of ' : ''}${printPlace(place)}${of === undefined ? '' : ` of ${printLine(of)}`}${printShift(moved)}${line === undefined ? '' : ` in ${printLine(line)}`}`,
  check: (span, says, context, make): Finding<Span> => {
    const model = rangeOf(says.place, context);
    if ('problem' in model) return { ...model.problem, pointless: true };
    const { range } = model;
    const before = eventsOf(range, says.of ?? says.line, context);
    const now = eventsOf(span.range, says.line, context);
    if (before === undefined || now === undefined)
      return {
        verdict: 'undecided',
        code: 'C0006',
        reason: 'the score has no such line',
        evidence: [],
        pointless: true,
      };
    if (before.length === 0 && now.length === 0) return nothingSounds(span.name);
    const silentPlace =
      before.length === 0 ? printPlace(says.place) : now.length === 0 ? span.name : undefined;
    if (silentPlace !== undefined)
      return {
        verdict: 'fails',
        code: 'C1702',
        reason: `${says.line === undefined ? 'every voice' : printLine(before.length === 0 ? (says.of ?? says.line) : says.line)} rests in ${silentPlace}`,
        evidence: [...before, ...now]
          .slice(0, 4)
          .map(({ note }) => noteEvidence('contradicts', note, 'without its like', context)),
        instead: () => otherHandOf(says).map(of => make({ ...says, of })),
      };
    const lengths = [range, span.range].map(({ start, end }) => subtract(end, start));
    const found = differences(before, now, says);
    const [first] = found;
    const [a, b] = lengths;
    if (first === undefined && a !== undefined && b !== undefined && equals(a, b))
      return {
        verdict: 'holds',
        code: 'C1701',
        reason: `all ${String(before.length)} notes return${says.shift.kind === 'none' ? '' : printShift(says.shift)}`,
        evidence: now.slice(0, 4).map(({ note }) => noteEvidence('supports', note, 'returns', context)),
      };
    const near = found.length * 4 <= before.length && says.shift.kind === 'none';
    const [modelFirst] = before;
    const [copyFirst] = now;
    return {
      verdict: 'fails',
      code: near ? 'C1703' : 'C1702',
      reason:
        first === undefined
          ? `${span.name} and ${printPlace(says.place)} are not equally long`
          : `${String(found.length)} of ${String(Math.max(before.length, now.length))} notes differ, the first: ${say(first.copy, isSamePitch(first), context)} for ${say(first.model, isSamePitch(first), context)}`,
      evidence: found
        .slice(0, 4)
        .flatMap(({ model: was, copy }) => [
          ...(was === undefined ? [] : [noteEvidence('missing', was.note, 'does not return', context)]),
          ...(copy === undefined
            ? []
            : [noteEvidence('contradicts', copy.note, 'was not in the model', context)]),
        ]),
      instead: () => {
        if (modelFirst === undefined || copyFirst === undefined) return [];
        const moved = shiftOf(modelFirst.note, copyFirst.note);
        const interval = { steps: Math.abs(moved.steps), semitones: Math.abs(moved.semitones) };
        const up = moved.steps > 0;
        return [
          make({ ...says, shift: { kind: 'none' } }),
          ...(interval.steps === 0
            ? []
            : [
                make({ ...says, shift: { kind: 'interval', interval, up } }),
                make({ ...says, shift: { kind: 'steps', steps: interval.steps, up } }),
              ]),
          make({ ...says, shift: { kind: 'none' }, line: { kind: 'part', part: 'soprano' } }),
          make({ ...says, shift: { kind: 'none' }, rhythm: true }),
        ];
      },
    };
  },
});
