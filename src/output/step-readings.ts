import { readClaim, type Verdict } from '../claims/index.js';
import {
  isUnread,
  parseRomanNumeral,
  printKey,
  printRomanNumeral,
  readKey,
  realize,
  sameChord,
  sameKey,
  type Analysis,
} from '../harmony/index.js';
import type { ClaimEntry, Lesson } from '../lesson/index.js';
import { equals, fraction, onsetAt } from '../score/index.js';
import type { PageStep } from '../timeline/index.js';

/** `bar 5 is V65/V in G major` and `bar 5 beat 3 is ...`, in the form that claims are printed in. */
const saysNumeral = /^bar (\d+[a-z]?)(?: beats? (\d+)(?:-\d+)?)? is (\S+)(?: in (.+))?$/;

/**
 * The harmonies of a step that its claims call otherwise than the analysis does: the same chord as a degree of another key (V7/iv in B minor is
 * V7/ii in D major). What is written under the staff of the step is then what its words say. Only a claim that holds or can be argued
 * is followed, and only where none of the step agrees with the analysis.
 */
export function stepReadings(
  lesson: Lesson,
  index: number,
  { score, segments }: Analysis,
  checked: readonly { readonly claim: ClaimEntry; readonly verdict: Verdict }[],
): PageStep['readings'] {
  const home = lesson.steps[index]?.home ?? lesson.home.value;
  const said = checked.flatMap(({ claim, verdict }) => {
    const read = readClaim(claim.text);
    if (claim.step !== index || 'problem' in read) return [];
    if (verdict.verdict !== 'holds' && verdict.verdict !== 'arguable') return [];
    const [, bar = '', beat = '1', written = '', inKey] = saysNumeral.exec(read.claim.print()) ?? [];
    const numeral = parseRomanNumeral(written);
    const key = inKey === undefined ? home : readKey(inKey);
    if (isUnread(numeral) || key === undefined) return [];
    const onset =
      onsetAt(score, bar, fraction(Number(beat)), lesson.beat) ??
      onsetAt(score, Number.parseInt(bar, 10), fraction(Number(beat)), lesson.beat);
    const segment = segments.findIndex(({ start }) => onset !== undefined && equals(start, onset));
    const heard = segments[segment];
    if (heard === undefined) return [];
    const chord = realize(numeral, key, lesson.conventions['seventh-on-I']);
    if (!sameChord(chord, heard.chord) || chord.inversion !== heard.chord.inversion) return [];
    const agrees = sameKey(key, heard.key) && printRomanNumeral(numeral) === heard.roman;
    return [{ segment, roman: printRomanNumeral(numeral), key: printKey(key), agrees }];
  });
  return said
    .filter(
      ({ segment }, at) =>
        said.findIndex(one => one.segment === segment) === at &&
        !said.some(one => one.segment === segment && one.agrees),
    )
    .map(({ segment, roman, key }) => ({ segment, roman, key }));
}
