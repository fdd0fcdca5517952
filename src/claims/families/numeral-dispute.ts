import { degreeTone, isUnread, keyOfTarget, parseRomanNumeral } from '../../harmony/index.js';
import type { Judgement, Key, RomanNumeral, Segment } from '../../harmony/index.js';
import { printPitchClass } from '../../score/index.js';
import type { ClaimContext, Range } from '../model.js';
import { segmentsIn } from '../segments.js';

/** What can be said against a numeral although its notes are there. */
type Dispute = Pick<Judgement, 'outcome' | 'reason'>;

/** Figures of a triad: without a seventh nothing but what follows makes a major triad an applied dominant. */
const figuresOfTriad: readonly string[] = ['', '6', '64'];

/** A target may come after a chord or two that delay it. */
const mostBetween = 3;

/** The chords after a range, of another root than the last in it, until that root comes again. */
function chordsAfter(range: Range, { analysis }: ClaimContext): readonly Segment[] {
  const last = segmentsIn(analysis, range).at(-1);
  if (last === undefined) return [];
  const isOther = ({ chord }: Segment): boolean => chord.root !== last.chord.root;
  const after = analysis.segments.slice(analysis.segments.indexOf(last) + 1);
  const first = after.findIndex(isOther);
  const others = first < 0 ? [] : after.slice(first);
  const returns = others.findIndex(each => !isOther(each));
  return returns < 0 ? others : others.slice(0, returns);
}

/**
 * A triad is V of another degree where that degree follows; else it is what it is in its key (Hutchinson, Secondary Dominants: it resolves to
 * the chord that it is the dominant of).
 */
export function triadWithoutTarget(
  numeral: RomanNumeral,
  inKey: Key,
  range: Range,
  context: ClaimContext,
): Dispute | undefined {
  const { target } = numeral;
  if (target === undefined || numeral.degree !== 5 || !figuresOfTriad.includes(numeral.figures))
    return undefined;
  const goal = keyOfTarget(target, inKey).tonic;
  const reaches = ({ chord, roman, key }: Segment): boolean =>
    chord.root === goal || (roman === 'cad64' && goal === degreeTone(key, 5));
  if (chordsAfter(range, context).slice(0, mostBetween).some(reaches)) return undefined;
  const here = segmentsIn(context.analysis, range).at(-1);
  const own = here === undefined ? undefined : parseRomanNumeral(here.roman);
  // Heard as applied all the same, it goes elsewhere than expected.
  if (here === undefined || own === undefined || isUnread(own) || own.target !== undefined) return undefined;
  return {
    outcome: 'rivalled',
    reason: `spelled so, but ${printPitchClass(goal)}, its target, does not follow: without it the triad is ${here.roman}`,
  };
}
