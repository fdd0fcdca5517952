import { bassOf, printRomanNumeral } from '../../harmony/index.js';
import type { RomanNumeral, Segment } from '../../harmony/index.js';
import { printPitchClass, spell } from '../../score/index.js';
import type { PitchClass } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { mainSegment, sayNumerals } from '../segments.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { anyKey, printKeyReference } from '../terms/key-reference.js';
import type { KeyRef } from '../terms/key-reference.js';
import { numeral } from '../terms/numeral.js';
import { be, printBe } from '../terms/verb.js';
import { noChord, silence } from './judged.js';
import { numeralFamily } from './numeral.js';

type Motion = 'passing' | 'neighbour';

/** A chord that the bass makes on its way by step between two others, or beside one that comes back. */
export interface LinearChordSays {
  readonly motion: Motion;
  readonly numeral?: RomanNumeral;
  readonly key?: KeyRef;
}

const motion = wordsFor<Motion>([
  ['passing', 'passing'],
  ['neighbour', 'neighbour', 'neighbor', 'neighbouring', 'neighboring', 'auxiliary'],
]);

/** `a passing V43`, `a neighbour chord`. */
export const linearChord: Parser<LinearChordSays> = choice(
  map(
    sequence(
      quiet(optional(article)),
      motion,
      numeral,
      quiet(optional(word('chord'))),
      optional(sequence(word('in'), anyKey)),
    ),
    ([, of, read, , key]): LinearChordSays => ({
      motion: of,
      numeral: read,
      ...(key === undefined ? {} : { key: key[1] }),
    }),
  ),
  map(sequence(quiet(optional(article)), motion, word('chord', 'harmony')), ([, of]): LinearChordSays => ({
    motion: of,
  })),
);

/** Steps of the staff from one bass to the next, 1 up to 6: 1 is a second up, 6 a second down. */
const stepsBetween = (a: PitchClass, b: PitchClass): number =>
  ('CDEFGAB'.indexOf(spell(b).letter) - 'CDEFGAB'.indexOf(spell(a).letter) + 7) % 7;

function motionOf(before: Segment, own: Segment, after: Segment): Motion | undefined {
  const [from, bass, to] = [before, own, after].map(({ chord }) => bassOf(chord));
  if (from === undefined || bass === undefined || to === undefined) return undefined;
  const [into, out] = [stepsBetween(from, bass), stepsBetween(bass, to)];
  if ((into === 1 && out === 1) || (into === 6 && out === 6)) return 'passing';
  return from === to && (into === 1 || into === 6) ? 'neighbour' : undefined;
}

/**
 * Chords that arise where the bass passes by step or leaves a tone and comes back (common practice: a passing V43 between I and I6, a
 * neighbour V65 between I and I): claim E3 of the trade.
 */
export const linearChordFamily = family<Span, LinearChordSays>({
  name: 'linear chord',
  examples: ['bar 2 is a passing V43', 'bar 2 is a passing chord'],
  phrases: [[be, linearChord]],
  print: ({ motion: of, numeral: read, key }, form) =>
    `${printBe(form)} a ${of} ${read === undefined ? 'chord' : printRomanNumeral(read)}${key === undefined ? '' : ` in ${printKeyReference(key)}`}`,
  check: (span, says, context, make): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const { segments } = context.analysis;
    const own = mainSegment(context.analysis, range);
    if (own === undefined) return noChord(span.name, 'C0103');
    const at = segments.indexOf(own);
    const [before, after] = [segments[at - 1], segments[at + 1]];
    const { numeral: read, key } = says;
    const named =
      read === undefined
        ? undefined
        : numeralFamily.make(key === undefined ? { numeral: read } : { numeral: read, key });
    const found = named?.check(span, context);
    if (named !== undefined && found !== undefined && found.verdict !== 'holds')
      return { ...found, instead: () => [...(found.instead?.() ?? []), make({ motion: says.motion })] };
    if (before === undefined || after === undefined)
      return {
        verdict: 'fails',
        code: 'C0215',
        reason: `no chord ${before === undefined ? 'comes before' : 'follows'} ${span.name}`,
        evidence: [],
        instead: () => (named === undefined ? [] : [named]),
      };
    const around = [before, own, after];
    const moves = motionOf(before, own, after);
    return {
      verdict: moves === says.motion ? 'holds' : 'fails',
      code: moves === says.motion ? 'C0214' : 'C0215',
      reason: `${sayNumerals(around, context)} over the bass ${around.map(({ chord }) => printPitchClass(bassOf(chord))).join(' ')}`,
      evidence: found?.evidence ?? [],
      instead: () => [
        ...(moves === undefined ? [] : [make({ ...says, motion: moves })]),
        ...(named === undefined ? [] : [named]),
      ],
    };
  },
});
