import { judgeKey, printKey, relativeOf, sameKey } from '../../harmony/index.js';
import { add, compare, subtract } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { map, optional, sequence, word } from '../grammar/index.js';
import { barAt } from '../place/beats.js';
import { sayMoment } from '../place/say-moment.js';
import type { Span } from '../subjects/span.js';
import { keyName } from '../terms/key-name.js';
import { be, printBe, printVerb, verb } from '../terms/verb.js';
import { judged, silence } from './judged.js';
import { checkModulatesTo, checkTonicizes } from './key-change.js';
import { alternatives, areasIn, cadencesIn, codes, newNotes } from './key-question.js';
import type { Asked, KeySays } from './key-question.js';

function checkIsIn(asked: Asked): Finding<Span> {
  const { span, key, context, make } = asked;
  const judgement = judgeKey(context.analysis, { ...span.range, key });
  const { better } = judgement;
  const areas = areasIn(span.range, context);
  // A key of two bars or less that no area of the piece has and no cadence confirms is heard as a degree of the key around it.
  const bar = barAt(context.analysis.score, span.range.start);
  const short =
    bar !== undefined &&
    compare(subtract(span.range.end, span.range.start), add(bar.meter.length, bar.meter.length)) <= 0;
  const passing =
    short &&
    judgement.outcome === 'supported' &&
    areas.every(area => !sameKey(area.key, key)) &&
    cadencesIn(span.range, key, context).length === 0;
  const around = areas[0]?.key;
  return {
    ...judged(judgement, codes, span.range, context),
    ...(passing && around !== undefined
      ? {
          verdict: 'arguable' as const,
          code: 'C0410' as const,
          reason: `${judgement.reason}; no cadence confirms it, so it can also be heard within ${printKey(around)}`,
        }
      : {}),
    instead: () => [
      ...(better === undefined ? [] : [make({ what: 'is in', key: better.key })]),
      ...areasIn(span.range, context).map(area => make({ what: 'is in', key: area.key })),
      make({ what: 'is in', key: relativeOf(key) }),
      ...alternatives(asked),
    ],
  };
}

function checkStaysIn(asked: Asked): Finding<Span> {
  const { span, key, context, make } = asked;
  const finding = checkIsIn(asked);
  const left = areasIn(span.range, context).find(area => !sameKey(area.key, key));
  if (finding.verdict === 'fails' || left === undefined) return finding;
  return {
    ...finding,
    verdict: 'fails',
    code: 'C0405',
    reason: `the music leaves ${printKey(key)}: ${printKey(left.key)} from ${sayMoment(left.start, context)}`,
    evidence: newNotes(left, key, left.key, context),
    instead: () => [make({ what: 'is in', key }), ...alternatives(asked)],
  };
}

/** Key, modulation and tonicization: claims D1 to D3 of the trade. */
export const keyFamily = family<Span, KeySays>({
  name: 'key',
  examples: [
    'bars 1-4 are in D major',
    'bars 1-4 stay in G major',
    'bars 5-8 modulate to D major',
    'bars 4-5 tonicize A minor',
  ],
  phrases: [
    [
      be,
      map(sequence(word('in'), optional(word('the key of')), keyName), ([, , key]) => ({
        what: 'is in' as const,
        key,
      })),
    ],
    [verb('stays in', 'stay in'), map(keyName, key => ({ what: 'stays in' as const, key }))],
    [verb('remains in', 'remain in'), map(keyName, key => ({ what: 'stays in' as const, key }))],
    [verb('modulates to', 'modulate to'), map(keyName, key => ({ what: 'modulates to' as const, key }))],
    [verb('moves to', 'move to'), map(keyName, key => ({ what: 'modulates to' as const, key }))],
    [verb('tonicizes', 'tonicize'), map(keyName, key => ({ what: 'tonicizes' as const, key }))],
    [verb('tonicises', 'tonicise'), map(keyName, key => ({ what: 'tonicizes' as const, key }))],
  ],
  print: ({ what, key }, form) => {
    const verbs = {
      'is in': `${printBe(form)} in`,
      'stays in': printVerb('stays in', 'stay in', form),
      'modulates to': printVerb('modulates to', 'modulate to', form),
      tonicizes: printVerb('tonicizes', 'tonicize', form),
    };
    return `${verbs[what]} ${printKey(key)}`;
  },
  check: (span, { what, key }, context, make) => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const asked = { span, key, context, make };
    switch (what) {
      case 'is in':
        return checkIsIn(asked);
      case 'stays in':
        return checkStaysIn(asked);
      case 'modulates to':
        return checkModulatesTo(asked);
      case 'tonicizes':
        return checkTonicizes(asked);
    }
  },
});
