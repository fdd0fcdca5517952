import type { Parser } from '../grammar/index.js';
import { chromaOf, compare, isBefore, midiOf, pitchClassOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, mark, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import { momentOf } from '../place/beats.js';
import { sayMoment } from '../place/say-moment.js';
import type { ClaimContext } from '../model.js';
import { placeName, printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { rangeOf } from '../range-of.js';
import { lineName, printLine } from '../subjects/line-name.js';
import type { LineName } from '../subjects/line-name.js';
import type { Extreme } from '../subjects/extreme.js';
import type { Line } from '../subjects/line.js';
import { article, withArticle } from '../terms/chord-name.js';
import {
  intervalBetween,
  intervalName,
  intervalNumber,
  intervalSize,
  printInterval,
  printNumber,
  printSize,
  sameInterval,
  simple,
} from '../terms/interval-name.js';
import type { IntervalName, IntervalSize } from '../terms/interval-name.js';
import { isNamed, noteName, pitchName, pitchOf, printNoteName } from '../terms/note-name.js';
import type { NoteName, PitchName } from '../terms/note-name.js';
import { count, sayTimes } from '../terms/number.js';
import { be, have, printBe, printVerb, verb } from '../terms/verb.js';
import type { VerbForm } from '../terms/verb.js';
import { noteLineFamily } from './note-line.js';
import { nothingSounds } from './judged.js';

/** Which note is the highest or lowest, and where it is. */
export type RegisterSays =
  | { readonly kind: 'pitch'; readonly note: NoteName }
  | { readonly kind: 'place'; readonly place: Place }
  /** One of its notes lies there. */
  | { readonly kind: 'line'; readonly line: LineName }
  | { readonly kind: 'times'; readonly number: number };

const often: Parser<number> = map(
  sequence(
    quiet(optional(word('only', 'just', 'exactly'))),
    choice(
      wordsFor<number>([
        [1, 'once'],
        [2, 'twice'],
      ]),
      map(sequence(count, word('times', 'time')), ([number]) => number),
    ),
  ),
  ([, number]) => number,
);

function printSays(says: RegisterSays, form: VerbForm): string {
  switch (says.kind) {
    case 'pitch':
      return `${printBe(form)} ${printNoteName(says.note)}`;
    case 'place':
      return `${printBe(form)} in ${printPlace(says.place)}`;
    case 'line':
      return `${printBe(form)} in ${printLine(says.line)}`;
    case 'times':
      return `${printVerb('occurs', 'occur', form)} ${sayTimes(says.number)}`;
  }
}

/** The highest and lowest note: claim L1 of the trade. Every note that reaches the same pitch is listed. */
export const extremeFamily = family<Extreme, RegisterSays>({
  name: 'highest and lowest',
  examples: ['the highest note of the piece is C6', 'the highest note of the piece is in bar 29'],
  phrases: [
    [be, map(noteName, (note): RegisterSays => ({ kind: 'pitch', note }))],
    [
      be,
      map(sequence(word('in', 'on', 'at'), placeName), ([, place]): RegisterSays => ({
        kind: 'place',
        place,
      })),
    ],
    [be, map(sequence(word('in'), lineName), ([, line]): RegisterSays => ({ kind: 'line', line }))],
    ...['occurs', 'comes', 'appears', 'sounds'].map(
      each =>
        [
          verb(each, each.slice(0, -1)),
          map(often, (number): RegisterSays => ({ kind: 'times', number })),
        ] as const,
    ),
    ...['reached', 'heard', 'struck', 'sung', 'played'].map(
      each =>
        [
          be,
          map(sequence(word(each), often), ([, number]): RegisterSays => ({ kind: 'times', number })),
        ] as const,
    ),
    ...['occurs', 'comes', 'appears', 'arrives', 'sounds'].map(
      each =>
        [
          verb(each, each.slice(0, -1)),
          map(sequence(word('in', 'on', 'at'), placeName), ([, place]): RegisterSays => ({
            kind: 'place',
            place,
          })),
        ] as const,
    ),
  ],
  print: printSays,
  check: ({ span, notes, name }, says, context, make): Finding<Extreme> => {
    const [first] = notes;
    const places = notes.map(note => sayMoment(note.onset, context)).join(', ');
    const evidence = (role: 'supports' | 'contradicts') =>
      notes.slice(0, 8).map(note => noteEvidence(role, note, name, context));
    const actual: NoteName = { pitchClass: pitchClassOf(first.pitch), octave: first.pitch.octave };
    if (says.kind === 'pitch') {
      const holds = isNamed(first, says.note);
      const slip =
        holds || chromaOf(says.note.pitchClass) !== chromaOf(actual.pitchClass)
          ? ''
          : says.note.pitchClass === actual.pitchClass
            ? '; the claim names another octave'
            : '; it is spelled otherwise in the claim';
      return {
        verdict: holds ? 'holds' : 'fails',
        code: holds ? 'C1401' : 'C1402',
        reason: `${name} is ${printPitch(first.pitch)}, in ${places}${slip}`,
        evidence: evidence(holds ? 'supports' : 'contradicts'),
        instead: () => [make({ kind: 'pitch', note: actual })],
      };
    }
    if (says.kind === 'times') {
      const holds = notes.length === says.number;
      return {
        verdict: holds ? 'holds' : 'fails',
        code: holds ? 'C1401' : 'C1405',
        reason: `${printPitch(first.pitch)} is struck ${sayTimes(notes.length)}: in ${places}`,
        evidence: evidence(holds ? 'supports' : 'contradicts'),
        instead: () => [make({ kind: 'times', number: notes.length })],
      };
    }
    if (says.kind === 'line') {
      const finding = noteLineFamily.make({ line: says.line }).check({ span, notes, name }, context);
      return { ...finding, instead: undefined };
    }
    const resolved = rangeOf(says.place, context);
    if ('problem' in resolved) return { ...resolved.problem, pointless: true };
    const { range } = resolved;
    const inside = notes.filter(
      note => compare(range.start, note.onset) <= 0 && isBefore(note.onset, range.end),
    );
    const moment = momentOf(context.analysis.score, first.onset, context.beatUnit);
    return {
      verdict: inside.length === 0 ? 'fails' : inside.length === notes.length ? 'holds' : 'arguable',
      code: inside.length === 0 ? 'C1403' : inside.length === notes.length ? 'C1401' : 'C1404',
      reason: `${printPitch(first.pitch)} is reached in ${places}`,
      evidence: evidence(inside.length === 0 ? 'contradicts' : 'supports'),
      instead: () =>
        moment === undefined
          ? []
          : [make({ kind: 'place', place: { kind: 'bars', first: moment.bar, last: moment.bar } })],
    };
  },
});

const nameOf = ({ pitch }: Note): NoteName => ({ pitchClass: pitchClassOf(pitch), octave: pitch.octave });

/** An interval with its quality, or by its number alone; or its two ends. */
type RangeSays =
  | { readonly interval: IntervalName }
  | { readonly steps: number }
  | { readonly from: NoteName; readonly to: NoteName }
  | { readonly bound: Bound; readonly note: PitchName }
  /** No more than so much. */
  | { readonly within: IntervalSize };
/** Of a bound the note itself is within: what stays below it never reaches it. */
type Bound = 'goes above' | 'goes below' | 'stays below' | 'stays above';
/** How each is said of several, and by other words. */
const bounds = [
  ['goes above', 'goes above', 'go above'],
  ['goes above', 'rises above', 'rise above'],
  ['goes above', 'goes higher than', 'go higher than'],
  ['goes below', 'goes below', 'go below'],
  ['goes below', 'falls below', 'fall below'],
  ['goes below', 'goes lower than', 'go lower than'],
  ['stays below', 'stays below', 'stay below'],
  ['stays above', 'stays above', 'stay above'],
] as const;
const octaves: Parser<RangeSays> = map(
  sequence(
    wordsFor<number>([
      [2, 'two', '2'],
      [3, 'three', '3'],
      [4, 'four', '4'],
    ]),
    word('octaves'),
  ),
  ([number]) => ({ interval: { steps: 7 * number, semitones: 12 * number } }),
);
const fromTo: Parser<RangeSays> = map(
  sequence(quiet(optional(word('from'))), noteName, choice(word('to'), mark('-', '–')), noteName),
  ([, from, , to]) => ({ from, to }),
);
const ofInterval: Parser<RangeSays> = map(
  sequence(
    optional(article),
    choice<RangeSays>(
      map(intervalName, interval => ({ interval })),
      map(intervalNumber, steps =>
        steps % 7 === 0 ? { interval: { steps, semitones: (12 * steps) / 7 } } : { steps },
      ),
    ),
  ),
  ([, says]) => says,
);
/** `a tenth`, `two octaves`, `from E4 to C6`. */
export const rangeSize: Parser<RangeSays> = choice(ofInterval, octaves, fromTo);

/** `a minor seventh`, `2 octaves`. */
function sayInterval(of: IntervalName): string {
  const inOctaves = of.steps / 7;
  return inOctaves > 1 && Number.isInteger(inOctaves) && of.semitones === 12 * inOctaves
    ? `${String(inOctaves)} octaves`
    : withArticle(printInterval(of));
}

/** Whether a line keeps within a note. */
function checkBound(
  line: Line,
  { bound, note }: Extract<RangeSays, { readonly bound: Bound }>,
  lowest: Note,
  highest: Note,
  context: ClaimContext,
): Finding<Line> {
  const limit = midiOf(pitchOf(note));
  const holds = {
    'goes above': midiOf(highest.pitch) > limit,
    'goes below': midiOf(lowest.pitch) < limit,
    'stays below': midiOf(highest.pitch) < limit,
    'stays above': midiOf(lowest.pitch) > limit,
  }[bound];
  const decisive = bound === 'goes above' || bound === 'stays below' ? highest : lowest;
  const which = decisive === highest ? 'highest' : 'lowest';
  return {
    verdict: holds ? 'holds' : 'fails',
    code: holds ? 'C1411' : 'C1412',
    reason: `the ${which} note of ${line.name} is ${printPitch(decisive.pitch)}`,
    evidence: [noteEvidence(holds ? 'supports' : 'contradicts', decisive, `${which} note`, context)],
  };
}

/** How far a line reaches from its lowest to its highest note: claim L2 of the trade. */
export const lineRangeFamily = family<Line, RangeSays>({
  name: 'range of a line',
  examples: ['the soprano of bars 1-3 spans a minor seventh'],
  phrases: [
    [verb('spans', 'span'), rangeSize],
    [verb('ranges', 'range'), fromTo],
    [verb('extends', 'extend'), fromTo],
    [verb('reaches', 'reach'), fromTo],
    [verb('covers', 'cover'), rangeSize],
    ...bounds.map(
      ([bound, singular, plural]) =>
        [verb(singular, plural), map(pitchName, (note): RangeSays => ({ bound, note }))] as const,
    ),
    ...(
      [
        ['stays within', 'stay within'],
        ['keeps within', 'keep within'],
        ['moves within', 'move within'],
        ['lies within', 'lie within'],
        ['remains within', 'remain within'],
      ] as const
    ).map(
      ([singular, plural]) =>
        [
          verb(singular, plural),
          map(
            sequence(
              quiet(optional(article)),
              quiet(
                optional(
                  word(
                    'the range of an',
                    'the range of a',
                    'the compass of an',
                    'the compass of a',
                    'range of an',
                  ),
                ),
              ),
              intervalSize,
            ),
            ([, , within]): RangeSays => ({ within }),
          ),
        ] as const,
    ),
    [have, map(sequence(word('a range of', 'a compass of', 'an ambitus of'), rangeSize), ([, says]) => says)],
  ],
  print: (says, form) =>
    'bound' in says
      ? `${printVerb(says.bound, bounds.find(([of]) => of === says.bound)?.[2] ?? says.bound, form)} ${printNoteName(says.note)}`
      : 'within' in says
        ? `${printVerb('stays within', 'stay within', form)} ${withArticle(printSize(says.within))}`
        : 'from' in says
          ? `${printVerb('ranges', 'range', form)} from ${printNoteName(says.from)} to ${printNoteName(says.to)}`
          : `${printVerb('spans', 'span', form)} ${'interval' in says ? sayInterval(says.interval) : withArticle(printNumber(says.steps).slice(0, -1))}`,
  check: (line, says, context, make): Finding<Line> => {
    const notes = line.notes.map(({ note }) => note);
    const [first] = notes;
    if (first === undefined) return nothingSounds(line.name);
    const lowest = notes.reduce((low, note) => (midiOf(note.pitch) < midiOf(low.pitch) ? note : low), first);
    const highest = notes.reduce(
      (high, note) => (midiOf(note.pitch) > midiOf(high.pitch) ? note : high),
      first,
    );
    if ('bound' in says) return checkBound(line, says, lowest, highest, context);
    const size = intervalBetween(lowest.pitch, highest.pitch);
    const is = (of: IntervalName): boolean => {
      if ('interval' in says) return sameInterval(of, says.interval);
      if ('within' in says) {
        const { steps, semitones } = says.within;
        return semitones === undefined ? of.steps <= steps : of.semitones <= semitones;
      }
      return 'steps' in says
        ? of.steps === says.steps
        : isNamed(lowest, says.from) && isNamed(highest, says.to);
    };
    const holds = is(size);
    const compound = !holds && !('from' in says) && !('within' in says) && is(simple(size));
    return {
      verdict: holds ? 'holds' : compound ? 'arguable' : 'fails',
      code: holds ? 'C1411' : 'C1412',
      reason: `${line.name} reaches from ${printPitch(lowest.pitch)} to ${printPitch(highest.pitch)}, ${sayInterval(size)}${compound ? '; the claim names it without its octaves' : ''}`,
      evidence: [lowest, highest].map(note =>
        noteEvidence(
          holds ? 'supports' : 'contradicts',
          note,
          note === lowest ? 'lowest note' : 'highest note',
          context,
        ),
      ),
      instead: () =>
        'from' in says ? [make({ from: nameOf(lowest), to: nameOf(highest) })] : [make({ interval: size })],
    };
  },
});
