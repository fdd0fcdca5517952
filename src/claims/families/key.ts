import { article } from '../terms/chord-name.js';
import {
  degreeTone,
  judgeCadence,
  judgeKey,
  printChord,
  printKey,
  relativeOf,
  sameKey,
} from '../../harmony/index.js';
import type { KeyArea } from '../../harmony/index.js';
import { segmentsIn } from '../segments.js';
import { add, compare, subtract } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { map, optional, quiet, sequence, word } from '../grammar/index.js';
import { barAt } from '../place/beats.js';
import { sayMoment } from '../place/say-moment.js';
import type { Span } from '../subjects/span.js';
import { keyByName } from '../terms/key-name.js';
import {
  anyKey,
  keyMeant,
  keyReference,
  printKeyReference,
  unmistakableKey,
} from '../terms/key-reference.js';
import type { KeyRef } from '../terms/key-reference.js';
import { be, have, printBe, printVerb, verb } from '../terms/verb.js';
import { judged, silence } from './judged.js';
import { checkModulatesTo, checkTonicizes } from './key-change.js';
import { alternatives, areasIn, codes, newNotes } from './key-question.js';
import type { Asked, KeySays } from './key-question.js';

function checkIsIn(asked: Asked): Finding<Span> {
  const { span, key, context, make } = asked;
  const judgement = judgeKey(context.analysis, { ...span.range, key });
  const { better } = judgement;
  const areas = areasIn(span.range, context);
  // A key of two bars or less that no area of the piece has, and so no cadence of the analysis confirms, is heard as a degree of the key around it.
  const bar = barAt(context.analysis.score, span.range.start);
  const short =
    bar !== undefined &&
    compare(subtract(span.range.end, span.range.start), add(bar.meter.length, bar.meter.length)) <= 0;
  const passing =
    short &&
    judgement.outcome === 'supported' &&
    areas.every(area => !sameKey(area.key, key)) &&
    judgeCadence(context.analysis, { ...span.range, kind: 'perfect authentic', key }).outcome !== 'supported';
  const around = areas[0]?.key;
  const isAround = areas.length > 0 && areas.every(area => sameKey(area.key, key));
  const end = areas.at(-1)?.key;
  const isElsewhere =
    better !== undefined &&
    [around, end].every(edge => edge !== undefined && sameKey(edge, better.key) && edge.tonic !== key.tonic);
  // Two bars within a key belong to it, whatever else they could be by themselves; and no key is heard without its tonic or an area of its own,
  // in which its cadences lie.
  const decided =
    judgement.outcome !== 'rivalled' || better === undefined
      ? undefined
      : short && isAround && hasTonicChord(asked) && !sameKey(better.key, key)
        ? ('holds' as const)
        : isElsewhere && areas.length > 2
          ? ('elsewhere' as const)
          : around !== undefined &&
              !sameKey(key, context.home) &&
              areas.every(area => !sameKey(area.key, key)) &&
              areas.some(area => sameKey(area.key, better.key)) &&
              !hasTonicChord(asked)
            ? ('fails' as const)
            : undefined;
  return {
    ...judged(judgement, codes, span.range, context),
    ...(decided === 'holds'
      ? {
          verdict: decided,
          code: 'C0401' as const,
          reason: `${printKey(key)} is the key around it, and its tonic chord is heard`,
        }
      : {}),
    ...(decided === 'fails' && better !== undefined
      ? {
          verdict: decided,
          code: 'C0404' as const,
          reason: `the tonic chord of ${printKey(key)} is not heard; the key there is ${printKey(better.key)}`,
        }
      : {}),
    ...(decided === 'elsewhere' && better !== undefined
      ? {
          verdict: 'fails' as const,
          code: 'C0404' as const,
          reason: `it begins and ends in ${printKey(better.key)}${areas.some(area => sameKey(area.key, key)) ? `, and is in ${printKey(key)} between` : ''}`,
        }
      : {}),
    ...(passing && around !== undefined
      ? {
          verdict: 'arguable' as const,
          code: 'C0410' as const,
          reason: `${judgement.reason}; no cadence confirms it, so it can also be heard within ${printKey(around)}`,
        }
      : {}),
    instead: () => [
      ...(better === undefined ? [] : [make({ what: 'is in', key: better.key })]),
      ...areasIn(span.range, context).map(area => make({ what: 'is in', key: area.key })),
      make({ what: 'is in', key: relativeOf(key) }),
      ...alternatives(asked),
    ],
  };
}

function checkStaysIn(asked: Asked): Finding<Span> {
  const { span, key, context, make } = asked;
  const finding = checkIsIn(asked);
  const left = areasIn(span.range, context).find(area => !sameKey(area.key, key));
  if (finding.verdict === 'fails' || left === undefined) return finding;
  return {
    ...finding,
    verdict: 'fails',
    code: 'C0405',
    reason: `the music leaves ${printKey(key)}: ${printKey(left.key)} from ${sayMoment(left.start, context)}`,
    evidence: newNotes(left, key, left.key, context),
    instead: () => [make({ what: 'is in', key }), ...alternatives(asked)],
  };
}

/**
 * A passage that ends on the major tonic of a minor key: the key is minor, its last chord major (Hutchinson and Open Music Theory: the Picardy
 * third). Either mode can be meant by the key in which it ends.
 */
function modeOfTheEnd({ span, key, context }: Asked, areas: readonly KeyArea[]): string | undefined {
  const last = segmentsIn(context.analysis, span.range).at(-1);
  const heard = areas.at(-1)?.key;
  if (last === undefined || heard === undefined || heard.tonic !== key.tonic) return undefined;
  const isMajorChord =
    last.chord.root === key.tonic &&
    last.chord.tones[1] === degreeTone({ tonic: key.tonic, mode: 'major' }, 3);
  // The minor key must have been there: the area that ends, or the one before it.
  const before = areas.at(-2)?.key;
  const isPicardy = heard.mode === 'minor' || (before?.tonic === key.tonic && before.mode === 'minor');
  return isMajorChord && isPicardy
    ? `the last chord is ${printChord(last.chord)}, with the third raised; the key before it is ${printKey({ tonic: key.tonic, mode: 'minor' })}`
    : undefined;
}

/** Whether the tonic chord of a key is heard in a range. */
const hasTonicChord = ({ span, key, context }: Asked): boolean =>
  segmentsIn(context.analysis, span.range).some(
    ({ chord }) => chord.root === key.tonic && chord.tones[1] === degreeTone(key, 3) && chord.inversion < 2,
  );

/** The key in which a passage begins or ends. */
function checkEdge(asked: Asked, what: 'begins in' | 'ends in'): Finding<Span> {
  const { span, key, context, make } = asked;
  const areas = areasIn(span.range, context);
  const edge = what === 'begins in' ? areas[0] : areas.at(-1);
  if (edge === undefined)
    return {
      verdict: 'undecided',
      code: 'C0403',
      reason: `no key can be read in ${span.name}`,
      evidence: [],
    };
  const holds = sameKey(edge.key, key);
  const disputed = what === 'ends in' && !holds ? modeOfTheEnd(asked, areas) : undefined;
  if (disputed !== undefined)
    return {
      verdict: 'arguable',
      code: 'C0413',
      reason: disputed,
      evidence: [],
      instead: () => [make({ what, key: edge.key })],
    };
  return {
    verdict: holds ? 'holds' : 'fails',
    code: holds ? 'C0401' : 'C0404',
    reason: `it ${what} ${printKey(edge.key)}`,
    evidence: [],
    instead: () => [make({ what, key: edge.key })],
  };
}

const says = (what: KeySays['what'], key: KeyRef): KeySays => ({ what, key });
const verbs: readonly (readonly [string, string, KeySays['what']])[] = [
  ['starts in', 'start in', 'begins in'],
  ['begins in', 'begin in', 'begins in'],
  ['opens in', 'open in', 'begins in'],
  ['ends in', 'end in', 'ends in'],
  ['closes in', 'close in', 'ends in'],
  ['finishes in', 'finish in', 'ends in'],
  ['returns to', 'return to', 'modulates to'],
  ['goes back to', 'go back to', 'modulates to'],
  ['comes back to', 'come back to', 'modulates to'],
  ['has modulated to', 'have modulated to', 'modulates to'],
  ['stays in', 'stay in', 'stays in'],
  ['remains in', 'remain in', 'stays in'],
  ['modulates to', 'modulate to', 'modulates to'],
  ['modulates into', 'modulate into', 'modulates to'],
  ['moves to', 'move to', 'modulates to'],
  ['goes to', 'go to', 'modulates to'],
  ['changes to', 'change to', 'modulates to'],
  ['changes key to', 'change key to', 'modulates to'],
  ['tonicizes', 'tonicize', 'tonicizes'],
  ['tonicises', 'tonicise', 'tonicizes'],
];
/** Key, modulation and tonicization: claims D1 to D3 of the trade. */
export const keyFamily = family<Span, KeySays>({
  name: 'key',
  examples: [
    'bars 1-4 are in D major',
    'bars 1-4 stay in G major',
    'bars 5-8 modulate to D major',
    'bars 4-5 tonicize A minor',
  ],
  phrases: [
    [
      be,
      map(
        sequence(word('in', 'written in', 'set in', 'back in'), quiet(optional(word('the key of'))), anyKey),
        ([, , key]) => says('is in', key),
      ),
    ],
    [be, map(sequence(word('in'), anyKey, word('throughout')), ([, key]) => says('stays in', key))],
    [
      map(word('never leaves', 'never leave', 'does not leave', "doesn't leave", 'do not leave'), () => ({
        negated: false,
      })),
      map(anyKey, key => says('stays in', key)),
    ],
    ...verbs.map(
      ([singular, plural, what]) =>
        [
          verb(singular, plural),
          // `goes to D`, `moves to V` could be said of a note or a chord.
          map(/ in$|modulate|tonici/u.test(plural) ? anyKey : unmistakableKey, key => says(what, key)),
        ] as const,
    ),
    [
      verb('modulates from', 'modulate from'),
      map(sequence(keyByName, word('to'), anyKey), ([from, , key]): KeySays => ({
        what: 'modulates to',
        key,
        from,
      })),
    ],
    [
      be,
      map(sequence(article, word('tonicization of', 'tonicisation of'), keyReference), ([, , key]) =>
        says('tonicizes', key),
      ),
    ],
    [
      have,
      map(sequence(article, word('tonicization of', 'tonicisation of'), keyReference), ([, , key]) =>
        says('tonicizes', key),
      ),
    ],
    [
      be,
      map(sequence(article, word('modulation to'), keyReference), ([, , key]) => says('modulates to', key)),
    ],
    [
      have,
      map(sequence(article, word('modulation to'), keyReference), ([, , key]) => says('modulates to', key)),
    ],
  ],
  aspects: [
    [word('key', 'home key', 'main key', 'tonality'), be, map(keyReference, key => says('is in', key))],
    [
      word('key', 'home key', 'tonality'),
      verb('changes to', 'change to'),
      map(keyReference, key => says('modulates to', key)),
    ],
  ],
  print: ({ what, key, from }, form) => {
    const printed = {
      'is in': `${printBe(form)} in`,
      'begins in': printVerb('begins in', 'begin in', form),
      'ends in': printVerb('ends in', 'end in', form),
      'stays in': printVerb('stays in', 'stay in', form),
      'modulates to':
        from === undefined
          ? printVerb('modulates to', 'modulate to', form)
          : `${printVerb('modulates from', 'modulate from', form)} ${printKey(from)} to`,
      tonicizes: printVerb('tonicizes', 'tonicize', form),
    };
    return `${printed[what]} ${printKeyReference(key)}`;
  },
  check: (span, { what, key: named, from }, context, make) => {
    const silent = silence<Span>(span.range, span.name, context);
    if (silent !== undefined) return silent;
    const key = keyMeant(named, context.home);
    if (key === undefined)
      return {
        verdict: 'fails',
        code: 'C0404',
        reason: `${printKeyReference(named)} is no major or minor triad that could be a tonic`,
        evidence: [],
        pointless: true,
      };
    const asked = { span, key, context, make };
    if (from !== undefined) {
      const [first] = areasIn(span.range, context);
      if (first !== undefined && !sameKey(first.key, from))
        return {
          verdict: 'fails',
          code: 'C0404',
          reason: `${span.name} begins in ${printKey(first.key)}, not in ${printKey(from)}`,
          evidence: [],
          instead: () => [make({ what: 'modulates to', key, from: first.key })],
        };
    }
    switch (what) {
      case 'is in':
        return checkIsIn(asked);
      case 'begins in':
      case 'ends in':
        return checkEdge(asked, what);
      case 'stays in':
        return checkStaysIn(asked);
      case 'modulates to':
        return checkModulatesTo(asked);
      case 'tonicizes':
        return checkTonicizes(asked);
    }
  },
});
