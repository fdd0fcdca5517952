import { isCompound, isBefore } from '../../score/index.js';
import type { Bar, Meter } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { choice, map, optional, rule, sequence, shapes, token, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { endOf } from '../place/beats.js';
import type { Span } from '../subjects/span.js';
import { count } from '../terms/number.js';
import { be, have, printBe, printHave } from '../terms/verb.js';

type Division = 'simple' | 'compound';

/** The metre of a place: its signature, its kind, or its number of beats. */
export type MeterSays =
  | { readonly kind: 'signature'; readonly text: string }
  | { readonly kind: 'type'; readonly division?: Division; readonly beats?: 2 | 3 | 4 }
  | { readonly kind: 'beats'; readonly beats: number };

const { character, inOrder, oneOf, oneOrMore, text } = shapes;
const digits = oneOrMore(character('0-9'));

const signature = token({
  name: 'TimeSignature',
  label: 'a time signature such as `3/4`',
  shape: inOrder(digits, text('/'), oneOf('16', '32', '1', '2', '4', '8')),
  value: (matched): MeterSays => ({ kind: 'signature', text: matched }),
});
const divisions = wordsFor<Division>([
  ['simple', 'simple'],
  ['compound', 'compound'],
]);
const sizes = wordsFor<2 | 3 | 4>([
  [2, 'duple'],
  [3, 'triple'],
  [4, 'quadruple'],
]);
const noun = word('time', 'metre', 'meter');

const kind: Parser<MeterSays> = choice(
  map(sequence(divisions, optional(sizes), noun), ([division, beats]): MeterSays =>
    beats === undefined ? { kind: 'type', division } : { kind: 'type', division, beats },
  ),
  map(sequence(sizes, noun), ([beats]): MeterSays => ({ kind: 'type', beats })),
);
const complement: Parser<MeterSays> = rule(
  'Metre',
  () =>
    choice(
      map(sequence(signature, optional(noun)), ([says]) => says),
      kind,
    ),
  'a metre such as `3/4` or `compound duple time`',
);

/** Beats as a conductor counts them: in compound metre a third of the upper number (common practice). */
const beatsOf = (meter: Meter): number => (isCompound(meter) ? meter.beats / 3 : meter.beats);

function fits(meter: Meter, says: MeterSays): boolean {
  switch (says.kind) {
    case 'signature':
      return meter.text === says.text;
    case 'type':
      return (
        (says.division === undefined || (says.division === 'compound') === isCompound(meter)) &&
        (says.beats === undefined || says.beats === beatsOf(meter))
      );
    case 'beats':
      return beatsOf(meter) === says.beats;
  }
}

const barsIn = ({ range }: Span, context: ClaimContext): readonly Bar[] =>
  context.analysis.score.bars.filter(
    bar => isBefore(bar.start, range.end) && isBefore(range.start, endOf(bar)),
  );

function describe(meter: Meter): string {
  const size = ({ 2: 'duple', 3: 'triple', 4: 'quadruple' } as Readonly<Record<number, string>>)[
    beatsOf(meter)
  ];
  const division = isCompound(meter) ? 'compound' : 'simple';
  return `${meter.text}, ${division}${size === undefined ? '' : ` ${size}`} time with ${String(beatsOf(meter))} beats`;
}

/** Time signatures and kinds of metre: claim M1 of the trade. */
export const meterFamily = family<Span, MeterSays>({
  name: 'metre',
  examples: ['the piece is in 3/4 time', 'bars 1-8 are in simple triple time', 'bar 5 has 3 beats'],
  phrases: [
    [be, map(sequence(word('in'), complement), ([, says]) => says)],
    [have, map(sequence(count, word('beats', 'beat')), ([beats]): MeterSays => ({ kind: 'beats', beats }))],
  ],
  print: (says, form) => {
    switch (says.kind) {
      case 'signature':
        return `${printBe(form)} in ${says.text} time`;
      case 'type': {
        const size =
          says.beats === undefined ? undefined : { 2: 'duple', 3: 'triple', 4: 'quadruple' }[says.beats];
        return `${printBe(form)} in ${[says.division, size, 'time'].filter(each => each !== undefined).join(' ')}`;
      }
      case 'beats':
        return `${printHave(form)} ${String(says.beats)} ${says.beats === 1 ? 'beat' : 'beats'}`;
    }
  },
  check: (span, says, context, make): Finding<Span> => {
    const bars = barsIn(span, context);
    const wrong = bars.find(bar => !fits(bar.meter, says));
    const [first] = bars;
    if (wrong === undefined)
      return {
        verdict: 'holds',
        code: 'C1601',
        reason: first === undefined ? '' : `the metre is ${describe(first.meter)}`,
        evidence: [],
      };
    const signatureOf = (bar: Bar): MeterSays => ({ kind: 'signature', text: bar.meter.text });
    // In compound metre the upper number counts the divisions: 6/8 has two beats, and six are counted in a slow tempo.
    const divided = says.kind === 'beats' && says.beats === wrong.meter.beats;
    return {
      verdict: divided ? 'arguable' : 'fails',
      code: divided ? 'C1603' : 'C1602',
      reason: divided
        ? `${wrong.meter.text} has ${String(beatsOf(wrong.meter))} dotted beats of three divisions; ${String(says.beats)} are counted only in a slow tempo`
        : `bar ${wrong.label} is in ${describe(wrong.meter)}`,
      evidence: [],
      instead: () => [make(signatureOf(wrong)), make({ kind: 'beats', beats: beatsOf(wrong.meter) })],
    };
  },
});
