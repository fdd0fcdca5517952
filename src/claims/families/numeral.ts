import {
  isUnread,
  parseRomanNumeral,
  printKey,
  printRomanNumeral,
  realize,
  romanFor,
  sameChord,
  sameKey,
} from '../../harmony/index.js';
import type { Judgement, Key, RomanNumeral, SeventhConvention } from '../../harmony/index.js';
import type { Finding, Predicate } from '../claim.js';
import { family } from '../family.js';
import { map, sequence } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { inKey } from '../terms/key-name.js';
import { numeral } from '../terms/numeral.js';
import { be, printBe } from '../terms/verb.js';
import { isSupported, judged, silence } from './judged.js';
import { mainSegment, segmentsIn } from '../segments.js';
import type { Codes } from './judged.js';
import { judgeWhole } from './whole-bars.js';

/** A Roman numeral with its figures, in a key or in the home key of the lesson. */
export interface NumeralSays {
  readonly numeral: RomanNumeral;
  readonly key?: Key;
}

const codes: Codes = { supported: 'C0201', rivalled: 'C0202', open: 'C0203', contradicted: 'C0204' };

function ask(
  says: NumeralSays,
  convention: SeventhConvention,
  range: Range,
  context: ClaimContext,
): Judgement {
  const key = says.key ?? context.home;
  const chord = realize(says.numeral, key, convention);
  return judgeWhole(chord, { range, withBass: true, key, roman: printRomanNumeral(says.numeral) }, context);
}

/** The seventh on I and IV of the other school, where it makes another chord. */
function otherConvention(says: NumeralSays, context: ClaimContext): SeventhConvention | undefined {
  const own = context.conventions['seventh-on-I'];
  const other = own === 'major' ? 'minor' : 'major';
  const key = says.key ?? context.home;
  return sameChord(realize(says.numeral, key, own), realize(says.numeral, key, other)) ? undefined : other;
}

function alternatives(
  says: NumeralSays,
  judgement: Judgement,
  range: Range,
  context: ClaimContext,
  make: (says: NumeralSays) => Predicate<Span>,
): readonly Predicate<Span>[] {
  const asWritten = (roman: string, key: Key): readonly Predicate<Span>[] => {
    const named =
      context.conventions.cadential === 'I64'
        ? roman.replace(/^cad64/u, key.mode === 'major' ? 'I64' : 'i64')
        : roman;
    const read = parseRomanNumeral(named);
    if (isUnread(read)) return [];
    const isHome = says.key === undefined && sameKey(key, context.home);
    return [make(isHome ? { numeral: read } : { numeral: read, key })];
  };
  const { better } = judgement;
  const key = says.key ?? context.home;
  const main = mainSegment(context.analysis, range);
  const segments = [...(main === undefined ? [] : [main]), ...segmentsIn(context.analysis, range)];
  return [
    ...(better === undefined ? [] : asWritten(better.roman, better.key)),
    ...segments.flatMap(segment => [
      ...asWritten(segment.roman, segment.key),
      ...asWritten(romanFor(segment.chord, key), key),
    ]),
    ...segments.flatMap(segment => segment.rivals.flatMap(rival => asWritten(rival.roman, rival.key))),
  ];
}

/** Roman numerals with inversion, applied chords, mixture, N, augmented sixths, cadential six-four: claims C1 to C5. */
export const numeralFamily = family<Span, NumeralSays>({
  name: 'numeral',
  examples: [
    'bar 3 is V7/V',
    'bar 3 beat 2 is viio7/ii in C major',
    'bar 7 beats 1-2 are cad64',
    'bar 6 is N6',
  ],
  phrases: [
    [
      be,
      map(sequence(numeral, inKey), ([read, key]): NumeralSays =>
        key === undefined ? { numeral: read } : { numeral: read, key },
      ),
    ],
  ],
  print: ({ numeral: of, key }, form) =>
    `${printBe(form)} ${printRomanNumeral(of)}${key === undefined ? '' : ` in ${printKey(key)}`}`,
  check: (span, says, context, make): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const convention = context.conventions['seventh-on-I'];
    const judgement = ask(says, convention, range, context);
    const instead = () => alternatives(says, judgement, range, context, make);
    if (!isSupported(judgement)) {
      const other = otherConvention(says, context);
      const otherwise = other === undefined ? undefined : ask(says, other, range, context);
      if (other !== undefined && otherwise !== undefined && isSupported(otherwise))
        return {
          ...judged(otherwise, codes, range, context),
          verdict: 'arguable',
          code: 'C0205',
          reason: `true where \`seventh-on-I\` is \`${other}\`; the lesson has \`${convention}\`, which makes another chord of ${printRomanNumeral(says.numeral)}`,
          instead,
        };
    }
    return { ...judged(judgement, codes, range, context), instead };
  },
});
