import type { Parser } from '../grammar/index.js';
import {
  bassOf,
  chord,
  degreeTone,
  judgeChord,
  leadingTone,
  printKey,
  sameKey,
} from '../../harmony/index.js';
import type { Judgement, Key, PedalPoint, RomanNumeral, Segment } from '../../harmony/index.js';
import { compare, spell } from '../../score/index.js';
import type { PitchClass } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { choice, map, optional, sequence, word, wordsFor } from '../grammar/index.js';
import { rangeOrMoment } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { article, withArticle } from '../terms/chord-name.js';
import { inKey } from '../terms/key-name.js';
import { be, printBe } from '../terms/verb.js';
import { silence, noChord } from './judged.js';
import type { ClaimContext, Range } from '../model.js';
import { mainSegment, segmentsIn } from '../segments.js';

type Kind = 'cadential' | 'passing' | 'pedal' | 'arpeggiated';

/** What a triad in second inversion is there for. */
export interface SixFourSays {
  readonly type: Kind;
  /** Where it is said; else the key of the passage. */
  readonly key?: Key;
}

/** `a cadential six-four`. */
export const sixFour: Parser<SixFourSays> = map(
  sequence(
    optional(choice(article, word('the'))),
    wordsFor<Kind>([
      ['cadential', 'cadential'],
      ['passing', 'passing'],
      ['pedal', 'pedal', 'neighbour', 'neighbor', 'auxiliary'],
      ['arpeggiated', 'arpeggiated', 'consonant'],
    ]),
    word('six-four', '6/4', '6-4', '64', 'six-fours'),
    optional(word('chord')),
    inKey,
  ),
  ([, type, , , key]): SixFourSays => (key === undefined ? { type } : { type, key }),
);

const steps = (a: PitchClass, b: PitchClass): number =>
  ('CDEFGAB'.indexOf(spell(b).letter) - 'CDEFGAB'.indexOf(spell(a).letter) + 7) % 7;

/** Whether the bass of a chord stays before and after it. */
const isOverPedal = (segment: Segment, pedals: readonly PedalPoint[]): boolean =>
  pedals.some(
    ({ tone, start, end }) =>
      tone === bassOf(segment.chord) && compare(start, segment.start) < 0 && compare(segment.end, end) < 0,
  );

/** The kind of a six-four by its bass before and after (common practice: cadential, passing, pedal, arpeggiated). */
function kindOf(
  segment: Segment,
  before: Segment | undefined,
  after: Segment | undefined,
  pedals: readonly PedalPoint[],
): Kind | undefined {
  if (segment.chord.tones.length !== 3 || segment.chord.inversion !== 2) return undefined;
  const bass = bassOf(segment.chord);
  const dominant = degreeTone(segment.key, 5);
  const goesToDominant = after?.chord.root === dominant && bassOf(after.chord) === dominant;
  if (
    segment.roman.startsWith('cad64') ||
    (segment.chord.root === segment.key.tonic && bass === dominant && goesToDominant)
  )
    return 'cadential';
  const isSame = (other: Segment | undefined): boolean => other?.chord.root === segment.chord.root;
  if (isSame(before) || isSame(after)) return 'arpeggiated';
  const from = before === undefined ? undefined : bassOf(before.chord);
  const to = after === undefined ? undefined : bassOf(after.chord);
  if (isOverPedal(segment, pedals) || (from === bass && to === bass)) return 'pedal';
  if (from === undefined || to === undefined) return undefined;
  const [into, out] = [steps(from, bass), steps(bass, to)];
  return (into === 1 && out === 1) || (into === 6 && out === 6) ? 'passing' : undefined;
}

/** Chords that may pass between a cadential six-four and its V: those that lead to V, such as viio7/V, and common-tone chords. */
const interpolated = /\/V$|^CT/u;

/** Whether neither the root nor the third of V belongs to a chord: it may be read wrongly, but V it is not. */
const hasNothingOfV = ({ chord }: Segment, key: Key): boolean =>
  !chord.tones.some(tone => tone === degreeTone(key, 5) || tone === leadingTone(key));

/** Whether the notes of a chord refuse V, even where it is read as another chord. */
const refusesV = ({ start, end }: Segment, key: Key, { analysis }: ClaimContext): boolean =>
  judgeChord(analysis, { start, end, tones: chord(degreeTone(key, 5), 'major').tones, key }).outcome ===
  'contradicted';

/** What speaks against `cad64` where its notes stand: a cadential six-four delays V, which has to follow it. */
export function strayCadential(
  numeral: RomanNumeral,
  inKey: Key,
  range: Range,
  context: ClaimContext,
): Pick<Judgement, 'outcome' | 'reason'> | undefined {
  if (numeral.kind !== 'cadential' || numeral.target !== undefined) return undefined;
  const { segments } = context.analysis;
  const own = segmentsIn(context.analysis, range);
  const last = own.at(-1);
  const from = last === undefined ? segments.length : segments.indexOf(last) + 1;
  const next = segments.slice(from).find(({ roman }) => !interpolated.test(roman));
  const dominant = degreeTone(inKey, 5);
  const isDue = ({ chord, roman }: Segment): boolean => chord.root === dominant || roman.startsWith('cad64');
  if (next === undefined || [...own, next].some(isDue)) return undefined;
  return {
    outcome: hasNothingOfV(next, inKey) && refusesV(next, inKey, context) ? 'contradicted' : 'rivalled',
    reason: `${next.roman} follows it, and a cadential six-four delays V`,
  };
}

/** Six-four chords by their kind: claim C5 of the trade. */
export const sixFourFamily = family<Span, SixFourSays>({
  name: 'six-four',
  examples: ['bar 31 beats 1-2 are a cadential six-four'],
  phrases: [[be, sixFour]],
  print: ({ type, key }, form) =>
    `${printBe(form)} ${withArticle(`${type} six-four`)}${key === undefined ? '' : ` in ${printKey(key)}`}`,
  check: (span, { type, key }, context, make): Finding<Span> => {
    const range = rangeOrMoment(span);
    const silent = silence<Span>(range, span.name, context);
    if (silent !== undefined) return silent;
    const { segments } = context.analysis;
    const segment = mainSegment(context.analysis, range);
    if (segment === undefined) return noChord(span.name, 'C0103');
    const at = segments.indexOf(segment);
    const before = segments[at - 1];
    const after = segments[at + 1];
    if (key !== undefined && type === 'cadential' && segment.chord.root !== key.tonic)
      return {
        verdict: 'fails',
        code: 'C0213',
        reason: `${segment.roman} is no chord on the tonic of ${printKey(key)}`,
        evidence: [],
        instead: () => [make({ type })],
      };
    const kind = kindOf(
      key === undefined || sameKey(key, segment.key) ? segment : { ...segment, key, roman: '' },
      before,
      after,
      context.analysis.pedals,
    );
    const basses = [before, segment, after]
      .flatMap(each => (each === undefined ? [] : [each.roman]))
      .join(' ');
    const evidence = segment.chordTones.slice(0, 4).flatMap(id => {
      const note = context.analysis.score.notes[id];
      return note === undefined
        ? []
        : [
            noteEvidence(
              kind === type ? 'supports' : 'contradicts',
              note,
              `member of ${segment.roman}`,
              context,
            ),
          ];
    });
    if (kind === type)
      return {
        verdict: 'holds',
        code: 'C0211',
        reason: `${basses}: ${withArticle(kind)} six-four`,
        evidence,
      };
    if (kind === 'cadential' && type === 'pedal' && isOverPedal(segment, context.analysis.pedals))
      return {
        verdict: 'arguable',
        code: 'C0212',
        reason: `${basses}: a cadential six-four, over a bass that stays before and after it`,
        evidence,
      };
    const isSixFour = segment.chord.tones.length === 3 && segment.chord.inversion === 2;
    const leadsElsewhere = type === 'cadential' && after !== undefined && hasNothingOfV(after, segment.key);
    return {
      verdict: isSixFour && kind === undefined && !leadsElsewhere ? 'arguable' : 'fails',
      code: isSixFour ? 'C0212' : 'C0213',
      reason: !isSixFour
        ? `${segment.roman} is no triad in second inversion`
        : kind === undefined
          ? `${basses}: ${leadsElsewhere ? 'V does not follow it' : 'a six-four of none of the usual kinds'}`
          : `${basses}: ${withArticle(kind)} six-four`,
      evidence,
      instead: () => (kind === undefined ? [] : [make({ type: kind })]),
    };
  },
});
