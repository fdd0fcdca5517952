import { printPitch } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, optional, sequence, word } from '../grammar/index.js';
import { together } from '../subjects/pair.js';
import type { Pair, Together } from '../subjects/pair.js';
import { article, withArticle } from '../terms/chord-name.js';
import {
  intervalBetween,
  intervalSize,
  isOfSize,
  printInterval,
  printSize,
  simple,
} from '../terms/interval-name.js';
import type { IntervalSize } from '../terms/interval-name.js';
import { be, printBe, verb } from '../terms/verb.js';
import type { ClaimContext } from '../model.js';

/** The interval between two lines. */
export interface IntervalSays {
  readonly interval: IntervalSize;
}

const complement = map(sequence(optional(article), intervalSize), ([, interval]): IntervalSays => ({
  interval,
}));

/** A size within an octave, as `simple` does it of an interval: a tenth is a third. */
function withinOctave({ steps, semitones }: IntervalSize): IntervalSize {
  const octaves = Math.max(0, Math.floor((steps - 1) / 7));
  return {
    steps: steps - 7 * octaves,
    ...(semitones === undefined ? {} : { semitones: semitones - 12 * octaves }),
  };
}

const evidenceOf = ({ upper, lower }: Together, role: 'supports' | 'contradicts', context: ClaimContext) => {
  const name = printInterval(intervalBetween(upper.pitch, lower.pitch));
  return [upper, lower].map(note => noteEvidence(role, note, name, context));
};

/** The interval that two lines make: claim A3 of the trade. Spelling decides the name, and a tenth may be called a third. */
export const intervalFamily = family<Pair, IntervalSays>({
  name: 'interval',
  examples: ['the soprano and the bass of bar 3 beat 1 are a minor tenth apart'],
  phrases: [
    [be, map(sequence(complement, optional(word('apart'))), ([says]) => says)],
    [verb('forms', 'form'), complement],
    [verb('makes', 'make'), complement],
  ],
  print: ({ interval }, form) => `${printBe(form)} ${withArticle(printSize(interval))} apart`,
  check: ({ span, upper, lower, name }, { interval }, context, make): Finding<Pair> => {
    const all = together(upper, lower);
    const pairs = span.moment === undefined ? all : all.slice(0, 1);
    const [first] = pairs;
    if (first === undefined)
      return {
        verdict: 'undecided',
        code: 'C0005',
        reason: `${name} never sound together`,
        evidence: [],
        pointless: true,
      };
    const sizeOf = (pair: Together) => intervalBetween(pair.upper.pitch, pair.lower.pitch);
    const fits = (pair: Together) =>
      isOfSize(sizeOf(pair), interval) || (interval.steps <= 7 && isOfSize(simple(sizeOf(pair)), interval));
    const wrong = pairs.find(pair => !fits(pair));
    if (wrong === undefined)
      return {
        verdict: 'holds',
        code: 'C1001',
        reason: `${printPitch(first.lower.pitch)} and ${printPitch(first.upper.pitch)} are ${withArticle(printInterval(sizeOf(first)))} apart`,
        evidence: evidenceOf(first, 'supports', context),
      };
    const size = sizeOf(wrong);
    // A tenth over two octaves is a seventeenth, and is often called a tenth all the same.
    const isWider =
      interval.steps > 7 && pairs.every(pair => isOfSize(simple(sizeOf(pair)), withinOctave(interval)));
    if (isWider)
      return {
        verdict: 'arguable',
        code: 'C1005',
        reason: `${printPitch(wrong.lower.pitch)} and ${printPitch(wrong.upper.pitch)} are ${withArticle(printInterval(size))} apart, the same interval over more octaves`,
        evidence: evidenceOf(wrong, 'supports', context),
        instead: () => [make({ interval: size })],
      };
    const { steps, semitones } = interval;
    const alike =
      semitones !== undefined && simple(size).semitones === simple({ steps, semitones }).semitones;
    const other = pairs.find(fits);
    return {
      verdict: other === undefined ? 'fails' : 'arguable',
      code: other === undefined ? (alike ? 'C1003' : 'C1002') : 'C1004',
      reason: `${printPitch(wrong.lower.pitch)} and ${printPitch(wrong.upper.pitch)} are ${withArticle(printInterval(size))} apart${
        other === undefined
          ? alike
            ? ': it sounds the same, but the letters decide the name'
            : ''
          : '; the lines move within the place'
      }`,
      evidence: [
        ...evidenceOf(wrong, 'contradicts', context),
        ...(other === undefined ? [] : evidenceOf(other, 'supports', context)),
      ],
      instead: () => [make({ interval: size })],
    };
  },
});
