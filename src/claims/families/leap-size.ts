import { compare, isBefore } from '../../score/index.js';
import type { Finding, Predicate } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { placeName, printPlace } from '../place/place-name.js';
import type { ClaimContext } from '../model.js';
import type { Place } from '../place/place.js';
import { rangeOf } from '../range-of.js';
import { liesIn } from '../segments.js';
import { isStep, sayStep, stepsOf } from '../subjects/line-steps.js';
import type { Step } from '../subjects/line-steps.js';
import type { Line } from '../subjects/line.js';
import { soundEnd } from '../subjects/sounding.js';
import { article, withArticle } from '../terms/chord-name.js';
import { intervalName, intervalSize, isOfSize, printInterval, printSize } from '../terms/interval-name.js';
import type { IntervalName, IntervalSize } from '../terms/interval-name.js';
import { have, haveNo, printHave, printVerb, verb } from '../terms/verb.js';
import { nothingSounds } from './judged.js';

/** How large the moves of a line are. */
export type LeapSizeSays =
  /** At least one is larger. */
  | { readonly kind: 'beyond'; readonly size: IntervalSize }
  | { readonly kind: 'largest'; readonly size: IntervalSize }
  | { readonly kind: 'largest in'; readonly place: Place }
  /** Two neighbouring notes make it. */
  | { readonly kind: 'interval'; readonly interval: IntervalName | 'tritone' };

/** `a fourth`, `an octave`. */
export const aSize: Parser<IntervalSize> = map(
  sequence(quiet(optional(article)), intervalSize),
  ([, of]) => of,
);
/** `larger than a fourth`. */
export const beyond: Parser<LeapSizeSays> = map(
  sequence(
    word(
      'larger than',
      'bigger than',
      'wider than',
      'greater than',
      'longer than',
      'more than',
      'beyond',
      'over',
    ),
    aSize,
  ),
  ([, size]) => ({ kind: 'beyond', size }),
);
export const leaps = word('leap', 'leaps', 'interval', 'intervals', 'skip', 'skips', 'jump', 'jumps', 'move');
const leapBeyond: Parser<LeapSizeSays> = map(
  sequence(quiet(optional(article)), leaps, quiet(optional(word('of', 'that is', 'by'))), beyond),
  ([, , , says]) => says,
);
const itsLargest = word('its largest leap', 'its widest leap', 'its biggest leap', 'its greatest leap');
const melodic = quiet(optional(word('melodic')));
const aMelodicInterval: Parser<LeapSizeSays> = choice<LeapSizeSays>(
  map(sequence(quiet(optional(article)), melodic, intervalName), ([, , interval]) => ({
    kind: 'interval',
    interval,
  })),
  map(sequence(quiet(optional(article)), melodic, word('tritone')), () => ({
    kind: 'interval',
    interval: 'tritone',
  })),
);
/** A tritone is an augmented fourth or a diminished fifth (common practice). */
const makes = ({ size }: Step, of: IntervalName | 'tritone'): boolean =>
  of === 'tritone' ? size.semitones === 6 : isOfSize(size, of);
const named = (of: IntervalName | 'tritone'): string =>
  withArticle(of === 'tritone' ? of : printInterval(of));

/** From a smaller interval to a larger one: by letters, then by semitones. */
const bySize = (a: IntervalSize, b: IntervalSize): number =>
  a.steps - b.steps || (a.semitones ?? 0) - (b.semitones ?? 0);

/** The moves of a line from one onset to a later one: notes that are struck together are no move. */
const movesOf = (line: Line): readonly Step[] =>
  stepsOf(line).filter(({ from, to }) => compare(from.onset, to.onset) < 0);

/** The largest moves; none where the line stands still. */
function largestOf(steps: readonly Step[]): readonly Step[] {
  const largest = steps.reduce<Step | undefined>(
    (most, each) => (most === undefined || bySize(each.size, most.size) > 0 ? each : most),
    undefined,
  );
  return largest === undefined ? [] : steps.filter(({ size }) => bySize(size, largest.size) === 0);
}

const exceeds = ({ size }: Step, limit: IntervalSize): boolean =>
  limit.semitones === undefined ? size.steps > limit.steps : bySize(size, limit) > 0;

/** Sizes of the moves of a line: claim I1 of the trade. */
export const leapSizeFamily = family<Line, LeapSizeSays>({
  name: 'size of leaps',
  examples: [
    'the soprano of bars 1-8 does not leap more than a fifth',
    'the soprano of bars 1-8 has a fourth as its largest leap',
    'the soprano of bars 1-8 has its largest leap in bar 5',
    'the soprano of bar 17 has a diminished fifth',
  ],
  phrases: [
    [have, leapBeyond],
    [haveNo, leapBeyond],
    ...(['leaps', 'jumps', 'moves', 'skips'] as const).map(
      each =>
        [
          verb(each, each.slice(0, -1)),
          map(sequence(quiet(optional(word('by', 'a distance of'))), beyond), ([, says]) => says),
        ] as const,
    ),
    [
      have,
      map(sequence(aSize, word('as'), itsLargest), ([size]): LeapSizeSays => ({ kind: 'largest', size })),
    ],
    [
      have,
      map(sequence(itsLargest, word('in', 'at', 'on', 'into'), placeName), ([, , place]): LeapSizeSays => ({
        kind: 'largest in',
        place,
      })),
    ],
    [have, aMelodicInterval],
    [haveNo, aMelodicInterval],
  ],
  print: (says, form) => {
    switch (says.kind) {
      case 'beyond':
        return `${printVerb('leaps', 'leap', form)} more than ${withArticle(printSize(says.size))}`;
      case 'largest':
        return `${printHave(form)} ${withArticle(printSize(says.size))} as its largest leap`;
      case 'largest in':
        return `${printHave(form)} its largest leap in ${printPlace(says.place)}`;
      case 'interval':
        return `${printHave(form)} ${named(says.interval)}`;
    }
  },
  check: (line, says, context, make): Finding<Line> => {
    if (line.notes.length === 0) return nothingSounds(line.name);
    const all = movesOf(line);
    const within = all.filter(step => !isParted(step, context));
    const strictly = judge(line, says, all, context, make);
    const inPhrases = judge(line, says, within, context, make);
    return strictly.verdict === inPhrases.verdict || within.length === 0
      ? strictly
      : {
          ...strictly,
          verdict: 'arguable',
          code: 'C1108',
          reason: `${strictly.reason}, between two phrases; within them ${inPhrases.reason}`,
        };
  },
});

/** Whether a rest or a fermata parts two notes: what lies between two phrases is no leap to some. */
const isParted = ({ from, to }: Step, { analysis: { score } }: ClaimContext): boolean =>
  isBefore(soundEnd(from, score), to.onset) ||
  score.marks.some(
    ({ kind, onset }) =>
      (kind === 'fermata' || kind === 'breath') && liesIn(onset, { start: from.onset, end: to.onset }),
  );

function judge(
  line: Line,
  says: LeapSizeSays,
  steps: readonly Step[],
  context: ClaimContext,
  make: (says: LeapSizeSays) => Predicate<Line>,
): Finding<Line> {
  const largest = largestOf(steps);
  const answer = (holds: boolean, shown: readonly Step[], reason: string): Finding<Line> => ({
    verdict: holds ? 'holds' : 'fails',
    code: holds ? 'C1101' : shown.length === 0 ? 'C1104' : 'C1102',
    reason,
    evidence: shown
      .slice(0, 6)
      .flatMap(({ from, to, ...step }) =>
        [from, to].map(note =>
          noteEvidence(holds ? 'supports' : 'contradicts', note, sayStep({ from, to, ...step }), context),
        ),
      ),
  });
  const [first] = largest;
  if (first === undefined) return answer(false, [], `${line.name} does not move`);
  const said = `the largest move of ${line.name} is ${sayStep(first)}`;
  switch (says.kind) {
    case 'beyond': {
      const found = steps.filter(step => exceeds(step, says.size));
      return { ...answer(found.length > 0, found.length > 0 ? found : largest, said), local: true };
    }
    case 'largest':
      return {
        ...answer(isOfSize(first.size, says.size) && !isStep(first), largest, said),
        instead: () => [make({ kind: 'largest', size: first.size })],
      };
    case 'largest in': {
      const asked = rangeOf(says.place, context);
      if ('problem' in asked) return { ...asked.problem, pointless: true };
      const inside = largest.filter(({ to }) => liesIn(to.onset, asked.range));
      return answer(inside.length > 0, inside.length > 0 ? inside : largest, said);
    }
    case 'interval': {
      const found = steps.filter(step => makes(step, says.interval));
      return answer(
        found.length > 0,
        found.length > 0 ? found : largest,
        found[0] === undefined
          ? `no two neighbouring notes of ${line.name} make ${named(says.interval)}: ${said}`
          : `${line.name} has ${sayStep(found[0])}`,
      );
    }
  }
}
