import { isBefore } from '../../score/index.js';
import type { Bar } from '../../score/index.js';
import { signatureOf } from '../../harmony/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { endOf } from '../place/beats.js';
import type { Span } from '../subjects/span.js';
import { keyName } from '../terms/key-name.js';
import { count } from '../terms/number.js';
import { be, have, printHave } from '../terms/verb.js';

/** How many sharps a key signature has, flats negative. */
export interface KeySignatureSays {
  readonly fifths: number;
}

const signs = choice<KeySignatureSays>(
  map(
    sequence(
      count,
      wordsFor<1 | -1>([
        [1, 'sharps', 'sharp'],
        [-1, 'flats', 'flat'],
      ]),
    ),
    ([number, way]) => ({ fifths: number === 0 ? 0 : number * way }),
  ),
  map(word('no sharps or flats', 'no sharps and no flats', 'no flats or sharps', 'no accidentals'), () => ({
    fifths: 0,
  })),
);
const ofKey: Parser<KeySignatureSays> = map(
  sequence(quiet(optional(word('that of', 'the signature of', 'the key signature of'))), keyName),
  ([, key]) => ({ fifths: signatureOf(key) }),
);

const say = (fifths: number): string =>
  fifths === 0
    ? 'no sharps or flats'
    : `${String(Math.abs(fifths))} ${fifths > 0 ? 'sharp' : 'flat'}${Math.abs(fifths) === 1 ? '' : 's'}`;

const barsIn = ({ range }: Span, bars: readonly Bar[]): readonly Bar[] =>
  bars.filter(bar => isBefore(bar.start, range.end) && isBefore(range.start, endOf(bar)));

/** The key signature in force, which is not the key: claim D1 of the trade. */
export const keySignatureFamily = family<Span, KeySignatureSays>({
  name: 'key signature',
  examples: ['the piece has a key signature of 2 sharps'],
  phrases: [
    [have, map(sequence(word('a key signature of', 'a signature of'), signs), ([, says]) => says)],
    [have, map(sequence(word('the key signature of', 'the signature of'), ofKey), ([, says]) => says)],
  ],
  aspects: (['key signature', 'signature'] as const).flatMap(
    noun =>
      [
        [word(noun), be, signs],
        [word(noun), have, signs],
        [word(noun), be, ofKey],
      ] as const,
  ),
  print: ({ fifths }, form) => `${printHave(form)} a key signature of ${say(fifths)}`,
  check: (span, says, context, make): Finding<Span> => {
    const bars = barsIn(span, context.analysis.score.bars);
    const wrong = bars.find(bar => bar.key.fifths !== says.fifths);
    const shown = wrong ?? bars[0];
    return {
      verdict: wrong === undefined ? 'holds' : 'fails',
      code: wrong === undefined ? 'C0331' : 'C0332',
      reason:
        shown === undefined
          ? 'there are no bars'
          : `the signature of bar ${shown.label} has ${say(shown.key.fifths)}`,
      evidence: [],
      instead: () => (shown === undefined ? [] : [make({ fifths: shown.key.fifths })]),
    };
  },
});
