import { midiOf, printPitch, staffStepOf } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, EvidenceRole } from '../model.js';
import { figureOf } from '../subjects/figures.js';
import { movesOf, together } from '../subjects/pair.js';
import type { Move, Pair } from '../subjects/pair.js';
import {
  intervalBetween,
  intervalNumber,
  printInterval,
  printNumber,
  simple,
} from '../terms/interval-name.js';
import { be, printVerb, verb } from '../terms/verb.js';

/** How two lines move against each other (Open Music Theory v1, Types of contrapuntal motion). */
export type MotionKind = 'parallel' | 'similar' | 'contrary' | 'oblique';

export interface MotionSays {
  readonly kind: MotionKind;
  /** For parallel motion: the interval that is kept, as staff steps within an octave. */
  readonly steps?: number;
}

/** The kind of one change; `undefined` where neither line takes another pitch. */
export function motionOf({ from, to }: Move): MotionKind | undefined {
  const upper = midiOf(to.upper.pitch) - midiOf(from.upper.pitch);
  const lower = midiOf(to.lower.pitch) - midiOf(from.lower.pitch);
  if (upper === 0 && lower === 0) return undefined;
  if (upper === 0 || lower === 0) return 'oblique';
  if (upper * lower < 0) return 'contrary';
  const distance = (of: Move['from']): number => staffStepOf(of.upper.pitch) - staffStepOf(of.lower.pitch);
  return distance(from) === distance(to) ? 'parallel' : 'similar';
}

const kinds = wordsFor<MotionKind>([
  ['parallel', 'parallel'],
  ['similar', 'similar'],
  ['contrary', 'contrary'],
  ['oblique', 'oblique'],
]);

/** `contrary motion`. */
export const motionName: Parser<MotionKind> = map(sequence(kinds, word('motion')), ([kind]) => kind);

const complement: Parser<MotionSays> = choice(
  map(sequence(word('in'), kinds, word('motion')), ([, kind]): MotionSays => ({ kind })),
  map(sequence(word('in'), optional(word('parallel')), intervalNumber), ([, , steps]): MotionSays => ({
    kind: 'parallel',
    steps,
  })),
);

const evidenceOf = ({ from, to }: Move, role: EvidenceRole, context: ClaimContext) =>
  [from.upper, to.upper, from.lower, to.lower].map(note =>
    noteEvidence(
      role,
      note,
      [from, to].map(each => printInterval(intervalBetween(each.upper.pitch, each.lower.pitch))).join(' to '),
      context,
    ),
  );

const keeps = (steps: number, { from, to }: Move): boolean =>
  [from, to].every(
    each => simple(intervalBetween(each.upper.pitch, each.lower.pitch)).steps % 7 === steps % 7,
  );

/** Whether one line moves while the other stands for a figure that goes on. */
const isOverFigure = (move: Move, { analysis }: ClaimContext): boolean =>
  motionOf(move) === 'oblique' &&
  (['upper', 'lower'] as const).some(
    line => move.from[line] === move.to[line] && figureOf(move.to[line], analysis) !== undefined,
  );

/**
 * The changes that count. Over a bass that is broken or followed by after-beats a tune moves against the chord, and the lines against each other where
 * the bass moves too (common practice: counterpoint is heard from chord to chord). Where nothing else happens, or oblique motion is asked for, all
 * count.
 */
function essentialMoves(all: readonly Move[], { kind }: MotionSays, context: ClaimContext): readonly Move[] {
  const moves = all.filter(move => motionOf(move) !== undefined);
  const essential = moves.filter(move => !isOverFigure(move, context));
  return kind === 'oblique' || essential.length === 0 ? moves : essential;
}

/** Motion of two lines: claim I3 of the trade. */
export const motionFamily = family<Pair, MotionSays>({
  name: 'motion',
  examples: [
    'the soprano and the bass of bar 3 move in contrary motion',
    'the soprano and the alto of bars 5-6 move in parallel thirds',
  ],
  phrases: [
    [verb('moves', 'move'), complement],
    [verb('runs', 'run'), complement],
    [be, map(sequence(word('in'), motionName), ([, kind]): MotionSays => ({ kind }))],
  ],
  print: ({ kind, steps }, form) =>
    `${printVerb('moves', 'move', form)} in ${steps === undefined ? `${kind} motion` : `parallel ${printNumber(steps)}`}`,
  check: ({ upper, lower, name }, says, context, make): Finding<Pair> => {
    const moves = essentialMoves(movesOf(together(upper, lower)), says, context);
    const [first] = moves;
    if (first === undefined)
      return {
        verdict: 'undecided',
        code: 'C1013',
        reason: `${name} do not move together`,
        evidence: [],
        pointless: true,
      };
    const fits = (move: Move): boolean =>
      motionOf(move) === says.kind && (says.steps === undefined || keeps(says.steps, move));
    const fitting = moves.filter(fits);
    const wrong = moves.find(move => !fits(move));
    const say = ({ from, to }: Move): string =>
      `${printPitch(from.upper.pitch)}-${printPitch(to.upper.pitch)} over ${printPitch(from.lower.pitch)}-${printPitch(to.lower.pitch)}`;
    if (wrong === undefined)
      return {
        verdict: 'holds',
        code: 'C1011',
        reason: `${say(first)}: ${motionOf(first) ?? ''} motion${moves.length > 1 ? ', and so on' : ''}`,
        evidence: moves.slice(0, 3).flatMap(move => evidenceOf(move, 'supports', context)),
      };
    // A line that stays for a moment does not go against one that moves contrary to it before or after.
    const goesAgainst = moves.some(move => !fits(move) && motionOf(move) !== 'oblique');
    const isMostly = fitting.length * 2 > moves.length || (fitting.length > 0 && !goesAgainst);
    return {
      verdict: isMostly ? 'arguable' : 'fails',
      code: 'C1012',
      reason: `${say(wrong)} is ${motionOf(wrong) ?? ''} motion${
        fitting.length > 0
          ? `; ${String(fitting.length)} of ${String(moves.length)} moves are as claimed`
          : ''
      }`,
      evidence: evidenceOf(wrong, 'contradicts', context),
      instead: () => (['parallel', 'similar', 'contrary', 'oblique'] as const).map(kind => make({ kind })),
    };
  },
});
