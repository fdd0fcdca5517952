import type { Claim } from './claim.js';
import { aCadence, cadenceFamily } from './families/cadence.js';
import { chordFamily } from './families/chord.js';
import { keyFamily } from './families/key.js';
import { spanNonChordToneFamily } from './families/non-chord-tone.js';
import { choice, map, sequence, startReading, word } from './grammar/index.js';
import type { Parser } from './grammar/index.js';
import { opinionIn } from './opinion.js';
import type { Place } from './place/place.js';
import { quantified } from './quantity/quantified.js';
import { plainSentence } from './sentence.js';
import { statement } from './statement.js';
import { span } from './subjects/span.js';
import { unmistakableChord } from './terms/chord-name.js';
import { keyName } from './terms/key-name.js';
import { nonChordTone } from './terms/non-chord-tone.js';

/** Words of a narration that say something of the notes, or something that no note can settle. */
export interface ProseStatement {
  /** UTF-16 offsets of the words. */
  readonly from: number;
  readonly to: number;
  /** The claim that the words seem to make; absent for opinion and history. */
  readonly claim?: Claim;
}

/**
 * What names a thing without a place is meant of the bars under discussion: one of their chords is that chord, they are in that key,
 * they have that cadence or that non-chord tone.
 */
function mentionIn(place: Place): Parser<Claim> {
  const here = span(place);
  return choice<Claim>(
    plainSentence,
    map(unmistakableChord, words =>
      quantified(
        { amount: { kind: 'at least', number: 1 }, unit: 'chord', place },
        chordFamily.make({ form: 'words', ...words }),
      ),
    ),
    map(sequence(word('in'), keyName), ([, key]) => statement(here, keyFamily.make({ what: 'is in', key }))),
    map(aCadence, name => statement(here, cadenceFamily.make({ how: 'has', name }))),
    map(nonChordTone, says => statement(here, spanNonChordToneFamily.make(says))),
  );
}

/**
 * A sentence that names no place means the piece where it is a claim. In a narration about some bars it need not: `E comes` is not said of
 * the whole piece, so it is left alone.
 */
const isSaidHere = (claim: Claim, words: string): boolean =>
  !claim.print().includes('the piece') || /\b(?:piece|music|score)\b/iu.test(words);

const wordStart = /(?<![\p{L}\p{N}#♯♭])[\p{L}\p{N}]/gu;

/**
 * Finds the statements in a narration: sentences of the claim language, named chords, keys, cadences and non-chord tones, and words of
 * opinion. `place` is what the narration speaks of. In the order of the text; statements do not overlap.
 *
 * @example statementsInProse('Here the D major chord makes a half cadence.', { kind: 'bars', first: '7', last: '8' })
 */
export function statementsInProse(text: string, place: Place): readonly ProseStatement[] {
  const mention = mentionIn(place);
  const reading = startReading(text, false);
  const found: ProseStatement[] = [];
  let read = 0;
  for (const { index } of text.matchAll(wordStart)) {
    if (index < read) continue;
    const longest = mention
      .read(reading, index)
      .steps.filter(step => isSaidHere(step.value, text.slice(index, step.end)))
      .reduce<{ readonly value: Claim; readonly end: number } | undefined>(
        (best, step) => (best === undefined || step.end > best.end ? step : best),
        undefined,
      );
    if (longest === undefined) continue;
    found.push({ from: index, to: longest.end, claim: longest.value });
    read = longest.end;
  }
  for (let from = 0; ;) {
    const opinion = opinionIn(text.slice(from));
    if (opinion === undefined) break;
    const at = { from: from + opinion.from, to: from + opinion.to };
    if (!found.some(each => each.from < at.to && at.from < each.to)) found.push(at);
    from = at.to;
  }
  return found.sort((a, b) => a.from - b.from);
}
