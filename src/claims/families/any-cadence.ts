import { printKey, sameKey } from '../../harmony/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, optional, quiet, sequence, word } from '../grammar/index.js';
import { sayMoment } from '../place/say-moment.js';
import { liesIn } from '../segments.js';
import { soundingIn } from '../subjects/sounding.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { article, withArticle } from '../terms/chord-name.js';
import { anyKey, inKeyReference, printKeyReference, withKeyMeant } from '../terms/key-reference.js';
import type { KeyRef } from '../terms/key-reference.js';
import { be, have, haveNo, printHas, verb } from '../terms/verb.js';
import { cadenceFamily } from './cadence.js';
import { cadenceHeardIn } from './heard-cadence.js';
import { silence } from './judged.js';

/** A cadence of whatever kind, in a key where one is said. */
export interface AnyCadenceSays {
  readonly cadence: true;
  readonly key?: KeyRef;
}

const says = (key: KeyRef | undefined): AnyCadenceSays =>
  key === undefined ? { cadence: true } : { cadence: true, key };
const aCadenceOfAnyKind = map(
  sequence(quiet(optional(article)), word('cadence', 'cadences'), inKeyReference),
  ([, , key]) => says(key),
);

/** `bar 6 has no cadence`, `bar 16 cadences in D major`: claim F4 of the trade where the kind is left open. */
export const anyCadenceFamily = family<Span, AnyCadenceSays>({
  name: 'any cadence',
  examples: ['bar 6 has no cadence', 'bar 16 has a cadence in D major'],
  phrases: [
    [have, aCadenceOfAnyKind],
    [haveNo, aCadenceOfAnyKind],
    [be, map(sequence(article, word('cadence'), inKeyReference), ([, , key]) => says(key))],
    [verb('cadences in', 'cadence in'), map(anyKey, says)],
    [
      verb('ends with', 'end with'),
      map(sequence(article, word('cadence'), inKeyReference), ([, , key]) => says(key)),
    ],
  ],
  print: ({ key }, form) =>
    printHas(form, 'a', `cadence${key === undefined ? '' : ` in ${printKeyReference(key)}`}`),
  check: (span, named, context): Finding<Span> => {
    const { key } = withKeyMeant(named, context.home);
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const all = context.analysis.cadences.filter(each => liesIn(each.onset, rangeOrMoment(span)));
    const found = all.find(each => key === undefined || sameKey(each.key, key));
    const shown = found ?? all[0];
    const holds = found !== undefined;
    const heard =
      shown === undefined
        ? cadenceHeardIn(rangeOrMoment(span), key ?? context.home, context)?.kind
        : undefined;
    if (heard !== undefined)
      return {
        verdict: 'arguable',
        code: 'C0502',
        reason: `the chords of ${withArticle(heard)} cadence stand in ${span.name}, but the phrase may well go on there`,
        evidence: [],
        instead: () => [
          cadenceFamily.make({ how: 'has', name: heard, ...(key === undefined ? {} : { key }) }),
        ],
      };
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C0501' : 'C0504',
      reason:
        shown === undefined
          ? `no cadence arrives in ${span.name}`
          : `${withArticle(shown.kind)} cadence in ${printKey(shown.key)} arrives in ${sayMoment(shown.onset, context)}`,
      evidence:
        shown === undefined
          ? []
          : soundingIn(context.analysis.score, { start: shown.onset, end: shown.onset })
              .slice(-1)
              .map(note =>
                noteEvidence(holds ? 'supports' : 'contradicts', note, `${shown.kind} cadence`, context),
              ),
      instead: () =>
        shown === undefined ? [] : [cadenceFamily.make({ how: 'has', name: shown.kind, key: shown.key })],
    };
  },
});
