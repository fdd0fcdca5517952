import { add, compare, isBefore, midiOf } from '../../score/index.js';
import { hasProgression, sequenceEnd, sequenceIn } from '../../harmony/index.js';
import type { Sequence } from '../../harmony/index.js';
import type { Claim, Finding, Predicate } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { endOf } from '../place/beats.js';
import { statement } from '../statement.js';
import { soundingIn } from '../subjects/sounding.js';
import { span as spanOf } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { article, withArticle } from '../terms/chord-name.js';
import { intervalNumber, intervalSize, printInterval, printNumber } from '../terms/interval-name.js';
import type { IntervalSize } from '../terms/interval-name.js';
import { count } from '../terms/number.js';
import { be, have, printBe, verb } from '../terms/verb.js';
import { covers, liesIn } from '../segments.js';
import { silence } from './judged.js';

/** A model repeated on other steps. */
export interface SequenceSays {
  readonly up?: boolean;
  /** Steps from one statement to the next, without direction. */
  readonly steps?: number;
  /** The same in semitones, where it is said: `by a tone`. It is measured in the bass. */
  readonly semitones?: number;
  /** A half step was said. */
  readonly ofAnyLetters?: true;
  readonly statements?: number;
  readonly kind?: 'real' | 'tonal';
}

const directions = wordsFor<boolean>([
  [true, 'rising', 'ascending'],
  [false, 'falling', 'descending'],
]);
const kinds = wordsFor<'real' | 'tonal'>([
  ['real', 'real'],
  ['tonal', 'tonal', 'diatonic'],
]);

/** `seconds`, `step`, `a tone`. */
const size = choice<IntervalSize>(
  map(intervalNumber, steps => ({ steps })),
  map(word('step', 'steps', 'a step'), () => ({ steps: 1 })),
  map(sequence(quiet(optional(article)), intervalSize), ([, of]) => of),
);
const by = map(sequence(word('by', 'in'), size), ([, of]) => of);
/** After a verb that says which way: `falls by a tone`. */
const inDirection = (up: boolean): Parser<SequenceSays> =>
  map(optional(by), (of): SequenceSays => ({ up, ...of }));
export const aSequence: Parser<SequenceSays> = rule(
  'Sequence',
  () =>
    map(
      sequence(
        optional(article),
        optional(kinds),
        optional(directions),
        word('sequence'),
        optional(directions),
        optional(by),
        optional(
          map(sequence(word('of', 'with'), count, word('statements', 'statement')), ([, number]) => number),
        ),
      ),
      ([, kind, before, , after, of, statements]): SequenceSays => ({
        ...(kind === undefined ? {} : { kind }),
        ...((before ?? after) === undefined ? {} : { up: before ?? after === true }),
        ...of,
        ...(statements === undefined ? {} : { statements }),
      }),
    ),
  'a sequence such as `a falling sequence by seconds`',
);

export const describe = ({ up, steps, semitones, statements, kind, ...letters }: SequenceSays): string =>
  [
    'a',
    kind,
    up === undefined ? undefined : up ? 'rising' : 'falling',
    'sequence',
    steps === undefined
      ? undefined
      : `by ${semitones === undefined ? printNumber(steps) : withArticle(printInterval({ steps, semitones, ...letters }))}`,
    statements === undefined ? undefined : `of ${String(statements)} statements`,
  ]
    .filter(each => each !== undefined)
    .join(' ');

const rangeOf = (found: Sequence): Range => ({ start: found.start, end: sequenceEnd(found) });

export const saysOf = (found: Sequence): SequenceSays => ({
  up: found.step > 0,
  steps: Math.abs(found.step),
  statements: found.statements,
  kind: found.real ? 'real' : 'tonal',
});

/** Whether a sequence begins with a place and leaves a bar of it or less: the goal that it leads to. */
function isGoalAfter(found: Range, asked: Range, { analysis }: ClaimContext): boolean {
  const last = analysis.score.bars.findLast(bar => isBefore(bar.start, asked.end));
  return (
    last !== undefined &&
    compare(found.start, asked.start) === 0 &&
    isBefore(found.end, asked.end) &&
    compare(last.start, found.end) <= 0
  );
}

/** What is true of the bars that a sequence fills, where it fills whole bars. */
function statementsOf(
  found: Sequence,
  { analysis }: ClaimContext,
  make: (says: SequenceSays) => Predicate<Span>,
): readonly Claim[] {
  const { start, end } = rangeOf(found);
  const bars = analysis.score.bars.filter(bar => liesIn(bar.start, { start, end }));
  const [first] = bars;
  const last = bars.at(-1);
  if (first === undefined || last === undefined || first === last) return [];
  if (compare(first.start, start) !== 0 || compare(endOf(last), end) !== 0) return [];
  const place = { kind: 'bars', first: first.label, last: last.label } as const;
  return [statement(spanOf(place), make({ up: found.step > 0, steps: Math.abs(found.step) }))];
}

/** `semitones`: from the bass of one statement to that of the next. */
export function misfit(
  found: Sequence,
  says: SequenceSays,
  semitones: number | undefined,
): string | undefined {
  const own = saysOf(found);
  if (says.up !== undefined && says.up !== own.up) return `it is ${own.up ? 'rising' : 'falling'}`;
  if (says.steps !== undefined && says.steps !== own.steps)
    return `it goes by ${printNumber(own.steps ?? 0)}`;
  if (says.semitones !== undefined && says.semitones !== semitones)
    return semitones === undefined
      ? 'its bass rests where a statement begins'
      : `its bass goes by ${withArticle(printInterval({ steps: own.steps ?? 0, semitones }))}`;
  if (says.statements !== undefined && says.statements !== own.statements)
    return `it has ${String(own.statements)} statements, the model counted with them`;
  if (says.kind !== undefined && says.kind !== own.kind)
    return own.kind === 'real'
      ? 'it is real: every interval is kept'
      : 'it is tonal: intervals change so that it stays in the key';
  return undefined;
}

/** Sequences: claim H1 of the trade. */
export const sequenceFamily = family<Span, SequenceSays>({
  name: 'sequence',
  examples: ['bars 17-20 are a falling sequence by seconds', 'bars 17-20 are a sequence of 2 statements'],
  phrases: [
    [be, aSequence],
    [have, aSequence],
    [verb('forms', 'form'), aSequence],
    [verb('makes', 'make'), aSequence],
    [be, map(word('sequential'), (): SequenceSays => ({}))],
  ],
  aspects: [
    [
      word('sequence'),
      have,
      map(sequence(count, word('statements', 'statement')), ([statements]): SequenceSays => ({ statements })),
    ],
    ...(['rises', 'ascends', 'climbs'] as const).map(
      each => [word('sequence'), verb(each, each.slice(0, -1)), inDirection(true)] as const,
    ),
    ...(['falls', 'descends', 'drops'] as const).map(
      each => [word('sequence'), verb(each, each.slice(0, -1)), inDirection(false)] as const,
    ),
    [word('sequence'), verb('moves', 'move'), by],
    [word('sequence'), be, map(kinds, (kind): SequenceSays => ({ kind }))],
    [word('sequence'), be, map(directions, (up): SequenceSays => ({ up }))],
  ],
  print: (says, form) => `${printBe(form)} ${describe(says)}`,
  check: (span, says, context, make): Finding<Span> => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const own = sequenceIn(context.analysis.score.notes, span.range.start, span.range.end);
    const overlapping = context.analysis.sequences.filter(each => {
      const range = rangeOf(each);
      return isBefore(range.start, span.range.end) && isBefore(span.range.start, range.end);
    });
    const found =
      (own !== undefined && hasProgression(context.analysis, own) ? own : undefined) ??
      overlapping.find(each => covers(rangeOf(each), span.range)) ??
      overlapping[0];
    if (found === undefined)
      return {
        verdict: 'fails',
        code: 'C0912',
        reason: `no model of ${span.name} is repeated on another step`,
        evidence: [],
      };
    const range = rangeOf(found);
    const whole = covers(range, span.range);
    const starts = Array.from({ length: found.statements }, (_, at) =>
      Array.from({ length: at }).reduce<Range['start']>(start => add(start, found.unit), found.start),
    );
    const [first, second] = starts.map(start =>
      soundingIn(context.analysis.score, { start, end: start }).reduce<number | undefined>(
        (low, { pitch }) => (low === undefined ? midiOf(pitch) : Math.min(low, midiOf(pitch))),
        undefined,
      ),
    );
    const moved = first === undefined || second === undefined ? undefined : Math.abs(second - first);
    const fault = misfit(found, says, moved);
    const evidence = starts.flatMap((start, at) =>
      soundingIn(context.analysis.score, { start, end: start })
        .slice(-1)
        .map(note =>
          noteEvidence(
            fault === undefined && whole ? 'supports' : 'contradicts',
            note,
            `statement ${String(at + 1)}`,
            context,
          ),
        ),
    );
    const instead = () => [
      make(saysOf(found)),
      make({ up: found.step > 0, steps: Math.abs(found.step) }),
      make({}),
    ];
    if (!whole && fault === undefined && isGoalAfter(range, span.range, context))
      return {
        verdict: 'arguable',
        code: 'C0915',
        reason: `${describe(saysOf(found))}, and its goal: many count the arrival in, others only the statements`,
        evidence,
        rather: () => statementsOf(found, context, make),
      };
    if (!whole)
      return {
        verdict: 'fails',
        code: 'C0913',
        reason: `the sequence does not cover all of ${span.name}`,
        evidence,
        rather: () => statementsOf(found, context, make),
      };
    if (fault !== undefined) return { verdict: 'fails', code: 'C0914', reason: fault, evidence, instead };
    // One copy that keeps the most of its model only may be a new idea.
    const isBent =
      found.statements === 2 &&
      sequenceIn(context.analysis.score.notes, found.start, sequenceEnd(found), {
        counts: [2],
        keptShare: 1,
      }) === undefined;
    return isBent
      ? {
          verdict: 'arguable',
          code: 'C0916',
          reason: `${describe(saysOf(found))}, but the one copy does not keep every note of its model`,
          evidence,
          instead,
        }
      : { verdict: 'holds', code: 'C0911', reason: describe(saysOf(found)), evidence, instead };
  },
});
