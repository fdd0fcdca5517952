import { article } from '../terms/chord-name.js';
import type { Verb } from '../terms/verb.js';
import type { Parser } from '../grammar/index.js';
import { compare, isBefore } from '../../score/index.js';
import type { Bar } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, nothing, optional, quiet, sequence, word } from '../grammar/index.js';
import type { ClaimContext, Evidence } from '../model.js';
import { endOf } from '../place/beats.js';
import { harmoniesOf } from '../subjects/harmonies.js';
import type { Harmony } from '../subjects/harmonies.js';
import type { Span } from '../subjects/span.js';
import { count } from '../terms/number.js';
import { be, have, printHave, printVerb, verb } from '../terms/verb.js';
import { silence } from './judged.js';
import { unitsOf } from '../quantity/units.js';
import { liesIn, sayNumerals, segmentsIn } from '../segments.js';

/** How many chords a place has, as a whole, in each of its bars or on each of its beats. */
export type HarmonicRhythmSays =
  | { readonly chords: number; readonly each: 'place' | 'bar' | 'beat' }
  /** A chord begins at the beat, or within the place. */
  | { readonly changes: true }
  /** More chords a bar than before, or fewer. */
  | { readonly pace: 'quickens' | 'slows' };

export const perBar = word(
  'a bar',
  'per bar',
  'in each bar',
  'in every bar',
  'every bar',
  'a measure',
  'per measure',
  'each bar',
  'in each measure',
  'in every measure',
  'every measure',
  'each measure',
);
const perBeat = word(
  'a beat',
  'per beat',
  'on every beat',
  'on each beat',
  'every beat',
  'each beat',
  'in every beat',
);
const each = choice<'bar' | 'beat'>(
  map(perBar, () => 'bar'),
  map(perBeat, () => 'beat'),
);
const chordsNoun = word('chords', 'chord', 'harmonies', 'harmony');
const complement: Parser<HarmonicRhythmSays> = choice(
  map(
    sequence(quiet(optional(word('only', 'just', 'exactly'))), count, chordsNoun, optional(each)),
    ([, chords, , unit]): HarmonicRhythmSays => ({ chords, each: unit ?? 'place' }),
  ),
  map(sequence(choice(article, word('a new')), chordsNoun, each), ([, , unit]): HarmonicRhythmSays => ({
    chords: 1,
    each: unit,
  })),
);
/** `changes every bar`, `changes once per bar`: one chord in each bar. */
const changing = map(sequence(optional(word('once')), each), ([, unit]): HarmonicRhythmSays => ({
  chords: 1,
  each: unit,
}));
const aChange: HarmonicRhythmSays = { changes: true };
const changes: Verb = choice<{ readonly negated: boolean }>(
  map(word('does not change', "doesn't change", 'do not change', "don't change", 'stays the same'), () => ({
    negated: true,
  })),
  map(word('changes', 'change'), () => ({ negated: false })),
);

const paces = [
  ['quickens', 'quickens', 'quicken'],
  ['quickens', 'speeds up', 'speed up'],
  ['quickens', 'accelerates', 'accelerate'],
  ['slows', 'slows', 'slow'],
  ['slows', 'slows down', 'slow down'],
  ['slows', 'broadens', 'broaden'],
] as const;

const isIn = (harmony: Harmony, bar: Bar): boolean =>
  isBefore(harmony.start, endOf(bar)) && isBefore(bar.start, harmony.end);

const chordsWord = (n: number): string => `${String(n)} ${n === 1 ? 'chord' : 'chords'}`;

const evidenceOf = (
  harmonies: readonly Harmony[],
  role: Evidence['role'],
  context: ClaimContext,
): readonly Evidence[] =>
  harmonies.slice(0, 12).flatMap(({ segments: [first] }) => {
    const [id] = first.chordTones;
    const note = id === undefined ? undefined : context.analysis.score.notes[id];
    return note === undefined ? [] : [noteEvidence(role, note, `${first.roman} begins`, context)];
  });

/** Whether a chord begins within a place, or at its beat, which another chord comes before. A new inversion is no new chord. */
const say = (harmonies: readonly Harmony[], context: ClaimContext): string =>
  sayNumerals(
    harmonies.map(({ segments: [first] }) => first),
    context,
  );

function checkChange(span: Span, context: ClaimContext): Finding<Span> {
  const all = harmoniesOf(context.analysis.segments);
  const { moment, range } = span;
  const begins = ({ start }: Harmony): boolean =>
    moment === undefined
      ? isBefore(range.start, start) && isBefore(start, range.end)
      : compare(start, moment) === 0 && compare(start, range.start) === 0;
  const found = all.filter((harmony, at) => at > 0 && begins(harmony));
  const during = harmoniesOf(
    segmentsIn(context.analysis, moment === undefined ? range : { start: moment, end: moment }),
  );
  const [first] = found;
  const before = first === undefined ? undefined : all[all.indexOf(first) - 1];
  const names = say(during, context);
  return {
    verdict: first === undefined ? 'fails' : 'holds',
    code: first === undefined ? 'C1302' : 'C1301',
    reason:
      first === undefined
        ? `the chord of ${span.name} stays ${names}`
        : moment === undefined
          ? `the chords of ${span.name} are ${names}`
          : `${before === undefined ? '' : say([before], context)} changes to ${say([first], context)} there`,
    evidence: evidenceOf(
      first === undefined ? during : found,
      first === undefined ? 'contradicts' : 'supports',
      context,
    ),
  };
}

/** Whether so many chords begin on each beat of a place. */
function checkBeats(
  span: Span,
  harmonies: readonly Harmony[],
  chords: number,
  context: ClaimContext,
): Finding<Span> {
  const beats = unitsOf('beat', span.place, context);
  const places = 'places' in beats ? beats.places : [];
  const counted = places.flatMap(place => {
    const found = place.resolve(context);
    if (found.kind !== 'found') return [];
    const { range } = found.subject;
    return [{ name: place.print(), inside: harmonies.filter(({ start }) => liesIn(start, range)) }];
  });
  const wrong = counted.find(({ inside }) => inside.length !== chords);
  return {
    verdict: wrong === undefined && counted.length > 0 ? 'holds' : 'fails',
    code: wrong === undefined ? 'C1301' : 'C1302',
    reason:
      wrong === undefined
        ? `${chordsWord(chords)} on each of the ${String(counted.length)} beats`
        : `${wrong.inside.length === 0 ? 'no chord begins' : `${chordsWord(wrong.inside.length)} begin`} in ${wrong.name}`,
    evidence: evidenceOf(
      wrong?.inside ?? harmonies,
      wrong === undefined ? 'supports' : 'contradicts',
      context,
    ),
  };
}

/** The chords of some bars, for each bar. */
const chordsPerBar = (bars: readonly Bar[], context: ClaimContext): number => {
  const [first] = bars;
  const last = bars.at(-1);
  if (first === undefined || last === undefined) return 0;
  const range = { start: first.start, end: endOf(last) };
  return harmoniesOf(segmentsIn(context.analysis, range)).length / bars.length;
};

/** Whether the chords come faster or slower than in as many bars before, or from the first bar of the place to the last. */
function checkPace(span: Span, pace: 'quickens' | 'slows', context: ClaimContext): Finding<Span> {
  const { score } = context.analysis;
  const inside = score.bars.filter(
    bar => compare(span.range.start, bar.start) <= 0 && compare(endOf(bar), span.range.end) <= 0,
  );
  const [first] = inside;
  const last = inside.at(-1);
  if (first === undefined || last === undefined)
    return {
      verdict: 'undecided',
      code: 'C1302',
      reason: 'there is no whole bar',
      evidence: [],
      pointless: true,
    };
  const before = score.bars.slice(Math.max(0, first.index - inside.length), first.index);
  const sign = pace === 'quickens' ? 1 : -1;
  const [own, earlier, opens, closes] = [inside, before, [first], [last]].map(bars =>
    chordsPerBar(bars, context),
  );
  const against = before.length === 0 ? 0 : sign * ((own ?? 0) - (earlier ?? 0));
  const within = sign * ((closes ?? 0) - (opens ?? 0));
  const holds = against > 0 || (against === 0 && within > 0);
  const doubtful = holds && within < 0;
  const say = (n: number | undefined): string => String(Math.round((n ?? 0) * 10) / 10);
  return {
    verdict: doubtful ? 'arguable' : holds ? 'holds' : 'fails',
    code: holds ? 'C1301' : 'C1302',
    reason: `${say(own)} ${own === 1 ? 'chord' : 'chords'} a bar in ${span.name}${before.length === 0 ? '' : `, ${say(earlier)} before it`}, ${say(opens)} in its first bar and ${say(closes)} in its last`,
    evidence: [],
  };
}

/** The pace of the chords: claim J1 of the trade. A new inversion is no new chord. */
export const harmonicRhythmFamily = family<Span, HarmonicRhythmSays>({
  name: 'harmonic rhythm',
  examples: ['bars 1-6 have 1 chord a bar', 'bar 31 has 2 chords'],
  phrases: [
    [
      verb('quickens its harmonic rhythm', 'quicken their harmonic rhythm'),
      nothing<HarmonicRhythmSays>({ pace: 'quickens' }),
    ],
    [
      verb('slows its harmonic rhythm', 'slow their harmonic rhythm'),
      nothing<HarmonicRhythmSays>({ pace: 'slows' }),
    ],
    [have, complement],
    [verb('changes chord', 'change chord'), changing],
    [verb('changes harmony', 'change harmony'), changing],
    [verb('changes chord', 'change chord'), nothing(aChange)],
    [verb('changes harmony', 'change harmony'), nothing(aChange)],
    [
      have,
      map(word('a change of harmony', 'a change of chord', 'a new chord', 'a new harmony'), () => aChange),
    ],
  ],
  aspects: [
    [word('harmonic rhythm'), be, complement],
    ...paces.map(
      ([pace, singular, plural]) =>
        [word('harmonic rhythm'), verb(singular, plural), nothing<HarmonicRhythmSays>({ pace })] as const,
    ),
    [word('harmony', 'chord', 'chords'), verb('changes', 'change'), changing],
    [word('harmony', 'chord'), changes, nothing(aChange)],
  ],
  print: (says, form) =>
    'pace' in says
      ? says.pace === 'quickens'
        ? printVerb('quickens its harmonic rhythm', 'quicken their harmonic rhythm', form)
        : printVerb('slows its harmonic rhythm', 'slow their harmonic rhythm', form)
      : 'changes' in says
        ? printVerb('changes harmony', 'change harmony', form)
        : `${printHave(form)} ${chordsWord(says.chords)}${says.each === 'place' ? '' : ` a ${says.each}`}`,
  check: (span, says, context, make): Finding<Span> => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    if ('changes' in says) return checkChange(span, context);
    if ('pace' in says) return checkPace(span, says.pace, context);
    const { chords, each: unit } = says;
    const harmonies = harmoniesOf(segmentsIn(context.analysis, span.range));
    const readings = say(harmonies, context);
    if (unit === 'beat') return checkBeats(span, harmonies, chords, context);
    if (unit === 'place') {
      const holds = harmonies.length === chords;
      return {
        verdict: holds ? 'holds' : 'fails',
        code: holds ? 'C1301' : 'C1302',
        reason: `${span.name} has ${chordsWord(harmonies.length)}: ${readings}`,
        evidence: evidenceOf(harmonies, holds ? 'supports' : 'contradicts', context),
        instead: () => [make({ chords: harmonies.length, each: unit })],
      };
    }
    const bars = context.analysis.score.bars.filter(
      bar => compare(span.range.start, bar.start) <= 0 && compare(endOf(bar), span.range.end) <= 0,
    );
    const counts = bars.map(bar => ({ bar, inside: harmonies.filter(harmony => isIn(harmony, bar)) }));
    const wrong = counts.find(({ inside }) => inside.length !== chords);
    if (wrong === undefined)
      return {
        verdict: 'holds',
        code: 'C1301',
        reason: `each of the ${String(bars.length)} bars has ${chordsWord(chords)}: ${readings}`,
        evidence: evidenceOf(harmonies, 'supports', context),
      };
    const [first] = counts;
    return {
      verdict: 'fails',
      code: 'C1302',
      reason: `bar ${wrong.bar.label} has ${chordsWord(wrong.inside.length)}: ${say(wrong.inside, context)}`,
      evidence: evidenceOf(wrong.inside, 'contradicts', context),
      instead: () => (first === undefined ? [] : [make({ chords: first.inside.length, each: unit })]),
    };
  },
});
