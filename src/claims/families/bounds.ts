import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { map } from '../grammar/index.js';
import { barRange, oneBar, printPlace } from '../place/place-name.js';
import type { Span } from '../subjects/span.js';
import { be, printBe, printVerb, verb } from '../terms/verb.js';

/** In which bar something begins or ends that is named by what it is, or which bars it is: a phrase, a half of the piece. */
export type BoundsSays =
  | { readonly edge: 'begins' | 'ends'; readonly bar: string }
  | { readonly edge: 'both'; readonly first: string; readonly last: string };

const inBar = (edge: 'begins' | 'ends') => map(oneBar, (bar): BoundsSays => ({ edge, bar }));

/** The first and the last bar of a phrase or a half: claims K1 and K5 of the trade. */
export const boundsFamily = family<Span, BoundsSays>({
  name: 'bounds',
  examples: ['the second phrase begins in bar 9', 'the first half of the piece ends in bar 16'],
  phrases: [
    [be, map(barRange, ({ first, last }): BoundsSays => ({ edge: 'both', first, last }))],
    ...['begins in', 'begins at', 'begins with', 'starts in', 'starts at'].map(
      each => [verb(each, each.replace('s ', ' ')), inBar('begins')] as const,
    ),
    ...['ends in', 'ends at', 'ends with', 'closes in', 'lasts until', 'lasts to', 'runs to'].map(
      each => [verb(each, each.replace('s ', ' ')), inBar('ends')] as const,
    ),
  ],
  print: (says, form) => {
    if (says.edge === 'both')
      return `${printBe(form)} ${printPlace({ kind: 'bars', first: says.first, last: says.last })}`;
    const verb_ =
      says.edge === 'begins'
        ? printVerb('begins in', 'begin in', form)
        : printVerb('ends in', 'end in', form);
    return `${verb_} bar ${says.bar}`;
  },
  check: ({ place, name }, says, _context, make): Finding<Span> => {
    const [first, last] = place.kind === 'bars' ? [place.first, place.last] : ['', ''];
    const holds =
      says.edge === 'both'
        ? says.first === first && says.last === last
        : says.bar === (says.edge === 'begins' ? first : last);
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C1801' : 'C1802',
      reason: `${name.replace(/ \(.*/u, '')} is ${printPlace(place)}`,
      evidence: [],
      instead: () => [
        make(
          says.edge === 'both'
            ? { edge: 'both', first, last }
            : { edge: says.edge, bar: says.edge === 'begins' ? first : last },
        ),
      ],
      local: true,
    };
  },
});
