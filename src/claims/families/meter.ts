import { isCompound, isBefore } from '../../score/index.js';
import type { Bar, Meter } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import {
  choice,
  map,
  nothing,
  optional,
  quiet,
  rule,
  sequence,
  shapes,
  token,
  word,
  wordsFor,
} from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { endOf } from '../place/beats.js';
import type { Span } from '../subjects/span.js';
import { count } from '../terms/number.js';
import { be, have, printBe, printHave, printVerb, verb } from '../terms/verb.js';

type Division = 'simple' | 'compound';

/** The metre of a place: its signature, its kind, or its number of beats. */
export type MeterSays =
  | { readonly kind: 'signature'; readonly text: string }
  | { readonly kind: 'type'; readonly division?: Division; readonly beats?: 2 | 3 | 4 }
  | { readonly kind: 'beats'; readonly beats: number }
  /** Another signature than the bar before. */
  | { readonly kind: 'changes'; readonly text?: string };

const { character, inOrder, oneOf, oneOrMore, text } = shapes;
const digits = oneOrMore(character('0-9'));

const signature = token({
  name: 'TimeSignature',
  label: 'a time signature such as `3/4`',
  shape: inOrder(digits, text('/'), oneOf('16', '32', '1', '2', '4', '8')),
  value: (matched): MeterSays => ({ kind: 'signature', text: matched }),
});
/** `three-four time`. */
const spokenSignature = wordsFor<MeterSays>(
  (
    [
      ['2/4', 'two-four'],
      ['3/4', 'three-four'],
      ['4/4', 'four-four'],
      ['2/2', 'two-two'],
      ['3/8', 'three-eight'],
      ['6/8', 'six-eight'],
      ['9/8', 'nine-eight'],
      ['12/8', 'twelve-eight'],
      // What the signs C and C with a stroke stand for (common practice).
      ['4/4', 'common'],
      ['2/2', 'cut'],
      ['2/2', 'alla breve'],
    ] as const
  ).map(([text_, said]) => [{ kind: 'signature', text: text_ }, said] as const),
);
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
      map(
        sequence(choice(signature, spokenSignature), optional(noun), quiet(optional(word('throughout')))),
        ([says]) => says,
      ),
      kind,
    ),
  'a metre such as `3/4` or `compound duple time`',
);

const meterNoun = word('time signature', 'metre', 'meter', 'time');
const bareKind: Parser<MeterSays> = choice(
  map(sequence(divisions, optional(sizes)), ([division, beats]): MeterSays =>
    beats === undefined ? { kind: 'type', division } : { kind: 'type', division, beats },
  ),
  map(sizes, (beats): MeterSays => ({ kind: 'type', beats })),
);
const textOf = (says: MeterSays): { readonly text?: string } =>
  says.kind === 'signature' ? { text: says.text } : {};

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
    case 'changes':
      return says.text === undefined || meter.text === says.text;
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

const changingTo: Parser<MeterSays> = map(
  optional(map(sequence(word('to'), signature), ([, says]) => says)),
  says => ({
    kind: 'changes',
    ...(says === undefined ? {} : textOf(says)),
  }),
);

/** `3 beats in a bar`. */
const beatsOfBar: Parser<MeterSays> = map(
  sequence(
    count,
    word('beats', 'beat'),
    quiet(
      optional(
        word(
          'in a bar',
          'in each bar',
          'in every bar',
          'per bar',
          'to a bar',
          'a bar',
          'in a measure',
          'per measure',
        ),
      ),
    ),
  ),
  ([beats]) => ({ kind: 'beats', beats }),
);

/** Time signatures and kinds of metre: claim M1 of the trade. */
export const meterFamily = family<Span, MeterSays>({
  name: 'metre',
  examples: ['the piece is in 3/4 time', 'bars 1-8 are in simple triple time', 'bar 5 has 3 beats'],
  phrases: [
    [verb('changes metre', 'change metre'), changingTo],
    [verb('changes meter', 'change meter'), changingTo],
    [be, map(sequence(word('in'), complement), ([, says]) => says)],
    [have, beatsOfBar],
  ],
  aspects: [
    [meterNoun, be, complement],
    [meterNoun, be, bareKind],
    [word('measure', 'bar'), be, signature],
    [word('bars', 'measures'), have, beatsOfBar],
    [
      meterNoun,
      verb('changes to', 'change to'),
      map(signature, (says): MeterSays => ({ kind: 'changes', ...textOf(says) })),
    ],
    [meterNoun, verb('changes', 'change'), nothing<MeterSays>({ kind: 'changes' })],
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
      case 'changes':
        return `${printVerb('changes metre', 'change metre', form)}${says.text === undefined ? '' : ` to ${says.text}`}`;
      case 'beats':
        return `${printHave(form)} ${String(says.beats)} ${says.beats === 1 ? 'beat' : 'beats'}`;
    }
  },
  check: (span, says, context, make): Finding<Span> => {
    const bars = barsIn(span, context);
    if (says.kind === 'changes') {
      const { bars: all } = context.analysis.score;
      const turns = bars.filter(bar => {
        const before = all[bar.index - 1];
        return before !== undefined && before.meter.text !== bar.meter.text;
      });
      const found = turns.find(bar => fits(bar.meter, says));
      const shown = found ?? turns[0] ?? bars[0];
      return {
        verdict: found === undefined ? 'fails' : 'holds',
        code: found === undefined ? 'C1602' : 'C1601',
        reason:
          turns.length === 0
            ? `the metre of ${span.name} is that of the bar before, ${shown === undefined ? '' : shown.meter.text}`
            : `bar ${shown?.label ?? ''} is in ${shown?.meter.text ?? ''}, the bar before in ${all[(shown?.index ?? 1) - 1]?.meter.text ?? ''}`,
        evidence: [],
        instead: () => (shown === undefined ? [] : [make({ kind: 'signature', text: shown.meter.text })]),
      };
    }
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
