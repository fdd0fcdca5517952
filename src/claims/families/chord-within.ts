import type { Finding, Predicate } from '../claim.js';
import type { Family } from '../family.js';
import { choice, map, optional, quiet, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { negation } from '../negation.js';
import { sayNumerals, segmentsIn } from '../segments.js';
import type { Span } from '../subjects/span.js';
import { article, chordOfKind, chordWords, unmistakableChord } from '../terms/chord-name.js';
import { numeral } from '../terms/numeral.js';
import { have, haveNo, printHave, printVerb, reach, startsOrEnds } from '../terms/verb.js';
import { appliedChord, appliedFamily } from './applied.js';
import { chordFamily } from './chord.js';
import type { ChordSays } from './chord.js';
import { silence } from './judged.js';
import { linearChord, linearChordFamily } from './linear-chord.js';
import { borrowedChord, mixtureFamily } from './mixture.js';
import { namedChord, namedChordFamily } from './named-chord.js';
import { numeralFamily } from './numeral.js';
import { pivot, pivotFamily } from './pivot.js';
import { sixFour, sixFourFamily } from './six-four.js';

/** A chord as something that a place has among others. */
export const aChord: Parser<Predicate<Span>> = rule(
  'AChord',
  () =>
    choice(
      map(
        sequence(quiet(optional(choice(article, word('the')))), numeral, quiet(optional(word('chord')))),
        ([, of]) => numeralFamily.make({ numeral: of }),
      ),
      map(sequence(quiet(optional(article)), unmistakableChord), ([, words]) =>
        chordFamily.make({ form: 'words', ...words }),
      ),
      map(sequence(quiet(optional(article)), chordOfKind), ([, words]) =>
        chordFamily.make({ form: 'words', ...words }),
      ),
      map(sixFour, says => sixFourFamily.make(says)),
      map(linearChord, says => linearChordFamily.make(says)),
      map(namedChord, says => namedChordFamily.make(says)),
      // `a tonic chord`: a chord that is one.
      map(
        sequence(
          article,
          wordsFor<'tonic' | 'dominant' | 'subdominant'>([
            ['tonic', 'tonic'],
            ['dominant', 'dominant'],
            ['subdominant', 'subdominant'],
          ]),
          word('chord', 'triad'),
        ),
        ([, name]) => namedChordFamily.make({ name }),
      ),
      map(appliedChord, says => appliedFamily.make(says)),
      map(borrowedChord, says => mixtureFamily.make(says)),
      map(pivot, says => pivotFamily.make(says)),
    ),
  'a chord such as `a D minor seventh chord` or `V7/V`',
);

/** `is V7/V` without its verb. */
const named = (of: Predicate<Span>): string =>
  of.print({ plural: false, negated: false }).replace(/^is /u, '');
/** The same without its article: what stands after `the`. */
export const nameOfChord = (of: Predicate<Span>): string => named(of).replace(/^(?:an?|the) /u, '');

/** `bars 1-8 end on V`: the last harmony of the place is that chord. */
const atEdge = (how: 'begins' | 'ends', of: Predicate<Span>): Predicate<Span> => ({
  family: 'chord within a place',
  content: { how, has: of.family, what: of.content },
  print: form =>
    `${how === 'begins' ? printVerb('begins on', 'begin on', form) : printVerb('ends on', 'end on', form)} ${named(of)}`,
  check: (span, context): Finding<Span> => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const segments = segmentsIn(context.analysis, span.range);
    const edge = how === 'begins' ? segments[0] : segments.at(-1);
    if (edge === undefined)
      return {
        verdict: 'undecided',
        code: 'C0103',
        reason: `no chord can be read in ${span.name}`,
        evidence: [],
      };
    const { start, end } = edge;
    const found = of.check({ range: { start, end }, name: span.name, place: span.place }, context);
    return {
      verdict: found.verdict,
      code: found.code,
      reason: found.reason,
      evidence: found.evidence,
      instead: () => (found.instead?.() ?? []).map(each => atEdge(how, inWords(each))),
    };
  },
});

/** A chord by a symbol in words: `begins on B` would be taken for the note. */
const inWords = (of: Predicate<Span>): Predicate<Span> => {
  if (of.family !== 'chord') return of;
  const says = of.content as ChordSays;
  return says.form === 'symbol' ? chordFamily.make({ ...says, form: 'words' }) : of;
};

/** `bar 4 has V65/iv`: one of the chords of the place is that chord. */
export const within = (of: Predicate<Span>): Predicate<Span> => ({
  family: 'chord within a place',
  content: { has: of.family, what: of.content },
  print: form => `${printHave(form)} ${named(of)}`,
  check: (span, context): Finding<Span> => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const segments = segmentsIn(
      context.analysis,
      span.moment === undefined ? span.range : { start: span.moment, end: span.moment },
    );
    const findings = segments.map(segment =>
      of.check(
        { range: { start: segment.start, end: segment.end }, name: span.name, place: span.place },
        context,
      ),
    );
    const chords = sayNumerals(segments, context);
    const found = (['holds', 'arguable', 'undecided'] as const)
      .map(word_ => findings.find(each => each.verdict === word_))
      .find(each => each !== undefined);
    if (found !== undefined) return found;
    const [first] = findings;
    return {
      verdict: 'fails',
      code: first?.code ?? 'C0104',
      reason: `the chords of ${span.name} are ${chords}`,
      evidence: findings.flatMap(each => each.evidence).slice(0, 8),
      local: true,
    };
  },
});

/** The same with its inversion or its bass: `a first-inversion dominant seventh`, `a D7 chord over F#`. */
const anyChord = choice(
  aChord,
  map(chordWords, words => chordFamily.make({ form: 'words', ...words })),
);
const complement = map(anyChord, within);

/** Chords that a place has among others: claims B1 to C5 of the trade where the sentence says `has`. */
export const chordWithinFamily: Family<Span> = {
  name: 'chord within a place',
  examples: ['bars 4-5 have V65/iv', 'bars 31-32 have a cadential six-four'],
  predicate: rule('ChordWithinAPlacePhrase', () =>
    choice(
      map(sequence(choice(have, reach), complement), ([{ negated }, says]) =>
        negated ? negation(says) : says,
      ),
      map(sequence(haveNo, complement), ([, says]) => negation(says)),
      map(sequence(startsOrEnds, anyChord), ([{ how, negated }, of]) =>
        negated ? negation(atEdge(how, of)) : atEdge(how, of),
      ),
    ),
  ),
  having: [
    map(sequence(optional(word('no')), complement), ([no, says]) =>
      no === undefined ? says : negation(says),
    ),
  ],
  after: verb_ => (verb_ === have ? [complement] : []),
  aspects: [],
};
