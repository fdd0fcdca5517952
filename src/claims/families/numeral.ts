import {
  isUnread,
  parseRomanNumeral,
  printRomanNumeral,
  realize,
  romanFor,
  sameChord,
  sameKey,
} from '../../harmony/index.js';
import type { Judgement, Key, RomanNumeral, SeventhConvention } from '../../harmony/index.js';
import type { Finding, Predicate } from '../claim.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, refine, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { commonToneDispute } from './common-tone.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { article, inversions } from '../terms/chord-name.js';
import { keyByName } from '../terms/key-name.js';
import { anyKey, printKeyReference, relatedKey, withKeyMeant } from '../terms/key-reference.js';
import type { KeyRef } from '../terms/key-reference.js';
import { inInversion, numeral } from '../terms/numeral.js';
import { be, printBe } from '../terms/verb.js';
import { triadWithoutTarget } from './numeral-dispute.js';
import { strayCadential } from './six-four.js';
import { isSupported, judged, silence } from './judged.js';
import { mainSegment, segmentsIn } from '../segments.js';
import type { Codes } from './judged.js';
import { judgeWhole } from './whole-bars.js';
import { trueOfWholeBeat } from './whole-beat.js';

/** A Roman numeral with its figures, in a key or in the home key of the lesson. */
export interface NumeralSays {
  readonly numeral: RomanNumeral;
  readonly key?: KeyRef;
}
/** The same with its key by name. */
type Meant = Omit<NumeralSays, 'key'> & { readonly key?: Key };

const codes: Codes = { supported: 'C0201', rivalled: 'C0202', open: 'C0203', contradicted: 'C0204' };

function ask(says: Meant, convention: SeventhConvention, range: Range, context: ClaimContext): Judgement {
  const key = says.key ?? context.home;
  const chord = realize(says.numeral, key, convention);
  // `CTo7` is written of any inversion (Hutchinson, Common-Tone Diminished Seventh Chords); other figures are meant.
  const withBass = says.numeral.kind !== 'common-tone' || says.numeral.figures !== '7';
  return judgeWhole(chord, { range, withBass, key, roman: printRomanNumeral(says.numeral) }, context);
}

const cadential = (): RomanNumeral => {
  const read = parseRomanNumeral('cad64');
  if (isUnread(read)) throw new Error('cad64 is a numeral');
  return read;
};
/** `V64`: some books write the cadential six-four so (claim C5 of the trade: accept both names). */
const isFunctionalSixFour = (of: RomanNumeral): boolean =>
  of.kind === 'degree' && of.degree === 5 && of.upper && of.figures === '64' && of.target === undefined;

/** The seventh on I and IV of the other school, where it makes another chord. */
function otherConvention(says: Meant, context: ClaimContext): SeventhConvention | undefined {
  const own = context.conventions['seventh-on-I'];
  const other = own === 'major' ? 'minor' : 'major';
  const key = says.key ?? context.home;
  return sameChord(realize(says.numeral, key, own), realize(says.numeral, key, other)) ? undefined : other;
}

function alternatives(
  says: Meant,
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
  // Where the sentence names the key, its author wants to know what the chord is there, if it belongs to it.
  const there = says.key === undefined || main === undefined ? undefined : romanFor(main.chord, says.key);
  return [
    ...(there === undefined || !/^[iv]+[^/]*$/iu.test(there) ? [] : asWritten(there, key)),
    ...(better === undefined ? [] : asWritten(better.roman, better.key)),
    ...segments.flatMap(segment => [
      ...asWritten(segment.roman, segment.key),
      ...asWritten(romanFor(segment.chord, key), key),
    ]),
    ...segments.flatMap(segment => segment.rivals.flatMap(rival => asWritten(rival.roman, rival.key))),
  ];
}

const inOrOfKey = optional(
  choice(
    map(sequence(word('in'), anyKey), ([, key]) => key),
    // `V65 of iv` is applied to iv: terms/numeral.ts.
    map(sequence(word('of'), choice<KeyRef>(keyByName, relatedKey)), ([, key]) => key),
    map(word('in the home key'), () => undefined),
  ),
);
/** `V65 in D major`, `a V43`, `the V7 chord of D major`. */
const complement: Parser<NumeralSays> = map(
  sequence(quiet(optional(choice(article, word('the')))), numeral, quiet(optional(word('chord'))), inOrOfKey),
  ([, read, , key]): NumeralSays => (key === undefined ? { numeral: read } : { numeral: read, key }),
);

/** `V7 of D major in first inversion`. */
const ofKeyInInversion: Parser<NumeralSays> = refine(
  sequence(
    quiet(optional(choice(article, word('the')))),
    numeral,
    quiet(optional(word('chord'))),
    word('of', 'in'),
    anyKey,
    word('in'),
    inversions,
  ),
  ([, read, , , key, , inversion]): NumeralSays | undefined => {
    const inverted = inInversion(read, inversion);
    return inverted === undefined ? undefined : { numeral: inverted, key };
  },
  'an inversion that the chord has',
);

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
    [be, complement],
    [be, ofKeyInInversion],
  ],
  aspects: [[word('chord', 'harmony'), be, complement]],
  print: ({ numeral: of, key }, form) =>
    `${printBe(form)} ${printRomanNumeral(of)}${key === undefined ? '' : ` in ${printKeyReference(key)}`}`,
  check: (span, named, context, make): Finding<Span> => {
    const says: Meant = withKeyMeant(named, context.home);
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const convention = context.conventions['seventh-on-I'];
    const judgement = ask(says, convention, range, context);
    const rather = () => trueOfWholeBeat(span, make(says), context);
    const instead = () => (rather().length > 0 ? [] : alternatives(says, judgement, range, context, make));
    const main = mainSegment(context.analysis, range);
    if (isFunctionalSixFour(says.numeral) && !isSupported(judgement) && main?.roman === 'cad64')
      return {
        ...judged(ask({ ...says, numeral: cadential() }, convention, range, context), codes, range, context),
        verdict: 'arguable',
        code: 'C0202',
        reason:
          'true where the six-four is written by what it does, V64-53; by its notes it is the tonic over its fifth, and here it is called cad64',
        instead,
      };
    const dispute = isSupported(judgement)
      ? (commonToneDispute(says.numeral, range, context) ??
        strayCadential(says.numeral, says.key ?? context.home, range, context) ??
        triadWithoutTarget(says.numeral, says.key ?? context.home, range, context))
      : undefined;
    if (dispute !== undefined)
      return { ...judged({ ...judgement, ...dispute }, codes, range, context), instead };
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
    const said = judged(judgement, codes, range, context);
    const asked = realize(says.numeral, says.key ?? context.home, convention);
    // The tonic by its notes: what it is decides, not the bass that gives it away (claim C5 of the trade).
    const isSixFour =
      judgement.outcome === 'contradicted' && main?.roman === 'cad64' && sameChord(asked, main.chord);
    return {
      ...said,
      reason: isSixFour
        ? `${said.reason}: it is a cadential six-four, which delays V and is no tonic`
        : said.reason,
      instead,
      rather,
    };
  },
});
