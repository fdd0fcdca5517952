import {
  isUnread,
  keyOfTarget,
  parseRomanNumeral,
  printChord,
  printKey,
  printRomanNumeral,
  sameKey,
} from '../../harmony/index.js';
import type { Key, RomanNumeral } from '../../harmony/index.js';
import { nativeTones } from '../../harmony/index.js';
import { pitchClassOf } from '../../score/index.js';
import { keyAppliedTo } from '../applied-key.js';
import type { Finding, Predicate } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { mainSegment } from '../segments.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { article, inversionAdjectives, inversions } from '../terms/chord-name.js';
import { keyName } from '../terms/key-name.js';
import { numeral } from '../terms/numeral.js';
import { be, printBe } from '../terms/verb.js';
import { silence, noChord } from './judged.js';
import { numeralFamily } from './numeral.js';

/** A dominant of another degree than the tonic: of which one, where the sentence says it. */
export interface AppliedSays {
  readonly applied: true;
  readonly to?: { readonly numeral: RomanNumeral } | { readonly key: Key };
  /** 0 root position; any where it is not said. */
  readonly inversion?: number;
  /** Only a chord with its seventh. */
  readonly seventh?: true;
}

const target = choice<NonNullable<AppliedSays['to']>>(
  map(keyName, key => ({ key })),
  map(numeral, read => ({ numeral: read })),
);
const to = map(sequence(word('of', 'to'), target), ([, of]) => of);

const readFifth = parseRomanNumeral('V');
if (isUnread(readFifth)) throw new Error('V is a numeral');
const fifthDegree: RomanNumeral = readFifth;

const inInversion = map(sequence(word('in'), inversions), ([, inversion]) => inversion);
const positioned = (inversion: number | undefined): Pick<AppliedSays, 'inversion'> =>
  inversion === undefined ? {} : { inversion };

/** `an applied chord of E minor`, `the secondary dominant`. */
export const appliedByName: Parser<AppliedSays> = map(
  sequence(
    quiet(optional(choice(article, word('the')))),
    optional(inversions),
    word(
      'applied chord',
      'applied chords',
      'applied dominants',
      'secondary dominants',
      'applied dominant',
      'secondary dominant',
      'secondary leading-tone chord',
      'secondary diminished seventh',
      'applied diminished seventh',
    ),
    optional(word('seventh', '7th')),
    optional(word('chord', 'chords')),
    choice(
      map(sequence(optional(to), optional(inInversion)), ([of, inversion]) => ({ of, inversion })),
      map(sequence(inInversion, to), ([inversion, of]) => ({ of, inversion })),
    ),
  ),
  ([, before, , seventh, , { of, inversion }]): AppliedSays => ({
    applied: true,
    ...(of === undefined ? {} : { to: of }),
    ...positioned(before ?? inversion),
    ...(seventh === undefined ? {} : { seventh: true }),
  }),
);
/** The same, and `the dominant of the dominant`, `the dominant of E minor`. */
export const appliedChord: Parser<AppliedSays> = choice(
  appliedByName,
  map(
    sequence(
      quiet(optional(choice(article, word('the')))),
      word('dominant of the dominant', 'dominant of dominant', 'double dominant'),
    ),
    (): AppliedSays => ({ applied: true, to: { numeral: fifthDegree } }),
  ),
  map(sequence(quiet(optional(word('the'))), word('dominant'), to), ([, , of]): AppliedSays => ({
    applied: true,
    to: of,
  })),
);

/** Applied dominants and leading-tone chords by name: claim C2 of the trade. The chord itself decides, resolved or not. */
export const appliedFamily = family<Span, AppliedSays>({
  name: 'applied chord',
  examples: ['bar 4 is an applied chord', 'bar 4 is an applied chord of E minor'],
  phrases: [[be, appliedChord]],
  aspects: [[word('chord', 'harmony'), be, appliedChord]],
  print: ({ to: of, inversion, seventh }, form) => {
    const name =
      of === undefined ? '' : ` of ${'key' in of ? printKey(of.key) : printRomanNumeral(of.numeral)}`;
    const position = inversion === undefined ? undefined : inversionAdjectives[inversion];
    return `${printBe(form)} ${position === undefined ? 'an ' : `a ${position} `}applied ${seventh ? 'dominant seventh chord' : 'chord'}${name}`;
  },
  check: (span, says, context, make): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const segment = mainSegment(context.analysis, range);
    if (segment === undefined) return noChord(span.name, 'C0203');
    const found = keyAppliedTo(segment);
    const wanted =
      says.to === undefined
        ? undefined
        : 'key' in says.to
          ? says.to.key
          : keyOfTarget(says.to.numeral, context.home);
    // `the dominant of D major` within D major itself is its plain dominant.
    const own =
      wanted !== undefined &&
      sameKey(segment.key, wanted) &&
      segment.function === 'dominant' &&
      found === undefined;
    const isApplied = own || (found !== undefined && (wanted === undefined || found.tonic === wanted.tonic));
    const isSo =
      (says.inversion === undefined || segment.chord.inversion === says.inversion) &&
      (says.seventh !== true || segment.chord.tones.length > 3);
    const holds = isApplied && isSo;
    const evidence = segment.chordTones.flatMap(id => {
      const note = context.analysis.score.notes[id];
      if (note === undefined || nativeTones(segment.key).includes(pitchClassOf(note.pitch))) return [];
      return [
        noteEvidence(
          holds ? 'supports' : 'contradicts',
          note,
          `foreign to ${printKey(segment.key)}`,
          context,
        ),
      ];
    });
    const read = parseRomanNumeral(segment.roman);
    const instead = (): readonly Predicate<Span>[] => [
      ...(found === undefined ? [] : [make({ applied: true, to: { key: found } })]),
      ...(isUnread(read) ? [] : [numeralFamily.make({ numeral: read, key: segment.key })]),
    ];
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C0201' : 'C0204',
      reason: `it is ${segment.roman} in ${printKey(segment.key)}${
        found === undefined
          ? own
            ? ', the dominant of that key'
            : ', no chord applied to another degree'
          : `, the dominant of ${printKey(found)}`
      }${isApplied && !isSo ? `: ${printChord(segment.chord)}` : ''}`,
      evidence: evidence.slice(0, 4),
      instead,
    };
  },
});
