import { compare, isBefore, zero } from '../../score/index.js';
import type { Bar } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import {
  choice,
  map,
  mark,
  optional,
  quiet,
  refine,
  rule,
  sequence,
  shapes,
  token,
  word,
  wordsFor,
} from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { endOf } from '../place/beats.js';
import { barsOfSection, partsOf } from '../place/find-section.js';
import { printPlace } from '../place/place-name.js';
import { span as spanOf } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { statement } from '../statement.js';
import { article, withArticle } from '../terms/chord-name.js';
import { count } from '../terms/number.js';
import { be, have, printBe, printHave, verb } from '../terms/verb.js';
import { fails } from './form-question.js';
import type { Asked } from './form-question.js';
import { claimsOfNearBars } from './near-bars.js';
import { checkHalf, checkPeriod } from './period.js';
import type { Openings } from './period.js';
import { checkPhrase } from './phrase.js';
import { checkSentence } from './sentence-form.js';

/** Phrases, pairs of phrases, repeats, and how many bars there are. */
export type FormSays =
  | { readonly kind: 'phrase'; readonly bars?: number }
  | { readonly kind: 'period'; readonly openings?: Openings }
  | { readonly kind: 'sentence' | 'repeated' | 'antecedent' | 'consequent' }
  | { readonly kind: 'bars'; readonly bars: number }
  | { readonly kind: 'parts'; readonly number: number; readonly part: 'phrase' | 'section' }
  | { readonly kind: 'introduction'; readonly bars?: number };

const hyphenated = token({
  name: 'BarCount',
  label: 'a length such as `8-bar`',
  shape: shapes.inOrder(shapes.oneOrMore(shapes.character('0-9')), shapes.inAnyCase('-bar', '-measure')),
  value: matched => (/^\d{1,4}-/u.test(matched) ? Number.parseInt(matched, 10) : undefined),
});
const spoken = refine(
  sequence(count, quiet(optional(mark('-'))), word('bar', 'measure')),
  ([number]) => number,
  'a length such as `8-bar`',
);

const form: Parser<FormSays> = rule(
  'Form',
  () =>
    map(
      sequence(
        optional(choice(article, word('the'))),
        choice<FormSays>(
          map(sequence(optional(choice(hyphenated, spoken)), word('phrase')), ([bars]) =>
            bars === undefined ? { kind: 'phrase' } : { kind: 'phrase', bars },
          ),
          map(
            sequence(
              optional(
                wordsFor<Openings>([
                  ['parallel', 'parallel'],
                  ['contrasting', 'contrasting'],
                ]),
              ),
              word('period'),
            ),
            ([openings]) => (openings === undefined ? { kind: 'period' } : { kind: 'period', openings }),
          ),
          map(word('sentence'), () => ({ kind: 'sentence' })),
          map(word('antecedent'), () => ({ kind: 'antecedent' })),
          map(word('consequent'), () => ({ kind: 'consequent' })),
        ),
      ),
      ([, says]) => says,
    ),
  'a form such as `a phrase`, `a period` or `a sentence`',
);

const introductionNoun = word('introduction', 'piano introduction', 'intro', 'instrumental introduction');
const introduction: Parser<FormSays> = map(
  sequence(optional(choice(article, word('the'))), optional(choice(hyphenated, spoken)), introductionNoun),
  ([, bars]): FormSays => (bars === undefined ? { kind: 'introduction' } : { kind: 'introduction', bars }),
);

function describe(says: FormSays): string {
  switch (says.kind) {
    case 'phrase':
      return says.bars === undefined ? 'a phrase' : withArticle(`${String(says.bars)}-bar phrase`);
    case 'period':
      return says.openings === undefined ? 'a period' : `a ${says.openings} period`;
    case 'sentence':
      return 'a sentence';
    case 'antecedent':
      return 'an antecedent';
    case 'consequent':
      return 'a consequent';
    case 'repeated':
      return 'repeated';
    case 'bars':
      return `${String(says.bars)} ${says.bars === 1 ? 'bar' : 'bars'}`;
    case 'parts':
      return `${String(says.number)} ${says.part}${says.number === 1 ? '' : 's'}`;
    case 'introduction':
      return says.bars === undefined
        ? 'an introduction'
        : withArticle(`${String(says.bars)}-bar introduction`);
  }
}

const barsIn = (range: Range, context: ClaimContext): readonly Bar[] =>
  context.analysis.score.bars.filter(
    bar => isBefore(bar.start, range.end) && isBefore(range.start, endOf(bar)),
  );

/** Whether the repeat signs have bars played more than once. */
function checkRepeated({ bars, context }: Asked): Finding<Span> {
  const { bars: all, playingOrder } = context.analysis.score;
  const isOften = ({ index }: Bar): boolean => playingOrder.filter(played => played.bar === index).length > 1;
  // Alternative endings share their number: each is played once, and belongs to what is repeated where that is meant with it.
  const endings = bars.filter(
    bar => !isOften(bar) && all.some(other => other !== bar && other.number === bar.number),
  );
  const repeated = bars.filter(isOften);
  const once = bars.find(bar => !isOften(bar) && (repeated.length === 0 || !endings.includes(bar)));
  if (once !== undefined) return fails(`bar ${once.label} is played once`);
  return {
    verdict: 'holds',
    code: 'C1801',
    reason: `each bar is played more than once${endings.length === 0 ? '' : `, with bar ${endings.map(bar => bar.label).join(' and bar ')} as an ending`}`,
    evidence: [],
  };
}

/** How many phrases or sections some bars have. */
function checkParts(
  { span, context }: Asked,
  { number, part }: { readonly number: number; readonly part: 'phrase' | 'section' },
): Finding<Span> {
  const found = partsOf(part, span.range, context);
  if ('problem' in found)
    return { verdict: 'undecided', code: 'C0010', reason: found.problem, evidence: [], pointless: true };
  const names = found.map(each =>
    printPlace({ kind: 'bars', first: each[0]?.label ?? '', last: each.at(-1)?.label ?? '' }),
  );
  const reason = `${span.name} has ${String(found.length)} ${part}s: ${names.join(', ')}`;
  if (found.length === number) return { verdict: 'holds', code: 'C1801', reason, evidence: [] };
  return part === 'section' ? fails(reason) : { ...fails(reason), verdict: isOfTwice(number, found.length) };
}

/** Where half as many or twice as many are counted, another length of phrase may be meant. */
const isOfTwice = (said: number, found: number): 'undecided' | 'fails' =>
  said === 2 * found || found === 2 * said ? 'undecided' : 'fails';

/** Whether some bars are the introduction, or the piece has one. */
function checkIntroduction({ span, bars, context }: Asked, length: number | undefined): Finding<Span> {
  const found = barsOfSection({ kind: 'introduction' }, context);
  if ('problem' in found) return fails(found.problem);
  const [first, last] = [found[0]?.label ?? '', found.at(-1)?.label ?? ''];
  const own = bars.filter(bar => bar.number > 0);
  const isIt =
    span.place.kind === 'piece' || (own.length === found.length && own.every((bar, at) => bar === found[at]));
  const reason = `the uppermost line comes in after ${printPlace({ kind: 'bars', first, last })}`;
  return isIt && (length === undefined || length === found.length)
    ? { verdict: 'holds', code: 'C1801', reason, evidence: [] }
    : fails(reason);
}

/** Phrases, periods, sentences, repeats: claims K1, K4, K5 and M2 of the trade. */
export const formFamily = family<Span, FormSays>({
  name: 'form',
  examples: [
    'bars 1-8 are an 8-bar phrase',
    'bars 1-16 are a parallel period',
    'bars 1-8 are a sentence',
    'bars 1-8 are repeated',
    'the piece has 32 bars',
  ],
  phrases: [
    [be, form],
    [verb('forms', 'form'), form],
    [verb('makes', 'make'), form],
    [
      be,
      map(sequence(count, word('bars', 'bar', 'measures', 'measure'), word('long')), ([bars]): FormSays => ({
        kind: 'bars',
        bars,
      })),
    ],
    [be, map(word('repeated'), (): FormSays => ({ kind: 'repeated' }))],
    [be, introduction],
    [have, introduction],
    [
      have,
      map(
        sequence(
          count,
          wordsFor<'phrase' | 'section'>([
            ['phrase', 'phrases', 'phrase'],
            ['section', 'sections', 'section', 'strains', 'strain'],
          ]),
        ),
        ([number, part]): FormSays => ({ kind: 'parts', number, part }),
      ),
    ],
    [
      have,
      map(sequence(count, word('bars', 'bar', 'measures', 'measure')), ([bars]): FormSays => ({
        kind: 'bars',
        bars,
      })),
    ],
  ],
  print: (says, form_) =>
    ['bars', 'parts', 'introduction'].includes(says.kind)
      ? `${printHave(form_)} ${describe(says)}`
      : `${printBe(form_)} ${describe(says)}`,
  check: (span, says, context, make): Finding<Span> => {
    const asked: Asked = { span, bars: barsIn(span.range, context), context };
    const all = asked.bars.filter(bar => bar.number > 0);
    const lengths = () => [make({ kind: 'phrase', bars: all.length }), make({ kind: 'phrase' })];
    const period = () => [make({ kind: 'period' })];
    const near = () => claimsOfNearBars(all, make(says), context);
    switch (says.kind) {
      case 'phrase':
        // The same bars of another length, or two phrases: else other bars, which need not be those next to the place.
        return {
          ...checkPhrase(asked, says.bars),
          instead: () => [...(says.bars === undefined ? [] : lengths()), ...period()],
          rather: near,
          local: true,
        };
      case 'period':
        return {
          ...checkPeriod(asked, says.openings),
          instead: period,
          rather: () => [...near(), ...lengths().map(each => statement(spanOf(span.place), each))],
          local: true,
        };
      case 'sentence':
        // What is no sentence may be a period, and that says more than its length.
        return { ...checkSentence(asked), instead: () => [...period(), ...lengths()] };
      case 'antecedent':
      case 'consequent':
        return { ...checkHalf(asked, says.kind), instead: period, rather: near, local: true };
      case 'repeated':
        return checkRepeated(asked);
      case 'parts':
        return { ...checkParts(asked, says), local: true };
      case 'introduction':
        return { ...checkIntroduction(asked, says.bars), local: true };
      case 'bars': {
        // Printed numbers: a bar cut by a repeat sign counts once, alternative endings share theirs.
        const numbers = new Set(all.map(bar => bar.number)).size;
        const pickup = asked.bars.some(bar => bar.number === 0 && compare(bar.length, zero) > 0);
        return {
          verdict: numbers === says.bars ? 'holds' : 'fails',
          code: numbers === says.bars ? 'C1801' : 'C1804',
          reason: `${span.name} has ${String(numbers)} numbered bars${pickup ? ' and a pickup, which is not counted' : ''}`,
          evidence: [],
          instead: () => [make({ kind: 'bars', bars: numbers })],
        };
      }
    }
  },
});
