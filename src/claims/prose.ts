import { isSaid } from './asserted.js';
import type { Claim } from './claim.js';
import { aCadence, cadenceFamily } from './families/cadence.js';
import { chordFamily } from './families/chord.js';
import { keyFamily } from './families/key.js';
import { spanNonChordToneFamily } from './families/non-chord-tone.js';
import { choice, map, sequence, startReading, word } from './grammar/index.js';
import type { Parser, Reading, Step } from './grammar/index.js';
import { opinionIn } from './opinion.js';
import { printPlace } from './place/place-name.js';
import { isPlural } from './place/place.js';
import type { Place } from './place/place.js';
import { mentions } from './prose-mentions.js';
import { placeOfWords, placesNamed, withBarNumbers } from './prose-place.js';
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
/** A line that does something: `the bass climbs` is said of the bars under discussion. */
const aLine =
  /^(?:the\s+)?(?:soprano|alto|tenor|bass|melody|tune|left\s+hand|right\s+hand|top\s+voice)s?\s/iu;

/** What is said of a key or of a line goes on: a bar that another clause names is not where it ends. */
function lasts({ content }: Claim): boolean {
  const says =
    typeof content === 'object' && content !== null && 'says' in content ? content.says : undefined;
  return says === 'key' || (typeof says === 'string' && says.startsWith('melodic'));
}

function plain(sentence: string): Claim | undefined {
  const { steps } = plainSentence.read(startReading(sentence, false), 0);
  return steps.find(({ end }) => end === sentence.length)?.value;
}

/** What the words at a place may say, in every way that they can be read. */
function readingsAt(
  reading: Reading,
  at: number,
  parser: Parser<Claim>,
  place: Place,
): readonly Step<Claim>[] {
  const { text } = reading;
  const [name, are] = [printPlace(place), isPlural(place)];
  const found = parser.read(reading, at).steps.flatMap(({ value, end }) => {
    const words = text.slice(at, end);
    if (isSaidHere(value, words)) return [{ value, end }];
    // `the leading tone in the alto falls`: something of the line does.
    const isSubject =
      aLine.test(words) &&
      !/(?<!\p{L})(?:in|of|and|or|with|between)\s+(?:the\s+)?$/iu.test(text.slice(0, at));
    const here = isSubject ? plain(`${words} in ${name}`) : undefined;
    return here === undefined ? [] : [{ value: here, end }];
  });
  const mentioned = mentions.flatMap(({ shape, says }) => {
    shape.lastIndex = at;
    const match = shape.exec(text);
    const claim = match === null ? undefined : plain(says(match, name, are));
    return match === null || claim === undefined ? [] : [{ value: claim, end: at + match[0].length }];
  });
  // Of two equally long ones, what is named in passing knows its line and its kind.
  return [...mentioned, ...found];
}

/**
 * Finds the statements in a narration: sentences of the claim language, what is named in passing (chords, numerals, keys, modulations,
 * cadences, non-chord tones, pedals, sequences, parallels), and words of opinion. `place` is what the narration speaks of; a sentence that
 * names a bar speaks of that. What is asked, supposed, denied or quoted is no statement. In the order of the text; statements do not
 * overlap.
 *
 * @example statementsInProse('Here the D major chord makes a half cadence.', { kind: 'bars', first: '7', last: '8' })
 */
export function statementsInProse(text: string, place: Place): readonly ProseStatement[] {
  const named = placesNamed(text, place);
  const spoken = withBarNumbers(text, named);
  const reading = startReading(spoken, false);
  /** A bar by its order is longer than its number. */
  const endOfWords = (end: number): number => named.find(({ from, to }) => from < end && end < to)?.to ?? end;
  const parsers = new Map<string, Parser<Claim>>();
  const parserFor = (of: Place): Parser<Claim> => {
    const name = printPlace(of);
    const known = parsers.get(name) ?? mentionIn(of);
    parsers.set(name, known);
    return known;
  };
  const longestAt = (at: number, of: Place): Step<Claim> | undefined =>
    readingsAt(reading, at, parserFor(of), of).reduce<Step<Claim> | undefined>(
      (best, step) => (best === undefined || step.end > best.end ? step : best),
      undefined,
    );
  const found: ProseStatement[] = [];
  let read = 0;
  for (const { index } of text.matchAll(wordStart)) {
    if (index < read) continue;
    const words = longestAt(index, place);
    if (words === undefined) continue;
    read = endOfWords(words.end);
    // The words that were read may name their own bars; what else the sentence names is asked for.
    const own = named.find(each => each.from >= index && each.to <= read);
    const { place: of, isNear } =
      own === undefined
        ? placeOfWords(text, { from: index, to: read }, named, place)
        : { place: own.place, isNear: true };
    // `from bar 12 on` goes beyond the bars under discussion.
    if (of === undefined || of.kind === 'side' || (!isNear && lasts(words.value))) continue;
    const said = own !== undefined || of === place ? words : longestAt(index, of);
    if (said !== undefined && isSaid(text, index, endOfWords(said.end)))
      found.push({ from: index, to: endOfWords(said.end), claim: said.value });
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
