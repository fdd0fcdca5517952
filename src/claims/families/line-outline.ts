import { chord, isUnread, parseRomanNumeral, printRomanNumeral, realize } from '../../harmony/index.js';
import type { ChordQuality, RomanNumeral } from '../../harmony/index.js';
import { equals, pitchClassOf, printPitch, printPitchClass } from '../../score/index.js';
import type { PitchClass } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, refine, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { segmentsIn } from '../segments.js';
import type { ClaimContext } from '../model.js';
import type { Line } from '../subjects/line.js';
import type { Span } from '../subjects/span.js';
import { article, isSeventh, isTriad, printChordWords, rootedChord } from '../terms/chord-name.js';
import { numeral } from '../terms/numeral.js';
import { be, printBe, printVerb, verb } from '../terms/verb.js';

/** A chord that a line plays one tone after the other; where none is named, whichever sounds there. */
export interface LineOutlineSays {
  /** A chord of the key, by the degree that it stands on. */
  readonly numeral?: RomanNumeral;
  /** Said as `the tonic triad`: major or minor as the key has it. */
  readonly byName?: true;
  readonly chord?: { readonly root: PitchClass; readonly quality: ChordQuality };
  /** One tone after the other, none together. */
  readonly arpeggio?: true;
}

/** A triad of the key by its name, in major and in minor. */
const triads = wordsFor<string>([
  ['I', 'tonic'],
  ['ii', 'supertonic'],
  ['IV', 'subdominant'],
  ['V', 'dominant'],
  ['vi', 'submediant'],
]);
const named: Parser<LineOutlineSays> = choice<LineOutlineSays>(
  map(rootedChord, ({ root, quality }) => ({ chord: { root, quality } })),
  map(numeral, of => ({ numeral: of })),
  refine(
    sequence(
      quiet(optional(choice(word('the'), article))),
      triads,
      optional(word('seventh', '7th')),
      quiet(optional(word('triad', 'chord', 'harmony', 'arpeggio'))),
    ),
    ([, of, seventh]) => {
      const read = parseRomanNumeral(seventh === undefined ? of : `${of}7`);
      return isUnread(read) ? undefined : { numeral: read, byName: true as const };
    },
    'a chord such as `the tonic triad`',
  ),
);
const anArpeggio: Parser<LineOutlineSays> = map(
  sequence(
    quiet(optional(article)),
    word('arpeggio', 'broken chord', 'arpeggiated chord'),
    optional(map(sequence(word('of'), rootedChord), ([, of]) => of)),
  ),
  ([, , of]): LineOutlineSays =>
    of === undefined ? { arpeggio: true } : { arpeggio: true, chord: { root: of.root, quality: of.quality } },
);

const degreeNames: Readonly<Record<number, string>> = {
  1: 'tonic',
  2: 'supertonic',
  4: 'subdominant',
  5: 'dominant',
  6: 'submediant',
};
const nameOf = ({ degree, figures }: RomanNumeral): string =>
  `the ${degreeNames[degree] ?? ''}${figures === '' ? ' triad' : ' seventh chord'}`;

/** The chord that is named in the key of the place. */
function chordNamed(
  { numeral: read, byName }: LineOutlineSays,
  { range }: Span,
  context: ClaimContext,
): LineOutlineSays['chord'] {
  if (read === undefined) return undefined;
  const key = segmentsIn(context.analysis, range)[0]?.key ?? context.home;
  if (byName !== true) {
    const { root, quality } = realize(read, context.home, context.conventions['seventh-on-I']);
    return { root, quality };
  }
  // Minor but for the dominant, and diminished on its second degree.
  const inMinor: RomanNumeral =
    read.degree === 2
      ? { ...read, quality: 'o' }
      : { ...read, upper: read.degree === 5 || read.degree === 6 };
  const { root, quality } = realize(key.mode === 'minor' ? inMinor : read, key);
  return { root, quality };
}

/** Whether a line is a chord spread over time, all of its triad and nothing else: claims B9 and J4 of the trade. */
export const lineOutlineFamily = family<Line, LineOutlineSays>({
  name: 'outline of a line',
  examples: ['the left hand of bar 1 outlines a B minor triad', 'the soprano of bar 1 is an arpeggio'],
  phrases: [
    ...['outlines', 'spells out', 'arpeggiates'].map(
      each => [verb(each, each.replace(/s(?= out|$)/u, '')), named] as const,
    ),
    [be, anArpeggio],
  ],
  print: ({ chord: of, arpeggio, numeral: read, byName }, form) =>
    read !== undefined
      ? `${printVerb('outlines', 'outline', form)} ${byName === true ? nameOf(read) : printRomanNumeral(read)}`
      : arpeggio === true || of === undefined
        ? `${printBe(form)} an arpeggio${of === undefined ? '' : ` of ${printChordWords(of)}`}`
        : `${printVerb('outlines', 'outline', form)} ${printChordWords(of)}`,
  check: ({ notes, name, span }, says, context, make): Finding<Line> => {
    const { arpeggio } = says;
    const of = says.chord ?? chordNamed(says, span, context);
    const own = notes.map(({ note }) => note);
    if (own.length === 0)
      return {
        verdict: 'undecided',
        code: 'C0005',
        reason: `${name} is silent`,
        evidence: [],
        pointless: true,
      };
    const together = own.find(
      (note, at) => at > 0 && equals(note.onset, own[at - 1]?.onset ?? span.range.end),
    );
    if (arpeggio === true && together !== undefined)
      return {
        verdict: 'fails',
        code: 'C0104',
        reason: `${own
          .filter(({ onset }) => equals(onset, together.onset))
          .map(({ pitch }) => printPitch(pitch))
          .join(', ')} are struck together`,
        evidence: [],
        instead: () => (of === undefined ? [] : [make({ chord: of })]),
      };
    const heard = segmentsIn(context.analysis, span.range)
      .map(segment => segment.chord)
      .filter(({ quality }) => isTriad(quality) || isSeventh(quality));
    const asked = of === undefined ? heard : [chord(of.root, of.quality)];
    const classes = new Set(own.map(note => pitchClassOf(note.pitch)));
    const fits = ({ tones }: { readonly tones: readonly PitchClass[] }): boolean =>
      tones.slice(0, 3).every(tone => classes.has(tone)) && [...classes].every(tone => tones.includes(tone));
    const found = asked.find(fits);
    const [wanted] = asked;
    const foreign = own.filter(note => wanted?.tones.includes(pitchClassOf(note.pitch)) === false);
    const missing = wanted?.tones.filter(tone => !classes.has(tone)) ?? [];
    const other = heard.find(fits);
    return {
      verdict: found === undefined ? 'fails' : 'holds',
      code: found === undefined ? 'C0104' : 'C0101',
      reason:
        foreign.length > 0 && found === undefined
          ? `${[...new Set(foreign.map(note => printPitch(note.pitch)))].slice(0, 4).join(', ')} ${foreign.length === 1 ? 'does' : 'do'} not belong to it`
          : missing.length > 0 && found === undefined
            ? `${missing.map(printPitchClass).join(', ')} ${missing.length === 1 ? 'is' : 'are'} missing`
            : `${name} has ${[...classes].map(printPitchClass).join(', ')}`,
      evidence: own
        .slice(0, 8)
        .map(note =>
          noteEvidence(
            foreign.includes(note) ? 'contradicts' : 'supports',
            note,
            foreign.includes(note) ? 'foreign to the chord' : 'member of the chord',
            context,
          ),
        ),
      instead: () =>
        other === undefined ? [] : [make({ chord: { root: other.root, quality: other.quality } })],
    };
  },
});
