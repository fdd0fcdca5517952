import { compare, divide, toNumber, zero } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { map, nothing, optional, quiet, sequence, word } from '../grammar/index.js';
import { beatUnitOf } from '../place/beats.js';
import { barAt } from '../place/beats.js';
import { subtract } from '../../score/index.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { count, printBeat } from '../terms/number.js';
import { be, have, haveNo, printBe, printHas, verb } from '../terms/verb.js';

/** Whether the music begins before its first full bar, or how long a place is. */
export type PickupSays =
  { readonly kind: 'pickup'; readonly beats?: number } | { readonly kind: 'length'; readonly beats: number };

const noun = word('pickup', 'pick-up', 'upbeat', 'anacrusis');
const aPickup = map(sequence(quiet(optional(article)), noun), (): PickupSays => ({ kind: 'pickup' }));

/** `a pickup of one beat`. */
const aPickupOf = map(
  sequence(aPickup, word('of'), count, word('beats', 'beat')),
  ([, , beats]): PickupSays => ({ kind: 'pickup', beats }),
);

/** Pickups and lengths in beats: claim M2 of the trade. */
export const pickupFamily = family<Span, PickupSays>({
  name: 'pickup',
  examples: ['the piece has a pickup', 'the pickup is 1 beat long'],
  phrases: [
    [have, aPickup],
    [have, aPickupOf],
    [haveNo, aPickupOf],
    [haveNo, aPickup],
    ...['begins', 'starts', 'opens'].flatMap(each =>
      [' with', ' on'].map(
        preposition => [verb(each + preposition, each.slice(0, -1) + preposition), aPickup] as const,
      ),
    ),
    [
      map(
        word(
          'begins on the downbeat',
          'starts on the downbeat',
          'begins with the downbeat',
          'begins on a downbeat',
          'starts on a downbeat',
          'begins without a pickup',
          'begins without an upbeat',
        ),
        () => ({
          negated: true,
        }),
      ),
      nothing<PickupSays>({ kind: 'pickup' }),
    ],
    [
      verb('lasts', 'last'),
      map(sequence(count, word('beats', 'beat')), ([beats]): PickupSays => ({ kind: 'length', beats })),
    ],
    [
      be,
      map(sequence(count, word('beats', 'beat'), word('long')), ([beats]): PickupSays => ({
        kind: 'length',
        beats,
      })),
    ],
  ],
  print: (says, form) =>
    says.kind === 'pickup'
      ? printHas(
          form,
          'a',
          says.beats === undefined
            ? 'pickup'
            : `pickup of ${String(says.beats)} ${says.beats === 1 ? 'beat' : 'beats'}`,
        )
      : `${printBe(form)} ${String(says.beats)} ${says.beats === 1 ? 'beat' : 'beats'} long`,
  check: (span, says, context, make): Finding<Span> => {
    const { bars } = context.analysis.score;
    if (says.kind === 'length') {
      const bar = barAt(context.analysis.score, span.range.start);
      const unit = bar === undefined ? undefined : beatUnitOf(bar.meter, context.beatUnit);
      if (unit === undefined)
        return {
          verdict: 'undecided',
          code: 'C0005',
          reason: `there is no bar at ${span.name}`,
          evidence: [],
          pointless: true,
        };
      const length = divide(subtract(span.range.end, span.range.start), unit);
      const holds = toNumber(length) === says.beats;
      return {
        verdict: holds ? 'holds' : 'fails',
        code: holds ? 'C1801' : 'C1804',
        reason: `${span.name} lasts ${printBeat(length)} ${toNumber(length) === 1 ? 'beat' : 'beats'}`,
        evidence: [],
        instead: () => (length.d === 1 ? [make({ kind: 'length', beats: length.n })] : []),
      };
    }
    const first = bars.find(bar => compare(bar.start, span.range.start) === 0);
    const isThere = first?.number === 0 && compare(first.length, zero) > 0;
    const length =
      isThere && says.beats !== undefined
        ? divide(first.length, beatUnitOf(first.meter, context.beatUnit))
        : undefined;
    const holds = isThere && (length === undefined || toNumber(length) === says.beats);
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C1801' : 'C1804',
      reason: !isThere
        ? `${span.name} begins with a full bar`
        : length === undefined
          ? 'the music begins before bar 1'
          : `the music begins ${printBeat(length)} ${toNumber(length) === 1 ? 'beat' : 'beats'} before bar 1`,
      evidence: [],
      local: true,
      instead: () => (isThere ? [make({ kind: 'pickup' })] : []),
    };
  },
});
