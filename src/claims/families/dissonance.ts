import { compare, isBefore, pitchClassOf, printPitch, printPitchClass } from '../../score/index.js';
import type { Fraction, Note, PitchClass } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import type { ClaimContext } from '../model.js';
import { choice, map, mark, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { figureOf } from '../subjects/figures.js';
import { noteEnd, soundingIn } from '../subjects/sounding.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { article, articleOf, withArticle } from '../terms/chord-name.js';
import {
  intervalBetween,
  intervalName,
  printInterval,
  sameInterval,
  simple,
} from '../terms/interval-name.js';
import type { IntervalName } from '../terms/interval-name.js';
import { pitchClassName } from '../terms/note-name.js';
import { count } from '../terms/number.js';
import { have, haveNo, printHas, printHave } from '../terms/verb.js';
import { silence } from './judged.js';

/** An interval between two notes that sound at once; a tritone is either of its two spellings. */
export type VerticalSays = (
  { readonly kind: 'interval'; readonly interval: IntervalName } | { readonly kind: 'tritone' }
) & {
  /** The two notes that make it, where they are named. */
  readonly between?: readonly [PitchClass, PitchClass];
  /** So many of them; one or more where nothing is said. */
  readonly count?: number;
};

/** `an augmented sixth`, `a tritone`. */
export const soundingInterval: Parser<VerticalSays> = map(
  sequence(
    optional(choice(article, word('the'))),
    choice<VerticalSays>(
      map(intervalName, interval => ({ kind: 'interval', interval })),
      map(word('tritone'), () => ({ kind: 'tritone' })),
    ),
  ),
  ([, says]) => says,
);
const complement: Parser<VerticalSays> = map(
  sequence(
    soundingInterval,
    optional(
      map(
        sequence(
          quiet(optional(word('between', 'of', 'from'))),
          pitchClassName,
          choice(mark('-', '–'), word('and', 'to')),
          pitchClassName,
        ),
        ([, a, , b]) => [a, b] as const,
      ),
    ),
  ),
  ([says, between]): VerticalSays => (between === undefined ? says : { ...says, between }),
);

/** `two tritones`. */
const several: Parser<VerticalSays> = map(sequence(count, word('tritones', 'tritone')), ([number]) => ({
  kind: 'tritone',
  count: number,
}));

const plainly = (says: VerticalSays): VerticalSays =>
  says.kind === 'tritone' ? { kind: 'tritone' } : { kind: 'interval', interval: says.interval };

const fits = (low: Note, high: Note, says: VerticalSays): boolean => {
  const size = intervalBetween(low.pitch, high.pitch);
  const { between } = says;
  if (between !== undefined) {
    const own = [low, high].map(note => pitchClassOf(note.pitch));
    if (!between.every(tone => own.includes(tone))) return false;
  }
  return says.kind === 'tritone'
    ? simple(size).semitones === 6
    : sameInterval(size, says.interval) ||
        (says.interval.steps <= 7 && sameInterval(simple(size), says.interval));
};

const overlapStart = (a: Note, b: Note): Fraction | undefined => {
  const start = compare(a.onset, b.onset) >= 0 ? a.onset : b.onset;
  return isBefore(start, noteEnd(a)) && isBefore(start, noteEnd(b)) ? start : undefined;
};

/** Whether two notes stand for one chord that an accompaniment breaks. */
function areOfOneFigure(a: Note, b: Note, { analysis }: ClaimContext): boolean {
  const figure = figureOf(a, analysis);
  return figure !== undefined && figure === figureOf(b, analysis);
}

/** Two notes that are struck again or doubled in another octave may be counted anew or not. */
function countIntervals(
  wanted: number,
  pairs: readonly (readonly [Note, Note])[],
  span: Span,
  context: ClaimContext,
): Finding<Span> {
  const distinct = new Set(
    pairs.map(pair =>
      pair
        .map(note => pitchClassOf(note.pitch))
        .sort((a, b) => a - b)
        .join(' '),
    ),
  ).size;
  const fitting = [distinct, pairs.length].filter(number => number === wanted).length;
  const said = (number: number): string => `${String(number)} ${number === 1 ? 'tritone' : 'tritones'}`;
  return {
    verdict: fitting === 2 ? 'holds' : fitting === 1 ? 'arguable' : 'fails',
    code: fitting > 0 ? 'C1051' : 'C1052',
    reason:
      distinct === pairs.length
        ? `${span.name} has ${said(distinct)}`
        : `${span.name} has ${said(distinct)} by the names of the notes, and ${String(pairs.length)} times two notes that make one`,
    evidence: pairs
      .slice(0, 4)
      .flatMap(pair =>
        pair.map(note => noteEvidence(fitting > 0 ? 'supports' : 'contradicts', note, 'tritone', context)),
      ),
  };
}

/** Intervals that sound at once, dissonances among them: claim E5 of the trade. That one is unstable is opinion; that it sounds is fact. */
export const verticalIntervalFamily = family<Span, VerticalSays>({
  name: 'sounding interval',
  examples: ['bar 2 has a tritone', 'bar 3 beat 1 has a major seventh'],
  phrases: [
    [have, complement],
    [have, several],
    [haveNo, complement],
    [haveNo, map(word('tritones'), (): VerticalSays => ({ kind: 'tritone' }))],
  ],
  print: (says, form) => {
    const name = says.kind === 'tritone' ? 'tritone' : printInterval(says.interval);
    const of =
      says.between === undefined ? '' : ` between ${says.between.map(printPitchClass).join(' and ')}`;
    if (says.count !== undefined)
      return `${printHave(form)} ${String(says.count)} ${name}${says.count === 1 ? '' : 's'}`;
    return printHas(form, articleOf(name), name + of);
  },
  check: (span, says, context, make): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const notes = soundingIn(context.analysis.score, range).filter(note => !note.grace);
    const pairs = notes.flatMap((a, at) =>
      notes.slice(at + 1).flatMap(b => (overlapStart(a, b) === undefined ? [] : [[a, b] as const])),
    );
    if (says.count !== undefined)
      return countIntervals(
        says.count,
        pairs.filter(([a, b]) => fits(a, b, says)),
        span,
        context,
      );
    const found = pairs.find(([a, b]) => fits(a, b, says));
    if (found !== undefined) {
      const [a, b] = found;
      const name = printInterval(intervalBetween(a.pitch, b.pitch));
      return {
        verdict: 'holds',
        code: 'C1051',
        reason: `${printPitch(a.pitch)} and ${printPitch(b.pitch)} sound together: ${withArticle(name)}`,
        evidence: [a, b].map(note => noteEvidence('supports', note, name, context)),
      };
    }
    const apart = notes.flatMap((a, at) =>
      notes.slice(at + 1).flatMap(b => (fits(a, b, says) ? [[a, b] as const] : [])),
    );
    const broken = apart.find(([a, b]) => areOfOneFigure(a, b, context));
    if (broken !== undefined)
      return {
        verdict: 'arguable',
        code: 'C1053',
        reason: `${broken.map(note => printPitch(note.pitch)).join(' and ')} are that far apart, one after the other in a broken chord`,
        evidence: broken.map(note => noteEvidence('set aside', note, 'a tone of the broken chord', context)),
      };
    const [first] = apart;
    return {
      verdict: 'fails',
      code: 'C1052',
      reason:
        first === undefined
          ? `no two notes of ${span.name} that sound together are that far apart`
          : `${first.map(note => printPitch(note.pitch)).join(' and ')} are that far apart, but never sound together`,
      evidence: (first ?? []).map(note => noteEvidence('contradicts', note, 'sounding alone', context)),
      instead: () => [
        ...(says.between === undefined ? [] : [make(plainly(says))]),
        ...(says.kind === 'tritone' ? [] : [make({ kind: 'tritone' })]),
      ],
    };
  },
});
