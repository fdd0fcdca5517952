import { segmentAt } from '../../harmony/index.js';
import { isBefore, midiOf, printPitch, staffStepOf } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, optional, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Evidence } from '../model.js';
import { barAt } from '../place/beats.js';
import { liesIn } from '../segments.js';
import { figureOf, isAccompaniment } from '../subjects/figures.js';
import { printLine } from '../subjects/line-name.js';
import type { LineName } from '../subjects/line-name.js';
import { essentialNotes } from '../subjects/line.js';
import type { LineNote } from '../subjects/line-notes.js';
import { movesOf, together, twoLines } from '../subjects/pair.js';
import type { Move } from '../subjects/pair.js';
import { soundingIn } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { impliedLines } from '../subjects/implied-lines.js';
import { intervalBetween, isOctave, isPerfectFifth, printInterval, simple } from '../terms/interval-name.js';
import { have, haveNo, printHas } from '../terms/verb.js';
import { motionOf } from './motion.js';

/** Perfect intervals in a row, or reached from the same side. */
export interface ParallelsSays {
  readonly kind: 'parallel' | 'hidden' | 'contrary';
  readonly interval: 'fifths' | 'octaves' | 'fifths or octaves';
  readonly lines?: readonly [LineName, LineName];
}

export const parallelsName: Parser<ParallelsSays> = rule(
  'Parallels',
  () =>
    map(
      sequence(
        wordsFor<ParallelsSays['kind']>([
          ['parallel', 'parallel', 'consecutive'],
          ['hidden', 'hidden', 'direct'],
          ['contrary', 'contrary'],
        ]),
        wordsFor<ParallelsSays['interval']>([
          ['fifths', 'fifths', '5ths', 'fifth'],
          ['octaves', 'octaves', 'octave', '8ves', 'unisons'],
          [
            'fifths or octaves',
            'fifths or octaves',
            'fifths and octaves',
            'octaves or fifths',
            'perfect intervals',
          ],
        ]),
        optional(map(sequence(word('between', 'in'), twoLines), ([, lines]) => lines)),
      ),
      ([kind, interval, lines]): ParallelsSays =>
        lines === undefined ? { kind, interval } : { kind, interval, lines },
    ),
  'parallels such as `parallel fifths`',
);

interface NamedMove {
  readonly move: Move;
  readonly names: string;
}

const isPerfect = (of: Move['from'], interval: ParallelsSays['interval']): boolean => {
  const size = intervalBetween(of.upper.pitch, of.lower.pitch);
  switch (interval) {
    case 'fifths':
      return isPerfectFifth(size);
    case 'octaves':
      return isOctave(size);
    case 'fifths or octaves':
      return isPerfectFifth(size) || isOctave(size);
  }
};

const distance = (a: number, b: number): number => Math.abs(a - b);

/**
 * Parallel: both lines move, the same way, from a perfect interval to the same one, compound intervals counted with simple ones
 * (Open Music Theory: a fifth to a twelfth is parallel). Hidden: the same way into a perfect interval while the upper line leaps.
 */
function isMistake(move: Move, says: ParallelsSays): boolean {
  const { from, to } = move;
  const { kind } = says;
  // Of either kind: the interval that is reached decides which one it is.
  const interval =
    says.interval === 'fifths or octaves' ? (isPerfect(to, 'fifths') ? 'fifths' : 'octaves') : says.interval;
  const motion = motionOf(move);
  if (motion === undefined || motion === 'oblique' || !isPerfect(to, interval)) return false;
  const kept = isPerfect(from, interval);
  switch (kind) {
    case 'parallel':
      return kept && motion !== 'contrary';
    case 'contrary':
      return kept && motion === 'contrary';
    case 'hidden':
      return !kept && motion !== 'contrary' && distance(midiOf(from.upper.pitch), midiOf(to.upper.pitch)) > 2;
  }
}

/** Three octaves in a row or more are one line doubled, and doubling is no fault. */
function isDoubling(moves: readonly Move[], at: number, says: ParallelsSays): boolean {
  const own = moves[at];
  if (
    says.interval === 'fifths' ||
    says.kind !== 'parallel' ||
    own === undefined ||
    !isPerfect(own.to, 'octaves')
  )
    return false;
  const wrong = (index: number): boolean => {
    const move = moves[index];
    return move !== undefined && isMistake(move, { kind: 'parallel', interval: 'octaves' });
  };
  return (
    (wrong(at - 1) && wrong(at - 2)) || (wrong(at - 1) && wrong(at + 1)) || (wrong(at + 1) && wrong(at + 2))
  );
}

/** Two lines that leap within one harmony only take other places in its chord. */
function isWithinChord({ from, to }: Move, { analysis }: ClaimContext): boolean {
  const [before, after] = [from, to].map(({ start }) => segmentAt(analysis, start));
  const leaps = (a: Note, b: Note): boolean => distance(staffStepOf(a.pitch), staffStepOf(b.pitch)) > 1;
  return (
    before !== undefined &&
    before.chord.root === after?.chord.root &&
    before.chord.tones[1] === after.chord.tones[1] &&
    leaps(from.upper, to.upper) &&
    leaps(from.lower, to.lower)
  );
}

/** Whether a note lies above the bass of a figure in an accompaniment. */
const isInFigure = (note: Note, { analysis }: ClaimContext): boolean =>
  isAccompaniment(note.voice, analysis.score) &&
  figureOf(note, analysis)?.notes.some(other => midiOf(other.pitch) < midiOf(note.pitch)) === true;

/**
 * What an accompaniment strikes above its bass doubles other voices, and in the octave its own bass, without fault (common practice): between voices
 * its bass alone counts.
 */
const isDoubledByFigure = ({ from, to }: Move, context: ClaimContext): boolean =>
  [from.upper, from.lower, to.upper, to.lower].some(note => isInFigure(note, context)) &&
  (from.upper.voice !== from.lower.voice || isPerfect(to, 'octaves'));

/** Whether both lines are the outermost that sound where the move arrives. */
function isOuter({ to }: Move, { analysis }: ClaimContext): boolean {
  const pitches = soundingIn(analysis.score, { start: to.start, end: to.start }).map(({ pitch }) =>
    midiOf(pitch),
  );
  return midiOf(to.upper.pitch) === Math.max(...pitches) && midiOf(to.lower.pitch) === Math.min(...pitches);
}

/** The mistakes of the lines in a range, those of one line doubled apart. */
function mistakesIn(
  pairs: readonly (readonly [Named, Named])[],
  says: ParallelsSays,
  context: ClaimContext,
): { readonly found: readonly NamedMove[]; readonly doubled: readonly NamedMove[] } {
  const doubled: NamedMove[] = [];
  const found: NamedMove[] = [];
  for (const [upper, lower] of pairs) {
    const moves = movesOf(together(upper.notes, lower.notes)).filter(move => motionOf(move) !== undefined);
    moves.forEach((move, at) => {
      // One note that is the top and the bottom of its voice is no two lines.
      if (move.from.upper === move.from.lower || move.to.upper === move.to.lower) return;
      if (!isMistake(move, says) || isWithinChord(move, context) || isDoubledByFigure(move, context)) return;
      const named = { move, names: `${upper.name} and ${lower.name}` };
      (isDoubling(moves, at, says) ? doubled : found).push(named);
    });
  }
  return { found, doubled };
}

/** Mistakes that begin in the bar before and land on the first notes of a place. */
function landingIn(span: Span, says: ParallelsSays, context: ClaimContext): readonly NamedMove[] {
  const bar = barAt(context.analysis.score, span.range.start);
  const before = bar === undefined ? undefined : context.analysis.score.bars[bar.index - 1];
  if (before === undefined || span.moment !== undefined) return [];
  const wider = { ...span, range: { start: before.start, end: span.range.end } };
  const { found } = mistakesIn(linePairs(wider, says, context) ?? [], says, context);
  return found.filter(
    ({ move: { from, to } }) => isBefore(from.start, span.range.start) && liesIn(to.start, span.range),
  );
}

function linePairs(
  span: Span,
  says: ParallelsSays,
  context: ClaimContext,
): readonly (readonly [Named, Named])[] | undefined {
  if (says.lines !== undefined) {
    const found = says.lines.map(line => ({
      name: printLine(line),
      notes: essentialNotes(line, span.range, context),
    }));
    const [first, second] = found;
    if (first?.notes === undefined || second?.notes === undefined) return undefined;
    return [
      [
        { name: first.name, notes: first.notes },
        { name: second.name, notes: second.notes },
      ],
    ];
  }
  const lines = impliedLines(context.analysis, span.range);
  return lines.flatMap((upper, at) => lines.slice(at + 1).map(lower => [upper, lower] as const));
}

interface Named {
  readonly name: string;
  readonly notes: readonly LineNote[];
}

const evidenceOf = ({ move: { from, to }, names }: NamedMove, context: ClaimContext): readonly Evidence[] =>
  [from.upper, to.upper, from.lower, to.lower].map(note =>
    noteEvidence(
      'supports',
      note,
      `${names}: ${printInterval(simple(intervalBetween(to.upper.pitch, to.lower.pitch)))}s`,
      context,
    ),
  );

/** Parallel, contrary and hidden fifths and octaves: claim I4 of the trade. */
export const parallelsFamily = family<Span, ParallelsSays>({
  name: 'parallels',
  examples: [
    'bars 5-6 have no parallel fifths',
    'bars 5-6 have hidden octaves between the soprano and the bass',
  ],
  phrases: [
    [have, parallelsName],
    [haveNo, parallelsName],
  ],
  print: ({ kind, interval, lines }, form) =>
    printHas(
      form,
      '',
      `${kind} ${interval}${lines === undefined ? '' : ` between ${lines.map(printLine).join(' and ')}`}`,
    ),
  check: (span, says, context): Finding<Span> => {
    const pairs = linePairs(span, says, context);
    if (pairs === undefined)
      return {
        verdict: 'undecided',
        code: 'C0006',
        reason: 'the score does not have both lines',
        evidence: [],
        pointless: true,
      };
    const { found, doubled } = mistakesIn(pairs, says, context);
    // Hidden intervals are meant of soprano and bass, unless other lines are named.
    const outer =
      says.kind === 'hidden' && says.lines === undefined
        ? found.filter(({ move }) => isOuter(move, context))
        : found;
    const [first] = outer.length > 0 ? outer : found;
    if (first !== undefined) {
      const { from, to } = first.move;
      const isInner = outer.length === 0;
      return {
        verdict: isInner ? 'arguable' : 'holds',
        code: isInner ? 'C1024' : 'C1021',
        reason: `${first.names} go from ${printPitch(from.lower.pitch)} ${printPitch(from.upper.pitch)} to ${printPitch(to.lower.pitch)} ${printPitch(to.upper.pitch)}${isInner ? ', with an inner line' : ''}`,
        evidence: found.slice(0, 4).flatMap(each => evidenceOf(each, context)),
      };
    }
    const landing = landingIn(span, says, context);
    const [across] = landing;
    if (across !== undefined)
      return {
        verdict: 'arguable',
        code: 'C1023',
        reason: `${across.names} begin them before ${span.name} and land there: many mark the place of the second interval`,
        evidence: landing.slice(0, 4).flatMap(each => evidenceOf(each, context)),
      };
    return {
      verdict: 'fails',
      code: 'C1022',
      reason: `no two lines of ${span.name} make ${says.kind} ${says.interval}${
        doubled.length > 0 ? '; the octaves there are one line doubled' : ''
      }`,
      evidence: doubled.slice(0, 1).flatMap(each => evidenceOf(each, context)),
    };
  },
});
