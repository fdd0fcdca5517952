import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, optional, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { printPitch } from '../../score/index.js';
import { struckHead } from '../subjects/sounding.js';
import type { Span } from '../subjects/span.js';
import { suspensionFigure } from '../terms/non-chord-tone.js';
import { be, have, haveNo, printHas } from '../terms/verb.js';
import { article } from '../terms/chord-name.js';
import { silence } from './judged.js';
import { misfit, onceSuspended, tonesIn } from './non-chord-tone.js';

/** Suspensions in a row, each prepared by the resolution of the one before. */
export interface ChainSays {
  readonly figure?: string;
}

const complement: Parser<ChainSays> = map(
  sequence(
    optional(article),
    word('chain of', 'series of', 'row of'),
    optional(suspensionFigure),
    word('suspensions'),
  ),
  ([, , figure]) => (figure === undefined ? {} : { figure }),
);

/** Chains of suspensions: claim G3 of the trade, several of them. */
export const suspensionChainFamily = family<Span, ChainSays>({
  name: 'chain of suspensions',
  examples: ['bars 17-20 have a chain of suspensions'],
  phrases: [
    [have, complement],
    [haveNo, complement],
    [be, complement],
  ],
  print: ({ figure }, form) =>
    printHas(form, 'a', `chain of ${figure === undefined ? '' : `${figure} `}suspensions`),
  check: (span, { figure }, context, make): Finding<Span> => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const { score } = context.analysis;
    const all = onceSuspended(tonesIn(span.range, context)).filter(
      ({ tone, note }) => misfit(tone, note, { kind: 'suspension' }, context) === undefined,
    );
    const found = all.filter(({ tone }) => figure === undefined || tone.figure === figure);
    // The resolution is the very note that is suspended next, or its pitch is struck again.
    const linked = found.filter(({ tone, note }) =>
      found.some(other => {
        const resolution =
          other.tone.resolution === undefined ? undefined : score.notes[other.tone.resolution];
        return (
          other.note.id !== note.id &&
          resolution !== undefined &&
          (struckHead(note, score.notes).id === struckHead(resolution, score.notes).id ||
            tone.preparation === resolution.id)
        );
      }),
    );
    const verdict = linked.length > 0 ? 'holds' : found.length > 1 ? 'arguable' : 'fails';
    const names = found.map(
      ({ note, tone }) => `${printPitch(note.pitch)}${tone.figure === undefined ? '' : ` (${tone.figure})`}`,
    );
    return {
      verdict,
      code: { holds: 'C0611' as const, arguable: 'C0612' as const, fails: 'C0613' as const }[verdict],
      reason:
        found.length === 0
          ? `no such suspension is in ${span.name}`
          : found.length === 1
            ? `there is one suspension: ${names.join('')}`
            : `${names.join(', ')}${linked.length > 0 ? ': each resolution prepares the next' : ' are suspensions, and none prepares another'}`,
      evidence: found
        .slice(0, 8)
        .map(({ note }) =>
          noteEvidence(verdict === 'fails' ? 'contradicts' : 'supports', note, 'suspension', context),
        ),
      instead: () => (figure === undefined ? [] : [make({})]),
    };
  },
});
