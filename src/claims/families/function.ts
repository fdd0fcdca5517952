import { article } from '../terms/chord-name.js';
import { isUnread, parseRomanNumeral } from '../../harmony/index.js';
import type { HarmonicFunction, Segment } from '../../harmony/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Evidence } from '../model.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { be, have, printHave, verb } from '../terms/verb.js';
import { silence, noChord } from './judged.js';
import { segmentsIn } from '../segments.js';

/** What the harmony of a place does in its key. */
export interface FunctionSays {
  readonly function: HarmonicFunction;
}

const functions = wordsFor<HarmonicFunction>([
  ['tonic', 'tonic'],
  ['predominant', 'predominant', 'pre-dominant', 'subdominant'],
  ['dominant', 'dominant'],
]);

/** `dominant function`, `the dominant function`. */
const says: Parser<FunctionSays> = rule(
  'Function',
  () =>
    map(sequence(optional(word('a', 'the')), functions, word('function')), ([, of]): FunctionSays => ({
      function: of,
    })),
  'a function: `tonic function`, `predominant function` or `dominant function`',
);

/** `tonic`, `a predominant`, `a dominant chord`: what it does, not on which degree it stands. */
const named: Parser<FunctionSays> = map(
  sequence(quiet(optional(choice(article, word('the')))), functions, optional(word('chord', 'harmony'))),
  ([, of]) => ({ function: of }),
);

/** iii and vi: the two schools differ on what they are (Open Music Theory: tonic; Hutchinson: tonic prolongation). */
const isMediant = ({ roman }: Segment): boolean => {
  const numeral = parseRomanNumeral(roman);
  return !isUnread(numeral) && numeral.target === undefined && (numeral.degree === 3 || numeral.degree === 6);
};

const bassEvidence = (
  segment: Segment,
  role: Evidence['role'],
  context: ClaimContext,
): readonly Evidence[] => {
  const [lowest] = segment.chordTones;
  const note = lowest === undefined ? undefined : context.analysis.score.notes[lowest];
  return note === undefined
    ? []
    : [noteEvidence(role, note, `${segment.roman}: ${segment.function} function`, context)];
};

/** Tonic, predominant, dominant: claim E1 of the trade. The cadential six-four counts as dominant. */
export const functionFamily = family<Span, FunctionSays>({
  name: 'function',
  examples: ['bar 5 has predominant function', 'bar 7 beats 1-2 have dominant function'],
  phrases: [
    [have, says],
    [be, map(sequence(word('of'), says), ([, each]) => each)],
    [be, named],
    [be, map(sequence(functions, word('in function')), ([of]): FunctionSays => ({ function: of }))],
    ...['functions as', 'acts as', 'serves as', 'works as'].map(
      each => [verb(each, each.replace(/s(?= )/u, '')), named] as const,
    ),
  ],
  print: ({ function: of }, form) => `${printHave(form)} ${of} function`,
  check: (span, { function: wanted }, context, make): Finding<Span> => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const segments = segmentsIn(context.analysis, rangeOrMoment(span));
    const others = segments.filter(segment => segment.function !== wanted);
    const [first] = segments;
    if (first === undefined) return noChord(span.name, 'C0703');
    const supports = segments
      .filter(segment => segment.function === wanted)
      .flatMap(segment => bassEvidence(segment, 'supports', context));
    const [other] = others;
    if (other === undefined) {
      const mediant = segments.find(isMediant);
      if (wanted === 'tonic' && mediant !== undefined && context.conventions['iii-and-vi'] === 'prolongation')
        return {
          verdict: 'arguable',
          code: 'C0702',
          reason: `true where \`iii-and-vi\` is \`tonic\`; the lesson has \`prolongation\`, and ${mediant.roman} prolongs the tonic without being it`,
          evidence: supports,
        };
      return {
        verdict: 'holds',
        code: 'C0701',
        reason: `${segments.map(segment => segment.roman).join(' ')} in ${span.name}: ${wanted} function`,
        evidence: supports,
      };
    }
    return {
      verdict: others.length === segments.length ? 'fails' : 'arguable',
      code: 'C0704',
      reason: `${other.roman} has ${other.function} function`,
      evidence: [...supports, ...others.flatMap(segment => bassEvidence(segment, 'contradicts', context))],
      instead: () => others.map(segment => make({ function: segment.function })),
    };
  },
});
