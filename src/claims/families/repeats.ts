import { isBefore } from '../../score/index.js';
import type { Bar } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { endOf } from '../place/beats.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { have, haveNo, printHas, printHave } from '../terms/verb.js';

/** Whether bars are played again, and whether they end otherwise the second time. */
export interface RepeatsSays {
  readonly kind: 'repeats' | 'endings';
}

const complement: Parser<RepeatsSays> = choice<RepeatsSays>(
  map(
    sequence(
      quiet(optional(article)),
      word('repeat signs', 'repeat sign', 'repeat marks', 'repeats', 'repeat'),
    ),
    (): RepeatsSays => ({ kind: 'repeats' }),
  ),
  map(
    word(
      'first and second endings',
      'a first and a second ending',
      'a first and second ending',
      'alternative endings',
      'two endings',
      'first-time and second-time bars',
    ),
    (): RepeatsSays => ({ kind: 'endings' }),
  ),
);

/** Repeat signs and endings: claim K5 of the trade as far as signs go. */
export const repeatsFamily = family<Span, RepeatsSays>({
  name: 'repeats',
  examples: ['the piece has repeat signs', 'the piece has first and second endings'],
  phrases: [
    [have, complement],
    [haveNo, complement],
  ],
  print: ({ kind }, form) =>
    kind === 'repeats'
      ? printHas(form, '', 'repeat signs')
      : form.negated
        ? printHas(form, '', 'first and second endings')
        : `${printHave(form)} first and second endings`,
  check: (span, { kind }, context, make): Finding<Span> => {
    const { bars, playingOrder, marks } = context.analysis.score;
    const inside = (bar: Bar | undefined): boolean =>
      bar !== undefined && isBefore(bar.start, span.range.end) && isBefore(span.range.start, endOf(bar));
    const again = playingOrder.find(({ bar, pass }) => pass > 0 && inside(bars[bar]));
    const endings = bars.filter(bar => bar.ending !== undefined && inside(bar));
    const several = new Set(endings.flatMap(bar => bar.ending ?? [])).size > 1;
    const holds = kind === 'repeats' ? again !== undefined : several;
    // What `D.C.` plays again has no repeat sign.
    const byWord = kind === 'repeats' && holds && marks.some(mark => /^D\.[CS]\./u.test(mark.text));
    return {
      verdict: byWord ? 'arguable' : holds ? 'holds' : 'fails',
      code: holds ? 'C1801' : 'C1802',
      reason: holds
        ? kind === 'repeats'
          ? `bar ${bars[again?.bar ?? 0]?.label ?? ''} is played again${byWord ? ', and the score has a D.C. or D.S., which is no repeat sign' : ''}`
          : `bar ${endings[0]?.label ?? ''} stands in an ending`
        : kind === 'repeats'
          ? `every bar of ${span.name} is played once`
          : `${span.name} has no endings that differ`,
      evidence: [],
      instead: () => (kind === 'endings' ? [make({ kind: 'repeats' })] : []),
    };
  },
});
