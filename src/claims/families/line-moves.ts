import { pitchClassOf } from '../../score/index.js';
import type { Finding, Predicate } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { choice, map, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import type { Line } from '../subjects/line.js';
import { isStep, printMove, sayStep } from '../subjects/line-steps.js';
import type { Step } from '../subjects/line-steps.js';
import { article, withArticle } from '../terms/chord-name.js';
import {
  intervalBetween,
  intervalName,
  intervalNumber,
  printNumber,
  sameInterval,
} from '../terms/interval-name.js';
import type { IntervalName } from '../terms/interval-name.js';
import { isNamed } from '../terms/note-name.js';
import { printVerb } from '../terms/verb.js';
import type { VerbForm } from '../terms/verb.js';
import { foundIn, moveEvidence, sayLine } from './line-movement.js';
import { fromTo, sayWay, upOrDown } from './line-way.js';
import type { Ends } from './line-way.js';

/** How far a move goes, as far as that is said; `steps` is an interval by its number alone. */
interface Size {
  readonly interval?: IntervalName;
  readonly steps?: number;
}
interface Move extends Size {
  readonly up?: boolean;
}
/** One move of a line from note to note: a leap, or a step or a leap. */
export type MoveSays = { readonly kind: 'leap' | 'move' } & Move & Ends;
/** The move at the beginning or the end of a line. */
export type EdgeSays = {
  readonly kind: 'edge';
  readonly how: 'begins' | 'ends';
  readonly leap: boolean;
} & Move;

const size = choice<Size>(
  map(intervalName, interval => ({ interval })),
  // A unison and an octave have one size that is meant.
  map(intervalNumber, steps =>
    steps % 7 === 0 ? { interval: { steps, semitones: (12 * steps) / 7 } } : { steps },
  ),
);
const aSize = map(sequence(quiet(optional(word('by'))), optional(article), size), ([, , of]) => of);
/** After a verb that says which way: `a third from C to E`. */
export const bySize = (up: boolean): Parser<MoveSays> =>
  map(sequence(aSize, optional(fromTo)), ([of, ends]) => ({ kind: 'move', up, ...of, ...ends }));
export const byLeap = (up: boolean): Parser<MoveSays> =>
  map(word('by leap', 'by leaps', 'in leaps'), () => ({ kind: 'leap', up }));
/** After `leaps`: `up a sixth from C to A`. */
export const leap: Parser<MoveSays> = choice(
  map(sequence(optional(upOrDown), optional(aSize), optional(fromTo)), ([up, of, ends]): MoveSays => ({
    kind: 'leap',
    ...(up === undefined ? {} : { up }),
    ...of,
    ...ends,
  })),
  // `jumps an octave up`.
  map(sequence(aSize, upOrDown, optional(fromTo)), ([of, up, ends]): MoveSays => ({
    kind: 'leap',
    up,
    ...of,
    ...ends,
  })),
);
/** After `moves`: from one note to another. */
export const move: Parser<MoveSays> = map(fromTo, ends => ({ kind: 'move', ...ends }));
const way = wordsFor<boolean>([
  [true, 'rising', 'ascending', 'upward'],
  [false, 'falling', 'descending', 'downward'],
]);
/** `a leap of a sixth`, `a falling leap`. */
export const aLeap: Parser<MoveSays> = choice(
  map(
    sequence(
      optional(article),
      optional(way),
      word('leap', 'leaps', 'skip', 'skips', 'jump', 'jumps'),
      optional(map(sequence(word('of'), aSize), ([, of]) => of)),
    ),
    ([, up, , of]): MoveSays => ({ kind: 'leap', ...(up === undefined ? {} : { up }), ...of }),
  ),
  map(sequence(optional(article), way, size), ([, up, of]): MoveSays => ({ kind: 'move', up, ...of })),
);
/** After `begins with`, `ends with`. */
export const atEdge = (how: 'begins' | 'ends'): Parser<EdgeSays> =>
  map(aLeap, ({ kind, ...says }) => ({ ...says, kind: 'edge', how, leap: kind === 'leap' }));

const saySize = ({ interval, steps }: Size): string =>
  withArticle(interval === undefined ? printNumber(steps ?? 0).slice(0, -1) : printMove(interval));

const isSized = ({ interval, steps }: Size): boolean => interval !== undefined || steps !== undefined;

export function describeMove(says: MoveSays, form: VerbForm): string {
  if (says.kind === 'leap') {
    const where = says.up === undefined ? '' : says.up ? ' up' : ' down';
    return `${printVerb('leaps', 'leap', form)}${where}${isSized(says) ? ` ${saySize(says)}` : ''}${sayWay(says)}`;
  }
  return says.up === undefined
    ? `${printVerb('moves', 'move', form)}${sayWay(says)}`
    : `${says.up ? printVerb('rises', 'rise', form) : printVerb('falls', 'fall', form)} ${saySize(says)}${sayWay(says)}`;
}

export function describeEdge(says: EdgeSays, form: VerbForm): string {
  const verbs = says.how === 'begins' ? printVerb('begins', 'begin', form) : printVerb('ends', 'end', form);
  const direction = says.up === undefined ? '' : says.up ? 'rising ' : 'falling ';
  if (says.leap)
    return `${verbs} with ${withArticle(`${direction}leap`)}${isSized(says) ? ` of ${saySize(says)}` : ''}`;
  return `${verbs} with ${withArticle(`${direction}${saySize(says).replace(/^an? /u, '')}`)}`;
}

const isMove = (step: Step, { up, interval, steps, from, to }: Move & Ends): boolean =>
  (from === undefined || isNamed(step.from, from)) &&
  (to === undefined || isNamed(step.to, to)) &&
  (up === undefined || step.up === up) &&
  (interval === undefined || sameInterval(step.size, interval)) &&
  (steps === undefined || step.size.steps === steps);

/** Moves in one direction from one named note to another that are so far apart as is said: `falls a fifth from G to C`, over E. */
function passageOf(steps: readonly Step[], says: MoveSays): readonly Step[] | undefined {
  const { kind, from, to, up } = says;
  if (kind === 'leap' || from === undefined || to === undefined || up === undefined) return undefined;
  return steps.flatMap((first, at) => {
    const others = steps.slice(at);
    const turn = others.findIndex(step => step.up !== up);
    const run = turn < 0 ? others : others.slice(0, turn);
    const last = run.find(
      step =>
        isNamed(step.to, to) &&
        isMove(
          { from: first.from, to: step.to, up, size: intervalBetween(first.from.pitch, step.to.pitch) },
          says,
        ),
    );
    return last === undefined ? [] : [run.slice(0, run.indexOf(last) + 1)];
  })[0];
}

/** Whether the first or last move of a line is the one that is said. */
export function checkEdge(
  line: Line,
  steps: readonly Step[],
  says: EdgeSays,
  context: ClaimContext,
  make: (says: EdgeSays) => Predicate<Line>,
): Finding<Line> {
  const step = says.how === 'begins' ? steps[0] : steps.at(-1);
  const holds = step !== undefined && isMove(step, says) && !(says.leap && isStep(step));
  return {
    verdict: holds ? 'holds' : 'fails',
    code: holds ? 'C1101' : 'C1102',
    reason: step === undefined ? '' : `${line.name} ${says.how} with ${sayStep(step)}`,
    evidence: moveEvidence(step === undefined ? [] : [step], holds ? 'supports' : 'contradicts', context),
    instead: () =>
      step === undefined
        ? []
        : [make({ kind: 'edge', how: says.how, leap: false, up: step.up, interval: step.size })],
  };
}

/** `moves from D to E flat`: at once, or from its first note to its last. */
function goesBetween(line: Line, says: MoveSays, context: ClaimContext): Finding<Line> | undefined {
  const [first, last] = [line.notes[0]?.note, line.notes.at(-1)?.note];
  return says.kind === 'move' &&
    says.up === undefined &&
    first !== undefined &&
    last !== undefined &&
    says.from !== undefined &&
    says.to !== undefined &&
    isNamed(first, says.from) &&
    isNamed(last, says.to)
    ? {
        verdict: 'holds',
        code: 'C1101',
        reason: `${line.name} goes ${sayLine(line)}`,
        evidence: [first, last].map(note => noteEvidence('supports', note, 'a note of the line', context)),
      }
    : undefined;
}

/** Whether a line has the move that is said. */
export function checkMove(
  line: Line,
  steps: readonly Step[],
  says: MoveSays,
  context: ClaimContext,
  make: (says: MoveSays | { readonly kind: 'steps' }) => Predicate<Line>,
): Finding<Line> {
  const moves = says.kind === 'move' ? steps : steps.filter(step => !isStep(step));
  const matching = moves.filter(step => isMove(step, says));
  const [first] = matching;
  if (first !== undefined) return foundIn(line, matching, context, [first]);
  const through = passageOf(steps, says);
  if (through !== undefined) return foundIn(line, through, context);
  const between = goesBetween(line, says, context);
  if (between !== undefined) return between;
  const [other] = moves;
  return {
    verdict: 'fails',
    code: other === undefined ? 'C1104' : 'C1102',
    reason:
      other === undefined
        ? `${line.name} moves by step: ${sayLine(line)}`
        : `${line.name} has ${sayStep(other)}`,
    evidence: moveEvidence(other === undefined ? steps : moves, 'contradicts', context),
    instead: () => [
      ...(says.from === undefined
        ? []
        : moves.flatMap(step => [
            make({
              ...says,
              from: { pitchClass: pitchClassOf(step.from.pitch) },
              to: { pitchClass: pitchClassOf(step.to.pitch) },
            }),
          ])),
      ...moves.map(step => make({ kind: says.kind, up: step.up, interval: step.size })),
      make({ kind: 'steps' }),
    ],
  };
}
