import {
  degreeTone,
  isUnread,
  keyOfTarget,
  parseRomanNumeral,
  printKey,
  relativeOf,
} from '../../harmony/index.js';
import type { Cadence, Key, Segment } from '../../harmony/index.js';
import { compare, subtract } from '../../score/index.js';
import type { Fraction } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, optional, quiet, sequence, word } from '../grammar/index.js';
import type { ClaimContext, Evidence } from '../model.js';
import { barAt } from '../place/beats.js';
import { sayMoment } from '../place/say-moment.js';
import { mainSegment, segmentsIn } from '../segments.js';
import { harmoniesOf } from '../subjects/harmonies.js';
import type { Harmony } from '../subjects/harmonies.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { have, printVerb, verb } from '../terms/verb.js';
import { silence } from './judged.js';

/** What becomes of a dominant. */
export interface DominantResolutionSays {
  readonly how: 'as expected' | 'deceptively' | 'late';
}

/** The key whose tonic a dominant leads one to expect; `undefined` for any other chord. */
function expectedKey({ roman, key, function: does }: Segment): Key | undefined {
  const numeral = parseRomanNumeral(roman);
  if (isUnread(numeral)) return undefined;
  const isDominant = numeral.degree === 5 || numeral.degree === 7;
  if (numeral.target !== undefined) return isDominant ? keyOfTarget(numeral.target, key) : undefined;
  // The major chord on the low seventh degree of minor is the dominant of the relative major.
  if (key.mode === 'minor' && numeral.degree === 7 && numeral.upper) return relativeOf(key);
  return does === 'dominant' && (isDominant || numeral.kind === 'cadential') ? key : undefined;
}

/** The tonic that is expected; where that is itself a dominant, the six-four that delays it as well (claim C2 of the trade). */
const isHome = (harmony: Harmony, expected: Key): boolean =>
  harmony.segments.some(({ chord, roman, key }) =>
    roman.startsWith('cad64') ? degreeTone(key, 5) === expected.tonic : chord.root === expected.tonic,
  );

/** The chord on the sixth degree, which stands for the tonic in a deceptive close. */
const isSixth = ({ segments: [first] }: Harmony, key: Key): boolean =>
  first.chord.root === degreeTone(key, 6);

const isStillDominant = (harmony: Harmony, key: Key): boolean =>
  harmony.segments.every(segment => {
    const expected = expectedKey(segment);
    return expected !== undefined && expected.tonic === key.tonic;
  });

const arrivesAt = (onset: Fraction, { analysis }: ClaimContext): Cadence | undefined =>
  analysis.cadences.find(each => compare(each.onset, onset) === 0 && each.kind !== 'evaded');

/** Whether a dominant is itself the goal of a half cadence, so that nothing has to follow it. */
const endsPhrase = (segment: Segment, context: ClaimContext): boolean =>
  arrivesAt(segment.start, context)?.kind === 'half';

const evidenceOf = (segment: Segment, role: Evidence['role'], context: ClaimContext): readonly Evidence[] => {
  const [id] = segment.chordTones;
  const note = id === undefined ? undefined : context.analysis.score.notes[id];
  return note === undefined ? [] : [noteEvidence(role, note, segment.roman, context)];
};

/** Expected, deceptive and delayed resolution: claim E3 of the trade. That it surprises is opinion; that it is not I is fact. */
export const dominantResolutionFamily = family<Span, DominantResolutionSays>({
  name: 'resolution of a dominant',
  examples: ['bar 15 resolves as expected', 'bar 19 resolves deceptively'],
  phrases: [
    [
      have,
      map(
        sequence(quiet(optional(article)), word('deceptive resolution', 'deceptive progression')),
        (): DominantResolutionSays => ({ how: 'deceptively' }),
      ),
    ],
    [
      verb('resolves', 'resolve'),
      map(
        word('as expected', 'to its tonic', 'normally', 'regularly', 'as it should'),
        (): DominantResolutionSays => ({ how: 'as expected' }),
      ),
    ],
    [
      verb('resolves', 'resolve'),
      map(word('deceptively'), (): DominantResolutionSays => ({ how: 'deceptively' })),
    ],
    [
      verb('resolves', 'resolve'),
      map(word('late', 'with delay'), (): DominantResolutionSays => ({ how: 'late' })),
    ],
  ],
  print: ({ how }, form) => `${printVerb('resolves', 'resolve', form)} ${how}`,
  check: (span, { how }, context, make): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const { segments, score } = context.analysis;
    // Of a place with several chords the main one is meant where it is a dominant, else the last dominant; the goal of a half cadence last.
    const main = mainSegment(context.analysis, range);
    const dominants = [main, ...[...segmentsIn(context.analysis, range)].reverse()].filter(
      each => each !== undefined && expectedKey(each) !== undefined,
    );
    const segment =
      dominants.find(each => each !== undefined && !endsPhrase(each, context)) ?? dominants[0] ?? main;
    const key = segment === undefined ? undefined : expectedKey(segment);
    if (segment === undefined || key === undefined)
      return {
        verdict: 'fails',
        code: 'C0712',
        reason:
          segment === undefined
            ? `no chord can be read in ${span.name}`
            : `${segment.roman} is no dominant that would have to resolve`,
        evidence: segment === undefined ? [] : evidenceOf(segment, 'contradicts', context),
        pointless: true,
      };
    const rest = harmoniesOf(segments.slice(segments.indexOf(segment)));
    const after = rest.slice(1);
    const goesOn = after.findIndex(harmony => !isStillDominant(harmony, key));
    const next = goesOn < 0 ? undefined : after[goesOn];
    const bar = barAt(score, range.start);
    const home = after.find(
      harmony =>
        isHome(harmony, key) &&
        (bar === undefined || compare(subtract(harmony.start, segment.end), bar.meter.length) <= 0),
    );
    if (next === undefined)
      return {
        verdict: 'fails',
        code: 'C0712',
        reason: `nothing follows ${segment.roman}`,
        evidence: evidenceOf(segment, 'contradicts', context),
        pointless: true,
      };
    const goal = [segment, ...after.slice(0, goesOn).flatMap(({ segments: under }) => under)].find(each =>
      endsPhrase(each, context),
    );
    if (goal !== undefined && !isHome(next, key))
      return {
        // What stops on V and goes on with VI can be heard either way.
        verdict: how === 'deceptively' && isSixth(next, key) ? 'arguable' : 'fails',
        code: 'C0712',
        reason: `${goal.roman} is the goal of a half cadence: it resolves no further, and ${next.segments[0].roman} begins what follows`,
        evidence: evidenceOf(segment, 'contradicts', context),
        pointless: true,
      };
    // What comes after a close, or after the sixth degree in place of the tonic, is no late resolution.
    const isSubstitute = isSixth(next, key) || arrivesAt(next.start, context) !== undefined;
    const found: DominantResolutionSays['how'] = isHome(next, key)
      ? 'as expected'
      : home === undefined || isSubstitute
        ? 'deceptively'
        : 'late';
    const target = found === 'late' && home !== undefined ? home.segments[0] : next.segments[0];
    const place = ` in ${sayMoment(target.start, context)}`;
    // A six-four delays V, its goal: who looks for V itself hears it come late.
    const isDelayed = found === 'as expected' && how === 'late' && target.roman.startsWith('cad64');
    return {
      verdict: found === how ? 'holds' : isDelayed ? 'arguable' : 'fails',
      code: found === how ? 'C0711' : 'C0712',
      reason: {
        'as expected': `${segment.roman} goes to ${target.roman}${place}, ${target.roman.startsWith('cad64') ? 'which delays its goal' : `the tonic of ${printKey(key)}`}`,
        deceptively: `${segment.roman} goes to ${target.roman}${place}, where ${printKey(key)} was due`,
        late: `${segment.roman} goes to ${next.segments[0].roman} first and reaches ${target.roman}${place}`,
      }[found],
      evidence: [segment, target].flatMap(each =>
        evidenceOf(each, found === how ? 'supports' : 'contradicts', context),
      ),
      instead: () => [make({ how: found })],
    };
  },
});
