import { add, isBefore } from '../../score/index.js';
import { hasProgression, sequenceIn } from '../../harmony/index.js';
import type { Sequence } from '../../harmony/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { Range } from '../model.js';
import { soundingIn } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { intervalNumber, printNumber } from '../terms/interval-name.js';
import { count } from '../terms/number.js';
import { be, have, printBe, verb } from '../terms/verb.js';
import { covers } from '../segments.js';
import { silence } from './judged.js';

/** A model repeated on other steps. */
export interface SequenceSays {
  readonly up?: boolean;
  /** Steps from one statement to the next, without direction. */
  readonly steps?: number;
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

/** `by seconds`, `by step`. */
const steps = choice(
  intervalNumber,
  map(word('step', 'steps'), () => 1),
);
const complement: Parser<SequenceSays> = rule(
  'Sequence',
  () =>
    map(
      sequence(
        optional(article),
        optional(kinds),
        optional(directions),
        word('sequence'),
        optional(directions),
        optional(map(sequence(word('by', 'in'), steps), ([, size]) => size)),
        optional(
          map(sequence(word('of', 'with'), count, word('statements', 'statement')), ([, number]) => number),
        ),
      ),
      ([, kind, before, , after, size, statements]): SequenceSays => ({
        ...(kind === undefined ? {} : { kind }),
        ...((before ?? after) === undefined ? {} : { up: before ?? after === true }),
        ...(size === undefined ? {} : { steps: size }),
        ...(statements === undefined ? {} : { statements }),
      }),
    ),
  'a sequence such as `a falling sequence by seconds`',
);

const describe = ({ up, steps, statements, kind }: SequenceSays): string =>
  [
    'a',
    kind,
    up === undefined ? undefined : up ? 'rising' : 'falling',
    'sequence',
    steps === undefined ? undefined : `by ${printNumber(steps)}`,
    statements === undefined ? undefined : `of ${String(statements)} statements`,
  ]
    .filter(each => each !== undefined)
    .join(' ');

const rangeOf = (found: Sequence): Range => ({
  start: found.start,
  end: Array.from({ length: found.statements }).reduce<Range['end']>(
    end => add(end, found.unit),
    found.start,
  ),
});

const saysOf = (found: Sequence): SequenceSays => ({
  up: found.step > 0,
  steps: Math.abs(found.step),
  statements: found.statements,
  kind: found.real ? 'real' : 'tonal',
});

function misfit(found: Sequence, says: SequenceSays): string | undefined {
  const own = saysOf(found);
  if (says.up !== undefined && says.up !== own.up) return `it is ${own.up ? 'rising' : 'falling'}`;
  if (says.steps !== undefined && says.steps !== own.steps)
    return `it goes by ${printNumber(own.steps ?? 0)}`;
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
    [be, complement],
    [have, complement],
    [verb('forms', 'form'), complement],
    [verb('makes', 'make'), complement],
    [be, map(word('sequential'), (): SequenceSays => ({}))],
  ],
  aspects: [
    [
      word('sequence'),
      have,
      map(sequence(count, word('statements', 'statement')), ([statements]): SequenceSays => ({ statements })),
    ],
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
    const fault = misfit(found, says);
    const starts = Array.from({ length: found.statements }, (_, at) =>
      Array.from({ length: at }).reduce<Range['start']>(start => add(start, found.unit), found.start),
    );
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
    if (!whole)
      return {
        verdict: 'fails',
        code: 'C0913',
        reason: `the sequence does not cover all of ${span.name}`,
        evidence,
      };
    if (fault !== undefined) return { verdict: 'fails', code: 'C0914', reason: fault, evidence, instead };
    return { verdict: 'holds', code: 'C0911', reason: `${describe(saysOf(found))}`, evidence, instead };
  },
});
