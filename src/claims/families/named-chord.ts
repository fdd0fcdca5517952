import { judgeChord, parseRomanNumeral, isUnread, printKey, realize, romanFor } from '../../harmony/index.js';
import type { Judgement, Key, RomanNumeral } from '../../harmony/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { mainSegment } from '../segments.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { article, inversionAdjectives, inversions } from '../terms/chord-name.js';
import { keyByName } from '../terms/key-name.js';
import { be, printBe, verb } from '../terms/verb.js';
import { bestOf, judged, silence } from './judged.js';
import type { Codes } from './judged.js';
import { numeralFamily } from './numeral.js';

/** The chord on a degree by its name, in any inversion, with or without a seventh. */
const names = {
  tonic: { major: ['I', 'IM7'], minor: ['i', 'i7'] },
  supertonic: { major: ['ii', 'ii7'], minor: ['iio', 'iiø7'] },
  mediant: { major: ['iii', 'iii7'], minor: ['III', 'IIIM7', 'III+'] },
  subdominant: { major: ['IV', 'IVM7'], minor: ['iv', 'iv7'] },
  dominant: { major: ['V', 'V7'], minor: ['V', 'V7'] },
  submediant: { major: ['vi', 'vi7'], minor: ['VI', 'VIM7'] },
  'leading-tone': { major: ['viio', 'viiø7', 'viio7'], minor: ['viio', 'viio7'] },
  Neapolitan: { major: ['N6', 'N'], minor: ['N6', 'N'] },
} as const;

/** The same by their colour, whatever the mode of the key: the minor subdominant of a major key. */
const coloured = {
  tonic: { major: ['I', 'IM7'], minor: ['i', 'i7'] },
  subdominant: { major: ['IV', 'IVM7'], minor: ['iv', 'iv7'] },
  dominant: { major: ['V', 'V7'], minor: ['v', 'v7'] },
} as const;

export interface NamedChordSays {
  readonly name: keyof typeof names;
  readonly colour?: 'major' | 'minor';
  readonly key?: Key;
  /** 0 root position; any where it is not said. */
  readonly inversion?: number;
  /** Only the chord with its seventh. */
  readonly seventh?: true;
  /** The Neapolitan by its full name, which says its inversion. */
  readonly sixth?: true;
}

const codes: Codes = { supported: 'C0201', rivalled: 'C0202', open: 'C0203', contradicted: 'C0204' };

/** The numerals of a name; with `seventh`, those of its seventh chords. */
const numeralsOf = ({ name, seventh, colour }: NamedChordSays, key: Key): readonly RomanNumeral[] =>
  (colour !== undefined && (name === 'tonic' || name === 'subdominant' || name === 'dominant')
    ? coloured[name][colour]
    : names[name][key.mode]
  ).flatMap(text => {
    const read = parseRomanNumeral(text);
    return isUnread(read) || (seventh === true && read.figures !== '7') ? [] : [read];
  });

const otherThanDominant = wordsFor<NamedChordSays['name']>([
  ['tonic', 'tonic'],
  ['supertonic', 'supertonic'],
  ['mediant', 'mediant'],
  ['subdominant', 'subdominant'],
  ['submediant', 'submediant'],
]);
const named: Parser<NamedChordSays['name']> = choice(
  otherThanDominant,
  map(word('dominant'), () => 'dominant' as const),
);
const build = (
  name: NamedChordSays['name'],
  key: Key | undefined,
  seventh: unknown,
  inversion: number | undefined,
): NamedChordSays => ({
  name,
  ...(key === undefined ? {} : { key }),
  ...(inversion === undefined ? {} : { inversion }),
  ...(seventh === undefined ? {} : { seventh: true }),
});
const seventhWord = word('seventh', '7th');
const chordWord = quiet(optional(word('chord', 'triad', 'harmony')));
const inInversion = optional(map(sequence(word('in'), inversions), ([, inversion]) => inversion));
const ofKey = optional(map(sequence(word('of', 'in'), keyByName), ([, key]) => key));

/** `in first inversion of D major`, `of D major in first inversion`. */
const inInversionOfKey = choice(
  map(sequence(inInversion, ofKey), ([inversion, key]) => ({ inversion, key })),
  map(sequence(ofKey, inInversion), ([key, inversion]) => ({ inversion, key })),
);

/** `minor dominant`, `major subdominant`. */
const ofColour: Parser<NamedChordSays> = map(
  sequence(
    wordsFor<'major' | 'minor'>([
      ['major', 'major'],
      ['minor', 'minor'],
    ]),
    wordsFor<keyof typeof coloured>([
      ['tonic', 'tonic'],
      ['subdominant', 'subdominant'],
      ['dominant', 'dominant'],
    ]),
    chordWord,
    inInversion,
    ofKey,
  ),
  ([colour, name, , inversion, key]) => ({ ...build(name, key, undefined, inversion), colour }),
);
/** `dominant`, `tonic chord`: what stands after `the` where the sentence points at the chord. */
export const namedChordAfterThe: Parser<NamedChordSays> = choice(
  ofColour,
  map(
    sequence(
      optional(inversions),
      named,
      choice(
        map(sequence(seventhWord, quiet(optional(word('chord', 'harmony')))), () => true),
        map(chordWord, () => undefined),
      ),
      inInversionOfKey,
    ),
    ([before, name, seventh, { inversion, key }]) => build(name, key, seventh, before ?? inversion),
  ),
  map(
    sequence(
      optional(inversions),
      word('leading-tone', 'leading-note'),
      choice(
        map(sequence(seventhWord, chordWord), () => true),
        map(word('chord', 'triad'), () => undefined),
      ),
      inInversion,
      ofKey,
    ),
    ([before, , seventh, after, key]) => build('leading-tone', key, seventh, before ?? after),
  ),
);
/**
 * `a root-position tonic triad`, `a supertonic seventh`, without its `the`. A dominant seventh may stand on any degree, and `a predominant`
 * is a function: what is no such word says of itself that the degree is meant.
 */
const namedAfterA: Parser<NamedChordSays> = map(
  sequence(
    quiet(optional(article)),
    choice(
      map(sequence(inversions, named, chordWord, ofKey), ([inversion, name, , key]) =>
        build(name, key, undefined, inversion),
      ),
      map(
        sequence(
          optional(inversions),
          named,
          seventhWord,
          quiet(optional(word('chord'))),
          word('of'),
          keyByName,
        ),
        ([inversion, name, , , , key]) => build(name, key, true, inversion),
      ),
      map(
        sequence(otherThanDominant, seventhWord, chordWord, inInversion, ofKey),
        ([name, seventh, , inversion, key]) => build(name, key, seventh, inversion),
      ),
      map(
        sequence(named, word('chord', 'triad', 'harmony'), word('in'), inversions, ofKey),
        ([name, , , inversion, key]) => build(name, key, undefined, inversion),
      ),
      ofColour,
      // Names that are no functions.
      map(
        sequence(
          wordsFor<NamedChordSays['name']>([
            ['supertonic', 'supertonic'],
            ['mediant', 'mediant'],
            ['submediant', 'submediant'],
          ]),
          word('chord', 'triad', 'harmony'),
          ofKey,
        ),
        ([name, , key]) => build(name, key, undefined, undefined),
      ),
    ),
  ),
  ([, says]) => says,
);
/** `a Neapolitan`, `the Neapolitan sixth in first inversion`. */
export const neapolitan: Parser<NamedChordSays> = map(
  sequence(
    quiet(optional(choice(article, word('the')))),
    wordsFor<boolean>([
      [true, 'Neapolitan sixth'],
      [false, 'Neapolitan'],
    ]),
    optional(word('chord')),
    inInversion,
    ofKey,
  ),
  ([, sixth, , inversion, key]) => ({
    ...build('Neapolitan', key, undefined, inversion),
    ...(sixth ? { sixth: true } : {}),
  }),
);
/** `the dominant`, `the tonic chord`, `the Neapolitan`. */
export const namedChord: Parser<NamedChordSays> = choice(
  map(sequence(word('the'), namedChordAfterThe), ([, says]) => says),
  neapolitan,
  namedAfterA,
);

function ask(
  of: RomanNumeral,
  inversion: number | undefined,
  key: Key,
  range: Range,
  context: ClaimContext,
): Judgement {
  const { tones } = realize(of, key, context.conventions['seventh-on-I']);
  const bass = inversion === undefined ? undefined : tones[inversion];
  return judgeChord(context.analysis, { ...range, tones, key, ...(bass === undefined ? {} : { bass }) });
}

/** Chords by the name of their degree, the Neapolitan among them: claims B7 and C1 of the trade without figures. */
export const namedChordFamily = family<Span, NamedChordSays>({
  name: 'named chord',
  examples: [
    'bar 8 is the dominant chord',
    'bar 2 is the dominant seventh chord in second inversion',
    'bar 29 is the Neapolitan chord',
  ],
  phrases: [
    [be, namedChord],
    // Of no key it is a function: function.ts.
    ...['functions as', 'acts as', 'serves as'].map(
      each =>
        [
          verb(each, each.replace(/s(?= )/u, '')),
          map(
            sequence(word('the'), named, quiet(optional(word('chord'))), word('of', 'in'), keyByName),
            ([, name, , , key]) => build(name, key, undefined, undefined),
          ),
        ] as const,
    ),
  ],
  print: ({ name, key, inversion, seventh, sixth, colour }, form) =>
    `${printBe(form)} the ${colour === undefined ? '' : `${colour} `}${name}${seventh === true ? ' seventh' : ''}${sixth === true ? ' sixth' : ''} chord${inversion === undefined ? '' : ` in ${(inversionAdjectives[inversion] ?? '').replace('-', ' ')}`}${key === undefined ? '' : ` in ${printKey(key)}`}`,
  check: (span, says, context): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const key = says.key ?? context.home;
    const main = mainSegment(context.analysis, range);
    const numeral = main === undefined ? undefined : parseRomanNumeral(romanFor(main.chord, key));
    const instead = () =>
      numeral === undefined || isUnread(numeral)
        ? []
        : [numeralFamily.make(says.key === undefined ? { numeral } : { numeral, key })];
    // The notes of the tonic over the fifth are called a six-four of the dominant, and never an arrival (claim C5 of the trade).
    if (says.name === 'tonic' && says.inversion !== 2 && main?.roman.startsWith('cad64') === true)
      return {
        verdict: 'fails',
        code: 'C0204',
        reason: 'a cadential six-four has the notes of the tonic and stands for the dominant',
        evidence: [],
        instead: () => {
          const six = parseRomanNumeral('cad64');
          return isUnread(six) ? [] : [numeralFamily.make({ numeral: six })];
        },
      };
    const convention = context.conventions['seventh-on-I'];
    const possible = numeralsOf(says, key).filter(
      of => (says.inversion ?? 0) < realize(of, key, convention).tones.length,
    );
    const best = bestOf(possible.map(of => ask(of, says.inversion, key, range, context)));
    if (best === undefined)
      return {
        verdict: 'fails',
        code: 'C0204',
        reason: `the ${says.name} chord has no ${inversionAdjectives[says.inversion ?? 0] ?? 'such inversion'}: it is a triad`,
        evidence: [],
        instead,
      };
    const finding = { ...judged(best, codes, range, context), instead };
    // The sixth of its name is the one above the bass; writers use the name of the chord in root position too.
    const isRooted =
      says.sixth === true &&
      main?.chord.inversion === 0 &&
      possible.some(of => realize(of, key, convention).root === main.chord.root);
    return isRooted && finding.verdict === 'holds'
      ? {
          ...finding,
          verdict: 'arguable',
          code: 'C0202',
          reason:
            'it is the Neapolitan in root position; the sixth of its name is that of the first inversion',
        }
      : finding;
  },
});
