import { isUnread, parseRomanNumeral, printRomanNumeral } from '../../harmony/index.js';
import type { RomanNumeral } from '../../harmony/index.js';
import {
  choice,
  foreignToken,
  map,
  optional,
  quiet,
  refine,
  rule,
  sequence,
  shapes,
  token,
  word,
} from '../grammar/index.js';
import type { Parser, Shape } from '../grammar/index.js';
import { article, inversions } from './chord-name.js';

const { inOrder, maybe, oneOf, oneOrMore, text } = shapes;

const named = (name: string, body: Shape): Shape => ({ kind: 'token', name, body });

const degree = named(
  'Degree',
  oneOf('VII', 'III', 'II', 'IV', 'VI', 'V', 'I', 'vii', 'iii', 'ii', 'iv', 'vi', 'v', 'i'),
);
const figures = named(
  'Figures',
  oneOf(
    '64',
    '65',
    '63',
    '43',
    '42',
    '53',
    '6/4',
    '6/5',
    '6/3',
    '4/3',
    '4/2',
    '5/3',
    '6',
    '7',
    '5',
    '2',
    '9',
  ),
);
const accidental = oneOf('bb', 'b', '##', '#', '♭', '♯');
const plain = inOrder(
  maybe(accidental),
  degree,
  maybe(oneOf('o', '°', 'ø', '+')),
  maybe(oneOf('M', 'maj')),
  maybe(figures),
);
const special = oneOf(
  inOrder(text('N'), maybe(oneOf('6', '64', '6/4'))),
  inOrder(text('It'), maybe(oneOf('6'))),
  inOrder(text('Fr'), maybe(oneOf('43', '4/3', '6'))),
  inOrder(text('Ger'), maybe(oneOf('65', '6/5', '6'))),
  inOrder(text('Sw'), maybe(oneOf('43', '4/3'))),
  inOrder(oneOf('CT', 'ct'), oneOf('o', '°'), oneOf('7', '65', '6/5', '43', '4/3', '42', '4/2')),
  'cad64',
  'Cad64',
);
export const numeralShape = inOrder(
  oneOf(special, plain),
  maybe(oneOrMore(inOrder(text('/'), maybe(accidental), degree))),
);

/** `V65/V`, `viio7/ii`, `N6`, `Ger65`, `cad64`, `CTo7`. */
const written: Parser<RomanNumeral> = foreignToken({
  name: 'RomanNumeral',
  label: 'a Roman numeral such as `V65/V`',
  shape: numeralShape,
  // `i` opens a numeral and `inversion` does not.
  opens:
    /^[#b♯♭]*(?:(?:[IV]+|[iv]+)(?=[oø]?(?:M|maj|[^\p{L}]|$))|(?:N|It|Fr|Ger|Sw|[Cc]ad)(?!\p{L})|(?:CT|Ct|ct)[o°])/u,
  // `I-IV-V`: numerals are joined by hyphens, and have none.
  run: /[^\s,;–→“”"„«»‘’'-]+/uy,
  value: run => {
    const read = parseRomanNumeral(run);
    return isUnread(read) ? read : { value: read };
  },
});

/** Figures by inversion, of a triad and of a seventh chord (Hutchinson, Figured Bass Inversion Symbols). */
const figuresOf = { triad: ['', '6', '64'], seventh: ['7', '65', '43', '42'] } as const;
/** `Vb`, `ii7b`, `V7d`: British letters for the inversions (a root position to d third inversion; from memory, ABRSM usage). */
const lettered: Parser<RomanNumeral> = token({
  name: 'LetteredNumeral',
  label: 'a Roman numeral such as `V65/V`',
  shape: inOrder(
    maybe(accidental),
    degree,
    maybe(oneOf('o', '°', 'ø', '+')),
    oneOf(
      inOrder(text('7'), oneOf('a', 'b', 'c', 'd')),
      inOrder(oneOf('a', 'b', 'c', 'd'), text('7')),
      'a',
      'b',
      'c',
    ),
  ),
  value: matched => {
    const [letter = ''] = /[a-d](?=7?$)/u.exec(matched) ?? [];
    const read = parseRomanNumeral(matched.replace(/[a-d](?=7?$)/u, ''));
    const inversion = 'abcd'.indexOf(letter);
    if (isUnread(read)) return undefined;
    const figures = figuresOf[read.figures === '7' ? 'seventh' : 'triad'][inversion];
    return figures === undefined ? undefined : { ...read, figures };
  },
});

/** `V7 of iv` for `V7/iv`. */
const ofTarget: Parser<RomanNumeral> = refine(
  sequence(choice(written, lettered), word('of'), written),
  ([applied, , target]) => {
    const read = parseRomanNumeral(`${printRomanNumeral(applied)}/${printRomanNumeral(target)}`);
    return isUnread(read) ? undefined : read;
  },
  'a numeral applied to another such as `V7 of V`',
);
/** A numeral that says nothing of its bass, in an inversion; `undefined` where its chord has none such. */
export function inInversion(of: RomanNumeral, inversion: number): RomanNumeral | undefined {
  const figures =
    of.figures === ''
      ? figuresOf.triad[inversion]
      : of.figures === '7'
        ? figuresOf.seventh[inversion]
        : undefined;
  return figures === undefined ? undefined : { ...of, figures };
}
/** `V7 in second inversion` for `V43`, `a first-inversion V7/V` for `V65/V`. */
const inverted: Parser<RomanNumeral> = choice(
  refine(
    sequence(choice(written, ofTarget), quiet(optional(word('chord'))), word('in'), inversions),
    ([of, , , inversion]) => inInversion(of, inversion),
    'an inversion that the chord has',
  ),
  refine(
    sequence(inversions, choice(written, ofTarget)),
    ([inversion, of]) => inInversion(of, inversion),
    'an inversion that the chord has',
  ),
);

/** `a common-tone diminished seventh chord`, which has no other name that says where it stands. */
const commonTone: Parser<RomanNumeral> = refine(
  sequence(
    word('common-tone diminished seventh', 'common-tone diminished 7th'),
    quiet(optional(word('chord'))),
  ),
  () => {
    const read = parseRomanNumeral('CTo7');
    return isUnread(read) ? undefined : read;
  },
  'a Roman numeral such as `V65/V`',
);

/** A numeral as written, `chord Vb`, `V7 of iv`, `V7 in second inversion`, `root-position V7`. */
export const numeral: Parser<RomanNumeral> = rule(
  'Numeral',
  () =>
    choice(
      written,
      lettered,
      ofTarget,
      inverted,
      commonTone,
      map(sequence(quiet(word('chord')), choice(written, lettered, ofTarget, inverted)), ([, of]) => of),
    ),
  'a Roman numeral such as `V65/V`',
);
/** The numeral alone, without `of` and `in`. */
export const numeralToken = choice(written, lettered);

/**
 * A numeral that another chord goes to. Its figures say which inversion is meant; without any it is left open, unless root position is said:
 * `I` alone does not say it here.
 */
export interface GoalNumeral {
  readonly numeral: RomanNumeral;
  readonly inversion: 'open' | 'root position';
}
const rootPosition = word('root position', 'root-position');
const inRootPosition = (of: RomanNumeral): GoalNumeral => ({ numeral: of, inversion: 'root position' });
const theOrA = quiet(optional(choice(article, word('the'))));
/** `vi`, `I in root position`, `a root-position I`. */
export const goalNumeral: Parser<GoalNumeral> = choice(
  map(sequence(theOrA, numeralToken, word('in'), rootPosition), ([, of]) => inRootPosition(of)),
  quiet(map(sequence(theOrA, rootPosition, numeralToken), ([, , of]) => inRootPosition(of))),
  map(sequence(theOrA, numeral, quiet(optional(word('chord')))), ([, of]) => ({
    numeral: of,
    inversion: 'open',
  })),
);

export const printGoalNumeral = ({ numeral: of, inversion }: GoalNumeral): string =>
  `${printRomanNumeral(of)}${inversion === 'open' ? '' : ' in root position'}`;
