import { isUnread, parseRomanNumeral, romanFor } from '../../harmony/index.js';
import { compare, isBefore } from '../../score/index.js';
import type { Finding, Predicate } from '../claim.js';
import type { Family } from '../family.js';
import { choice, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { negation } from '../negation.js';
import { atPlace, printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { sayMoment } from '../place/say-moment.js';
import { rangeOf } from '../range-of.js';
import { liesIn, segmentsIn } from '../segments.js';
import { harmoniesOf } from '../subjects/harmonies.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { chordOfKind, rootedChord } from '../terms/chord-name.js';
import { goalNumeral, printGoalNumeral } from '../terms/numeral.js';
import type { GoalNumeral } from '../terms/numeral.js';
import { printVerb, verb } from '../terms/verb.js';
import { chordFamily } from './chord.js';
import { aChord, within } from './chord-within.js';
import { silence } from './judged.js';
import { numeralFamily } from './numeral.js';
import { isNumeral } from './progression.js';

/** What a chord goes to: a numeral, or a chord by any other name. */
type Goal = GoalNumeral | Predicate<Span>;

const printGoal = (goal: Goal): string =>
  'numeral' in goal
    ? printGoalNumeral(goal)
    : goal.print({ plural: false, negated: false }).replace(/^is /u, '');

/** `bar 3 resolves to vi`: the next harmony after the place is that chord, and stands where it is said to. */
function followedBy(goal: Goal, where?: Place): Predicate<Span> {
  const of = 'numeral' in goal ? numeralFamily.make({ numeral: goal.numeral }) : goal;
  const open = 'numeral' in goal && goal.inversion === 'open' ? goal.numeral : undefined;
  return {
    family: 'what follows a chord',
    content: {
      followedBy: of.family,
      what: of.content,
      open: open !== undefined,
      ...(where === undefined ? {} : { where }),
    },
    print: form =>
      `${printVerb('resolves to', 'resolve to', form)} ${printGoal(goal)}${where === undefined ? '' : ` in ${printPlace(where)}`}`,
    check: (span, context): Finding<Span> => {
      const place = where === undefined ? undefined : rangeOf(where, context);
      if (place !== undefined && 'problem' in place) return { ...place.problem, pointless: true };
      // `the piece goes to V in bar 9`: the place is that of the chord.
      if (
        place !== undefined &&
        span.place.kind === 'piece' &&
        compare(span.range.end, context.analysis.score.length) === 0
      )
        return within(of).check({ ...span, range: place.range, place: where ?? span.place }, context);
      const range = rangeOrMoment(span);
      const silent = silence<Span>(range, span.name, context);
      if (silent !== undefined) return silent;
      const { segments } = context.analysis;
      const last = segmentsIn(context.analysis, range).at(-1);
      const rest = last === undefined ? [] : harmoniesOf(segments.slice(segments.indexOf(last)));
      const next = rest[1];
      if (last === undefined || next === undefined)
        return {
          verdict: 'fails',
          code: 'C0712',
          reason: `nothing follows ${span.name}`,
          evidence: [],
          pointless: true,
        };
      const [first] = next.segments;
      const found = next.segments.map(({ start, end }) =>
        of.check({ range: { start, end }, name: span.name, place: span.place }, context),
      );
      const isThere = place === undefined || liesIn(next.start, place.range);
      const isSo =
        open === undefined
          ? found.some(each => each.verdict === 'holds')
          : // A chord that is pointed at may be counted in the key of its passage, and then so is what follows it.
            [context.home, last.key].some(key => isNumeral(next, open, key, context));
      // The notes of the tonic over the fifth stand for the dominant: to come to them is no arrival at I (claim C5 of the trade).
      const isSixFour =
        isSo && open?.kind === 'degree' && open.figures === '' && first.roman.startsWith('cad64');
      const holds = isSo && isThere && !isSixFour;
      const read = parseRomanNumeral(romanFor(first.chord, context.home));
      return {
        verdict: holds ? 'holds' : 'fails',
        code: holds ? 'C0711' : 'C0712',
        reason: `${last.roman} goes to ${first.roman}${where === undefined ? '' : ` in ${sayMoment(next.start, context)}`}${isSixFour ? ', which has the notes of the tonic and stands for the dominant' : ''}`,
        evidence: found[0]?.evidence.slice(0, 4) ?? [],
        instead: () => (isUnread(read) ? [] : [followedBy({ numeral: read, inversion: 'open' })]),
      };
    },
  };
}

/** `is preceded by the subdominant`: a harmony before the place is that chord. */
const precededBy = (of: Predicate<Span>, where?: Place): Predicate<Span> => ({
  family: 'what follows a chord',
  content: {
    precededBy: of.family,
    what: of.content,
    ...(where === undefined ? {} : { where }),
  },
  print: form =>
    `${form.plural ? 'are' : 'is'}${form.negated ? ' not' : ''} preceded by ${of.print({ plural: false, negated: false }).replace(/^is /u, '')}${where === undefined ? '' : ` in ${printPlace(where)}`}`,
  check: (span, context): Finding<Span> => {
    const source = where === undefined ? undefined : rangeOf(where, context);
    if (source !== undefined && 'problem' in source) return { ...source.problem, pointless: true };
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const { segments } = context.analysis;
    const [first] = segmentsIn(context.analysis, range);
    const earlier = first === undefined ? [] : harmoniesOf(segments.slice(0, segments.indexOf(first)));
    // A cadential six-four is a part of the dominant that it delays.
    const before = earlier.findLast(
      ({ segments: [each] }) => !(each.roman.startsWith('cad64') && first?.function === 'dominant'),
    );
    if (before === undefined)
      return {
        verdict: 'fails',
        code: 'C0712',
        reason: `nothing comes before ${span.name}`,
        evidence: [],
        pointless: true,
      };
    // A chord that is pointed at may be counted in the key of its passage, and then so is what comes before it.
    const found = [context.home, first?.key ?? context.home].flatMap(home =>
      before.segments.map(({ start, end }) =>
        of.check({ range: { start, end }, name: span.name, place: span.place }, { ...context, home }),
      ),
    );
    const isThere =
      source === undefined ||
      (isBefore(before.start, source.range.end) && isBefore(source.range.start, before.end));
    const holds = isThere && found.some(each => each.verdict === 'holds');
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C0711' : 'C0712',
      reason: `${before.segments[0].roman} comes before it${where === undefined ? '' : `, in ${sayMoment(before.start, context)}`}`,
      evidence: found[0]?.evidence.slice(0, 4) ?? [],
    };
  },
});

const isPreceded = choice(
  map(word('is preceded by', 'are preceded by'), () => ({ negated: false })),
  map(word('is not preceded by', 'are not preceded by'), () => ({ negated: true })),
);
const target: Parser<Goal> = choice<Goal>(
  goalNumeral,
  aChord,
  map(sequence(word('the'), chordOfKind), ([, words]) => chordFamily.make({ form: 'words', ...words })),
  map(word('the augmented sixth'), () => chordFamily.make({ form: 'words', class: 'augmented sixth chord' })),
);
/** `in bar 12`, `on the downbeat of bar 12`: where the other chord stands. */
const there = optional(atPlace);
const resolvesTo = verb('resolves to', 'resolve to');
const straight = choice(
  ...['goes straight to', 'goes directly to', 'leads directly to', 'resolves directly to'].map(each =>
    verb(each, each.replace(/s(?= )/u, '').replace(/^goe /u, 'go ')),
  ),
);
const goesTo = verb('goes to', 'go to');
const leadsTo = verb('leads to', 'lead to');
const movesTo = verb('moves to', 'move to');
const isFollowedBy = choice(
  map(word('is followed by', 'are followed by'), () => ({ negated: false })),
  map(word('is not followed by', 'are not followed by'), () => ({ negated: true })),
);

/** Where a chord goes: claims B6 and E3 of the trade. */
export const chordSuccessionFamily: Family<Span> = {
  name: 'what follows a chord',
  examples: ['bar 4 resolves to iv', 'bar 30 resolves to a cadential six-four'],
  predicate: rule('WhatFollowsAChordPhrase', () =>
    choice(
      map(sequence(isPreceded, aChord, there), ([{ negated }, of, where]) =>
        negated ? negation(precededBy(of, where)) : precededBy(of, where),
      ),
      // `resolves to C major`: the verb says that no key is meant.
      map(sequence(choice(resolvesTo, straight), rootedChord, there), ([{ negated }, words, where]) => {
        const says = followedBy(chordFamily.make({ form: 'words', ...words }), where);
        return negated ? negation(says) : says;
      }),
      map(
        sequence(
          choice(resolvesTo, goesTo, leadsTo, movesTo, isFollowedBy, straight),
          quiet(optional(word('a chord of'))),
          target,
          there,
        ),
        ([{ negated }, , goal, where]) => {
          const says = followedBy(goal, where);
          return negated ? negation(says) : says;
        },
      ),
    ),
  ),
  having: [],
  after: () => [],
  aspects: [],
};
