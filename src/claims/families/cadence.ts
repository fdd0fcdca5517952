import { inversionOf, isUnread, judgeCadence, parseRomanNumeral, sameKey } from '../../harmony/index.js';
import type { Cadence, CadenceKind, CadenceQuestion, Judgement, Key, Segment } from '../../harmony/index.js';
import { compare, isBefore, midiOf } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import { isHeldInto } from '../evidence.js';
import { soundingIn } from '../subjects/sounding.js';
import { barAt, endOf } from '../place/beats.js';
import type { Claim, Finding, Judged, Predicate } from '../claim.js';
import { statement } from '../statement.js';
import { family } from '../family.js';
import { choice, map, mark, optional, quiet, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Conventions, Range } from '../model.js';
import { sayMoment } from '../place/say-moment.js';
import { harmoniesOf } from '../subjects/harmonies.js';
import { rangeOrMoment, span as spanOf } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { inKeyReference, printKeyReference, withKeyMeant } from '../terms/key-reference.js';
import type { KeyRef } from '../terms/key-reference.js';
import { be, have, haveNo, printBe, printHave, printVerb, reach, verb } from '../terms/verb.js';
import { article, withArticle } from '../terms/chord-name.js';
import { isSupported, judged, silence } from './judged.js';
import { liesIn, segmentsIn } from '../segments.js';
import type { Codes } from './judged.js';

/** A cadence as it is called. `perfect` and `imperfect` alone mean different things in Britain and America. */
export type CadenceName =
  CadenceKind | 'authentic' | 'Phrygian half' | 'perfect' | 'imperfect' | 'interrupted';

export interface CadenceSays {
  /** `ends`: the cadence is the last thing in the place. */
  readonly how: 'is' | 'has' | 'ends';
  readonly name: CadenceName;
  readonly key?: KeyRef;
}

/** The same with its key by name. */
type Meant = Omit<CadenceSays, 'key'> & { readonly key?: Key };

const codes: Codes = { supported: 'C0501', rivalled: 'C0502', open: 'C0503', contradicted: 'C0504' };

type Asked = Pick<CadenceQuestion, 'kind' | 'phrygian'>;

/** What a name asks for under the naming of a country (UK names: from memory, ABRSM usage). */
function questionOf(name: CadenceName, names: Conventions['cadence-names']): Asked {
  switch (name) {
    case 'Phrygian half':
      return { kind: 'half', phrygian: true };
    case 'perfect':
      return { kind: names === 'UK' ? 'authentic' : 'perfect authentic' };
    case 'imperfect':
      return { kind: names === 'UK' ? 'half' : 'imperfect authentic' };
    case 'interrupted':
      return { kind: 'deceptive' };
    case 'authentic':
    case 'perfect authentic':
    case 'imperfect authentic':
    case 'half':
    case 'deceptive':
    case 'plagal':
    case 'evaded':
      return { kind: name };
  }
}

/** The kinds of cadence without their noun. */
const cadenceKind = wordsFor<CadenceName>([
  ['perfect authentic', 'perfect authentic'],
  ['imperfect authentic', 'imperfect authentic'],
  ['authentic', 'authentic', 'full'],
  ['Phrygian half', 'Phrygian half', 'Phrygian'],
  ['half', 'half', 'semi'],
  ['deceptive', 'deceptive'],
  ['plagal', 'plagal', 'Amen'],
  ['evaded', 'evaded'],
  ['perfect', 'perfect'],
  ['imperfect', 'imperfect'],
  ['interrupted', 'interrupted'],
]);
const cadenceName: Parser<CadenceName> = choice(
  map(
    sequence(
      cadenceKind,
      quiet(optional(mark('-'))),
      word('cadence', 'cadences', 'close', 'closes'),
      quiet(optional(word('on V', 'on the dominant', 'to vi', 'to VI', 'on I', 'on i', 'on the tonic'))),
    ),
    ([name]) => name,
  ),
  wordsFor<CadenceName>([
    ['perfect authentic', 'PAC'],
    ['imperfect authentic', 'IAC'],
    ['half', 'HC', 'semicadence'],
    ['deceptive', 'DC'],
    ['plagal', 'PC'],
  ]),
);

/** `a half cadence`. */
export const aCadence = rule(
  'Cadence',
  () => map(sequence(optional(choice(article, word('the', 'another'))), cadenceName), ([, name]) => name),
  'a cadence such as `a half cadence`',
);

const cadenceNoun = word('cadence', 'close');

const cadence = (how: CadenceSays['how']): Parser<CadenceSays> =>
  map(sequence(aCadence, inKeyReference), ([name, key]) =>
    key === undefined ? { how, name } : { how, name, key },
  );

/** The range in which the arrival is looked for: `ends with` looks at the last bar of the place alone. */
function rangeFor(span: Span, how: CadenceSays['how'], context: ClaimContext): Range {
  if (how !== 'ends') return rangeOrMoment(span);
  const { range } = span;
  const bars = context.analysis.score.bars.filter(bar => liesIn(bar.start, range));
  const last = bars.at(-1) ?? barAt(context.analysis.score, range.start);
  return last === undefined ? range : { start: last.start, end: range.end };
}

const arrivalsIn = (range: Range, context: ClaimContext): readonly Cadence[] =>
  context.analysis.cadences.filter(each => liesIn(each.onset, range));

/**
 * The chord at a beat that has begun in an earlier bar over a bass that is only held on: what arrives at a cadence begins there (claim F4 of the trade). Within the bar the
 * beat may be the one at which a suspension or a six-four has resolved.
 */
function heldFromEarlierBar(span: Span, context: ClaimContext): Segment | undefined {
  const { moment } = span;
  const bar = moment === undefined ? undefined : barAt(context.analysis.score, moment);
  if (moment === undefined || bar === undefined) return undefined;
  const [chord] = harmoniesOf(context.analysis.segments).filter(
    each => compare(each.start, moment) <= 0 && isBefore(moment, each.end),
  );
  // A bass that is struck there may begin the chord anew, even where it was heard before.
  const bass = soundingIn(context.analysis.score, { start: moment, end: moment }).reduce<Note | undefined>(
    (low, note) => (low === undefined || midiOf(note.pitch) < midiOf(low.pitch) ? note : low),
    undefined,
  );
  const isHeld = bass !== undefined && isHeldInto(bass, { start: moment, end: moment });
  return isHeld && chord !== undefined && isBefore(chord.start, bar.start) ? chord.segments[0] : undefined;
}

/**
 * The convention that decides whether what was found is a cadence at all: an authentic one over an inverted dominant or the
 * leading-tone chord (Hutchinson: imperfect authentic; Open Music Theory: none), a half cadence on V7 (Open Music Theory: almost
 * invariably a triad).
 */
function disputed(kind: Asked['kind'], range: Range, context: ClaimContext): string | undefined {
  const { segments } = context.analysis;
  const found = arrivalsIn(range, context).find(each => each.kind === kind);
  const arrival =
    segments[found?.segments.at(-1) ?? -1] ??
    segmentsIn(context.analysis, range).findLast(
      segment => kind !== 'half' || segment.function === 'dominant',
    );
  if (arrival === undefined) return undefined;
  const before = segments[segments.indexOf(arrival) - 1];
  if (kind === 'imperfect authentic' && before !== undefined) {
    const numeral = parseRomanNumeral(before.roman);
    const inverted = !isUnread(numeral) && (numeral.degree === 7 || inversionOf(numeral) > 0);
    if (inverted && context.conventions['inverted-authentic'] === 'none')
      return `true where \`inverted-authentic\` is \`cadence\`; the lesson has \`none\`, and the dominant is ${before.roman}, whose bass is not the fifth degree`;
  }
  if (kind === 'half') {
    const isSeventh = arrival.chord.tones.length > 3;
    if (isSeventh && context.conventions['half-on-V7'] === 'none')
      return `true where \`half-on-V7\` is \`cadence\`; the lesson has \`none\`, and the chord of arrival is ${arrival.roman}`;
  }
  return undefined;
}

function alternatives(
  span: Span,
  says: Meant,
  range: Range,
  context: ClaimContext,
  make: (says: CadenceSays) => Predicate<Span>,
): readonly Predicate<Span>[] {
  const key = says.key ?? context.home;
  const found = arrivalsIn(range, context).map(each => ({
    name: each.phrygian ? ('Phrygian half' as const) : each.kind,
    key: each.key,
  }));
  const probed = (
    ['perfect authentic', 'imperfect authentic', 'half', 'deceptive', 'plagal', 'evaded'] as const
  ).map(name => ({ name, key }));
  return [...found, ...probed].map(({ name, key: own }) =>
    says.key === undefined && sameKey(own, context.home)
      ? make({ how: says.how, name })
      : make({ how: says.how, name, key: own }),
  );
}

/** Of a cadence that is not there nothing speaks for the claim: the soprano may be on the tonic all the same. */
const refused = (finding: Judged): Judged =>
  finding.verdict === 'fails'
    ? {
        ...finding,
        evidence: finding.evidence.map(each =>
          each.role === 'supports' ? { ...each, role: 'set aside' } : each,
        ),
      }
    : finding;

/** The cadences of the bar before and after, each at its own place. */
function nearby(
  says: Meant,
  range: Range,
  context: ClaimContext,
  make: (says: CadenceSays) => Predicate<Span>,
): readonly Claim[] {
  const bar = barAt(context.analysis.score, range.start);
  if (bar === undefined) return [];
  const { bars } = context.analysis.score;
  return [bars[bar.index - 1], bar, bars[bar.index + 1]].flatMap(each =>
    each === undefined
      ? []
      : arrivalsIn({ start: each.start, end: endOf(each) }, context).map(found => {
          const name: CadenceName = found.phrygian ? 'Phrygian half' : found.kind;
          const isHome = says.key === undefined && sameKey(found.key, context.home);
          return statement(
            spanOf({ kind: 'bars', first: each.label, last: each.label }),
            make(isHome ? { how: 'is', name } : { how: 'is', name, key: found.key }),
          );
        }),
  );
}

/** Cadences: claims F1 to F4 of the trade. */
export const cadenceFamily = family<Span, CadenceSays>({
  name: 'cadence',
  examples: [
    'bar 8 is a half cadence',
    'bar 8 beat 3 is a perfect authentic cadence in D major',
    'bar 8 is a Phrygian half cadence',
    'bars 5-8 end with a deceptive cadence',
  ],
  phrases: [
    [be, cadence('is')],
    [have, cadence('has')],
    [haveNo, cadence('has')],
    [reach, cadence('has')],
    // `the last cadence is perfect`.
    [
      be,
      quiet(
        map(sequence(cadenceKind, inKeyReference), ([name, key]): CadenceSays =>
          key === undefined ? { how: 'is', name } : { how: 'is', name, key },
        ),
      ),
    ],
    [verb('makes', 'make'), cadence('is')],
    [verb('forms', 'form'), cadence('is')],
    ...['ends on', 'ends in', 'closes on', 'closes in', 'cadences with'].map(
      each => [verb(each, each.replace(/s(?= )/u, '')), cadence('ends')] as const,
    ),
    ...(['finishes with', 'finishes on', 'finishes in'] as const).map(
      each => [verb(each, each.replace('es ', ' ')), cadence('ends')] as const,
    ),
    [verb('ends with', 'end with'), cadence('ends')],
    [verb('closes with', 'close with'), cadence('ends')],
    [verb('concludes with', 'conclude with'), cadence('ends')],
  ],
  aspects: [
    [cadenceNoun, be, cadence('has')],
    [
      cadenceNoun,
      be,
      map(sequence(cadenceKind, inKeyReference), ([name, key]): CadenceSays =>
        key === undefined ? { how: 'has', name } : { how: 'has', name, key },
      ),
    ],
    [word('phrase', 'passage', 'period'), verb('ends with', 'end with'), cadence('ends')],
    [word('phrase', 'passage', 'period'), verb('ends in', 'end in'), cadence('ends')],
    [word('phrase', 'passage', 'period'), verb('ends on', 'end on'), cadence('ends')],
  ],
  print: ({ how, name, key }, form) => {
    const verbs = { is: printBe(form), has: printHave(form), ends: printVerb('ends with', 'end with', form) };
    return `${verbs[how]} ${withArticle(`${name} cadence`)}${key === undefined ? '' : ` in ${printKeyReference(key)}`}`;
  },
  check: (span, named, context, make): Finding<Span> => {
    const says: Meant = withKeyMeant(named, context.home);
    const range = rangeFor(span, says.how, context);
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const names = context.conventions['cadence-names'];
    const askIn = (asked: Asked, key: Key | undefined): Judgement =>
      judgeCadence(context.analysis, { ...range, ...asked, ...(key === undefined ? {} : { key }) });
    const ask = (asked: Asked): Judgement => {
      const judgement = askIn(asked, says.key);
      if (says.key !== undefined || isSupported(judgement)) return judgement;
      // No key is named: a cadence of the kind that arrives there in a key of its own is one.
      const own = arrivalsIn(range, context).find(each => each.kind === asked.kind);
      return own === undefined ? judgement : askIn(asked, own.key);
    };
    const asked = questionOf(says.name, names);
    const held = heldFromEarlierBar(span, context);
    if (held !== undefined)
      return {
        verdict: 'fails',
        code: 'C0504',
        reason: `no chord arrives there: ${held.roman} lasts since ${sayMoment(held.start, context)}`,
        evidence: [],
        rather: () => nearby(says, range, context, make),
      };
    const judgement = ask(asked);
    const instead = () => alternatives(span, says, range, context, make);
    if (asked.phrygian && !isSupported(judgement) && isSupported(ask({ kind: asked.kind })))
      return { ...judged(judgement, codes, range, context), code: 'C0507', instead };
    if (isSupported(judgement)) {
      const dispute = disputed(asked.kind, range, context);
      const finding = {
        ...judged(judgement, codes, range, context),
        instead,
        ...(judgement.outcome === 'rivalled' ? { rather: () => nearby(says, range, context, make) } : {}),
      };
      return dispute === undefined
        ? finding
        : { ...finding, verdict: 'arguable', code: 'C0505', reason: dispute };
    }
    const elsewhere = names === 'UK' ? 'US' : 'UK';
    const otherwise = questionOf(says.name, elsewhere);
    if (otherwise.kind !== asked.kind) {
      const second = ask(otherwise);
      if (isSupported(second))
        return {
          ...judged(second, codes, range, context),
          verdict: 'arguable',
          code: 'C0506',
          reason: `true where \`cadence-names\` is \`${elsewhere}\`: there ${withArticle(says.name)} cadence is ${withArticle(otherwise.kind)} cadence; the lesson has \`${names}\``,
          instead,
        };
    }
    return {
      ...refused(judged(judgement, codes, range, context)),
      instead,
      rather: () => nearby(says, range, context, make),
    };
  },
});
