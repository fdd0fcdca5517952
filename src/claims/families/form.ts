import type { Code } from '../../diagnostics/index.js';
import { compare, isBefore, zero } from '../../score/index.js';
import type { Bar } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
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
import type { ClaimContext, Evidence, Range } from '../model.js';
import { endOf } from '../place/beats.js';
import { barsOfSection, partsOf } from '../place/find-section.js';
import { printPlace } from '../place/place-name.js';
import { isPlural } from '../place/place.js';
import { liesIn } from '../segments.js';
import { soundingIn } from '../subjects/sounding.js';
import { span as spanOf } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { statement } from '../statement.js';
import { article, withArticle } from '../terms/chord-name.js';
import { count } from '../terms/number.js';
import { be, have, printBe, printHave, verb } from '../terms/verb.js';
import {
  barsOfPhrase,
  barsWithFermata,
  beginsPhrase,
  cadencesIn,
  closesOf,
  finality,
  stopOnDominant,
} from './closes.js';
import type { Close } from './closes.js';
import { claimsOfNearBars } from './near-bars.js';
import { likeness, rhythmOf } from './likeness.js';

/** How the two phrases of a period begin: alike or not (Open Music Theory, The phrase, archetypes, and unique forms; Hutchinson, Periods). */
type Openings = 'parallel' | 'contrasting';

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

const evidenceOf = (
  cadences: readonly Close[],
  role: Evidence['role'],
  context: ClaimContext,
): readonly Evidence[] =>
  cadences.flatMap(cadence =>
    soundingIn(context.analysis.score, { start: cadence.onset, end: cadence.onset })
      .slice(-1)
      .map(note => noteEvidence(role, note, `${cadence.kind} cadence`, context)),
  );

interface Asked {
  readonly span: Span;
  readonly bars: readonly Bar[];
  readonly context: ClaimContext;
}

const fails = (reason: string, evidence: readonly Evidence[] = []): Finding<Span> => ({
  verdict: 'fails',
  code: 'C1802',
  reason,
  evidence,
});

/**
 * Why a close is disputed as the end of a phrase. Hutchinson counts the deceptive cadence among the cadences that end phrases; Open Music
 * Theory hears a close that is put off, so that the phrase goes on.
 */
const disputedClose = ({ kind }: Close): string | undefined =>
  kind === 'deceptive'
    ? 'Hutchinson counts it as the end of a phrase, Open Music Theory hears the phrase go on to its close'
    : undefined;

/** Where fermatas mark the ends of phrases, one within a phrase ends one, and an end without one is none. */
function fermataDoubt(full: readonly Bar[], context: ClaimContext): string | undefined {
  const held = barsWithFermata(context);
  const last = full.at(-1);
  if (last === undefined || held.length === 0) return undefined;
  const within = full.slice(0, -1).find(bar => held.includes(bar));
  if (within !== undefined)
    return `, but the fermata in bar ${within.label} marks the end of a phrase within it`;
  return held.includes(last)
    ? undefined
    : `, but the phrases end with fermatas, and bar ${last.label} has none`;
}

/** The close in the bar half-way: V is one where the second half begins as the first did. */
function closeHalfWay(full: readonly Bar[], context: ClaimContext): Close | undefined {
  const middle = full[Math.ceil(full.length / 2) - 1];
  if (middle === undefined || full.length < 2 * barsOfPhrase) return undefined;
  const [close] = closesOf(middle, context);
  return close ?? (comesBackHalfWay(full, context) ? stopOnDominant(middle, context) : undefined);
}

/** Whether the second half of some bars begins as the first does, as the two phrases of a parallel period do. */
function comesBackHalfWay(full: readonly Bar[], context: ClaimContext): boolean {
  const [opens] = full;
  const next = full[Math.ceil(full.length / 2)];
  return opens !== undefined && next !== undefined && likeness(opens, next, context) === 'same';
}

/** What makes a form arguable; the reason is said after the cadences that make it. */
interface Doubt {
  readonly code: Code;
  readonly reason: string;
}

/** What speaks against one phrase although it closes: another close within it, or a close that books dispute. */
function doubtOf({ span, bars, context }: Asked, close: Close): Doubt | undefined {
  const full = bars.filter(bar => bar.number > 0);
  const inside = cadencesIn(span.range, context).filter(
    each => isBefore(each.onset, close.onset) && each.kind !== 'evaded',
  );
  const barOf = (each: Close): number =>
    full.findIndex(bar => liesIn(each.onset, { start: bar.start, end: endOf(bar) })) + 1;
  // What arrives in the first half has not had the time to close a phrase, and a plainer stop behind it outweighs it.
  // Where the next phrase begins as this one, the two are marked off as units.
  const opens = full[0];
  const next = context.analysis.score.bars[(full.at(-1)?.index ?? 0) + 1];
  const isAnswered =
    opens !== undefined &&
    next !== undefined &&
    ['same', 'transposed'].includes(likeness(opens, next, context));
  const early = isAnswered
    ? undefined
    : inside.find(
        each =>
          finality(each) >= finality(close) &&
          (close.strength === 0 || each.strength >= close.strength) &&
          barOf(each) >= full.length / 2,
      );
  if (early !== undefined)
    return {
      code: 'C1803',
      reason: `, but ${withArticle(early.kind)} cadence within it already closes as firmly`,
    };
  const halfWay = comesBackHalfWay(full, context) ? closeHalfWay(full, context) : undefined;
  const between = [...inside, ...(halfWay === undefined ? [] : [halfWay])].find(
    each => finality(each) > 0 && barOf(each) >= barsOfPhrase && full.length - barOf(each) >= barsOfPhrase,
  );
  if (between !== undefined)
    return {
      code: 'C1803',
      reason: `, but ${withArticle(between.kind)} cadence in bar ${full[barOf(between) - 1]?.label ?? ''} already ends a phrase: many would count two`,
    };
  const marked = fermataDoubt(full, context);
  if (marked !== undefined) return { code: 'C1803', reason: marked };
  const introduced = introducedBy(full, context);
  if (introduced !== undefined) return { code: 'C1807', reason: `, but ${introduced}` };
  const disputed = disputedClose(close);
  return disputed === undefined ? undefined : { code: 'C1805', reason: `: ${disputed}` };
}

/** What speaks against a form whose bars begin with the introduction of a voice: most count from where it enters. */
function introducedBy(full: readonly Bar[], { analysis }: ClaimContext): string | undefined {
  const enters = full.find(({ index }) => index === analysis.opens);
  return enters === undefined || enters === full[0]
    ? undefined
    : `the voice enters in bar ${enters.label}: what comes before introduces it`;
}

/** What begins where nothing has closed is the end of a longer phrase. */
const midPhrase = (bar: Bar): Finding<Span> =>
  fails(`nothing closes before bar ${bar.label}: it goes on with the phrase that has begun earlier`);

function checkPhrase(asked: Asked, length: number | undefined): Finding<Span> {
  const { span, bars, context } = asked;
  const full = bars.filter(bar => bar.number > 0);
  if (length !== undefined && full.length !== length)
    return fails(
      `${span.name} ${full.length === 1 ? 'is' : 'are'} ${String(full.length)} full bars, counted with the first and the last`,
    );
  const [close] = closesOf(bars.at(-1), context);
  if (close === undefined)
    return fails(
      `no cadence arrives in the last bar of ${span.name}: Open Music Theory and Hutchinson ask a phrase to end with one`,
    );
  const [start] = full;
  if (start !== undefined && !beginsPhrase(start, context)) return midPhrase(start);
  const doubt = doubtOf(asked, close);
  return {
    verdict: doubt === undefined ? 'holds' : 'arguable',
    code: doubt?.code ?? 'C1801',
    reason: `it ends with ${withArticle(close.kind)} cadence${doubt?.reason ?? ''}`,
    evidence: evidenceOf([close], 'supports', context),
  };
}

function checkPeriod({ span, bars, context }: Asked, openings: Openings | undefined): Finding<Span> {
  const last = bars.at(-1);
  if (last === undefined) return fails('there are no bars');
  const all = bars.filter(bar => bar.number > 0);
  // The phrases are counted from where the melody enters.
  const full = all.filter(({ index }) => index >= context.analysis.opens);
  const middle = full[Math.ceil(full.length / 2) - 1];
  const final = closesOf(last, context).at(-1);
  const listed: readonly Close[] = cadencesIn(span.range, context);
  const halfWay = closeHalfWay(full, context);
  const closes = halfWay === undefined || listed.includes(halfWay) ? listed : [halfWay, ...listed];
  const barOf = (each: Close): number =>
    full.findIndex(bar => liesIn(each.onset, { start: bar.start, end: endOf(bar) })) + 1;
  // Two phrases of a period are about as long as each other, and neither is a single bar.
  const earlier = closes.filter(each => {
    const [one, other] = [barOf(each), full.length - barOf(each)];
    return (
      each.kind !== 'evaded' &&
      (final === undefined || isBefore(each.onset, final.onset)) &&
      Math.min(one, other) > 1 &&
      Math.max(one, other) <= 2 * Math.min(one, other)
    );
  });
  // The first phrase closes half-way where it can, and else where the firmest close is.
  const first =
    earlier.find(
      each => middle !== undefined && liesIn(each.onset, { start: middle.start, end: endOf(middle) }),
    ) ?? [...earlier].sort((a, b) => b.strength - a.strength)[0];
  if (final === undefined || first === undefined)
    return fails(
      `a period has two phrases, each with its cadence; ${span.name} ${isPlural(span.place) ? 'have' : 'has'} ${closes.length === 0 ? 'none' : final === undefined ? 'none at the end' : 'none half-way'}`,
      evidenceOf(closes, 'contradicts', context),
    );
  const [begins] = all;
  if (begins !== undefined && !beginsPhrase(begins, context)) return midPhrase(begins);
  const pair = `${first.kind}, then ${final.kind}`;
  if (finality(first) >= finality(final))
    return fails(
      `the first cadence is not weaker than the second: ${pair}${finality(first) === finality(final) ? '; two equal closes make a repetition' : ''}`,
      evidenceOf([first, final], 'contradicts', context),
    );
  if (!final.kind.endsWith('authentic'))
    return fails(
      `the second phrase of a period closes with an authentic cadence: ${pair}`,
      evidenceOf([first, final], 'contradicts', context),
    );
  const second = bars.find(bar => compare(bar.start, first.onset) > 0);
  const [opens] = full;
  const like = opens === undefined || second === undefined ? 'other' : likeness(opens, second, context);
  if (openings === 'contrasting' && like !== 'other' && like !== 'contour')
    return fails(
      `${pair}, but the two phrases begin alike, which makes the period parallel`,
      evidenceOf([first, final], 'set aside', context),
    );
  if (openings === 'parallel' && like === 'other')
    return fails(
      `${pair}, but the two phrases do not begin alike`,
      evidenceOf([first, final], 'set aside', context),
    );
  const isPartly = openings !== undefined && like === 'contour';
  const disputed = disputedClose(first);
  const introduced = introducedBy(all, context);
  const doubt: Doubt | undefined =
    disputed !== undefined
      ? { code: 'C1805', reason: `: ${disputed}` }
      : isPartly
        ? { code: 'C1806', reason: ': the phrases begin alike in rhythm and contour only' }
        : introduced === undefined
          ? undefined
          : { code: 'C1807', reason: `, but ${introduced}` };
  return {
    verdict: doubt === undefined ? 'holds' : 'arguable',
    code: doubt?.code ?? 'C1801',
    reason: `${pair}${doubt?.reason ?? ''}`,
    evidence: evidenceOf([first, final], 'supports', context),
  };
}

/** One of the two phrases of a period: with the phrase as long before or behind it. */
function checkHalf({ span, bars, context }: Asked, half: 'antecedent' | 'consequent'): Finding<Span> {
  const full = bars.filter(bar => bar.number > 0);
  const [first] = full;
  const last = full.at(-1);
  const { bars: all } = context.analysis.score;
  if (first === undefined || last === undefined) return fails('there are no bars');
  const other = all.slice(
    half === 'antecedent' ? last.index + 1 : Math.max(0, first.index - full.length),
    half === 'antecedent' ? last.index + 1 + full.length : first.index,
  );
  const both = half === 'antecedent' ? [...full, ...other] : [...other, ...full];
  const ends = half === 'antecedent' ? last : other.at(-1);
  if (ends !== undefined && closesOf(ends, context).length === 0)
    return fails(`no cadence ends the first phrase in bar ${ends.label}`);
  const [opens] = both;
  const closes = both.at(-1);
  if (other.length < full.length || opens === undefined || closes === undefined)
    return fails(
      `no phrase as long as ${span.name} ${half === 'antecedent' ? 'follows' : 'comes before'} it`,
    );
  return checkPeriod(
    { span: { ...span, range: { start: opens.start, end: endOf(closes) } }, bars: both, context },
    undefined,
  );
}

/** A sentence: an idea, its repetition, a continuation as long as both that ends with a cadence. */
function checkSentence({ span, bars, context }: Asked): Finding<Span> {
  const full = bars.filter(bar => bar.number > 0);
  if (full.length % 4 !== 0 || full.length === 0)
    return fails(
      `${String(full.length)} bars do not divide into idea, repetition and a continuation as long as both`,
    );
  const [start] = full;
  if (start !== undefined && !beginsPhrase(start, context)) return midPhrase(start);
  const quarter = full.length / 4;
  const alike = full.slice(0, quarter).every((bar, at) => {
    const copy = full[at + quarter];
    return copy !== undefined && rhythmOf(bar, context) === rhythmOf(copy, context);
  });
  const last = full.at(-1);
  const closes = closesOf(last, context);
  const [close] = closes;
  if (!alike)
    return fails(
      `the second ${String(quarter)} ${quarter === 1 ? 'bar does' : 'bars do'} not repeat the rhythm of the first in ${span.name}`,
    );
  if (close === undefined) return fails('no cadence ends the continuation');
  const copy = full[quarter];
  // The repetition of an idea leaves it open: what closes with it, and begins again, are two phrases.
  const [answered] = closesOf(full[2 * quarter - 1], context);
  const isComplete = answered !== undefined && finality(answered) >= finality(close);
  if (answered !== undefined && (isComplete || comesBackHalfWay(full, context)))
    return fails(
      `${withArticle(answered.kind)} cadence closes the repetition${isComplete ? '' : ', and the second half begins as the first did'}: two phrases rather than one`,
      evidenceOf([answered], 'contradicts', context),
    );
  const like = start === undefined || copy === undefined ? 'other' : likeness(start, copy, context);
  // One bar is short for an idea, and a rhythm that returns need not be a repetition.
  const doubt =
    disputedClose(close) ??
    (quarter < 2
      ? 'an idea of a single bar is short for a sentence'
      : answered !== undefined
        ? `${withArticle(answered.kind)} cadence closes the repetition already`
        : like === 'other'
          ? 'the repetition keeps the rhythm of the idea, but not its contour'
          : undefined);
  return {
    verdict: doubt === undefined ? 'holds' : 'arguable',
    code: doubt === undefined ? 'C1801' : disputedClose(close) === undefined ? 'C1806' : 'C1805',
    reason: `idea and repetition of ${String(quarter)} ${quarter === 1 ? 'bar' : 'bars'} each, then a continuation to ${withArticle(close.kind)} cadence${doubt === undefined ? '' : `: ${doubt}`}`,
    evidence: evidenceOf(closes, 'supports', context),
  };
}

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
