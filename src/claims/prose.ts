import { isSaid, isVoiced } from './asserted.js';
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
import { lineMentions } from './prose-lines.js';
import type { Mention } from './prose-mention.js';
import { mentions } from './prose-mentions.js';
import { passagesIn, placesNamed, placesOfWords, withBarNumbers } from './prose-place.js';
import { quantified } from './quantity/quantified.js';
import { plainSentence } from './sentence.js';
import { statement } from './statement.js';
import { span } from './subjects/span.js';
import { unmistakableChord } from './terms/chord-name.js';
import { keyName } from './terms/key-name.js';
import { inKeyReference } from './terms/key-reference.js';
import { nonChordTone } from './terms/non-chord-tone.js';

/** Words of a narration that say something of the notes, or something that no note can settle. */
export interface ProseStatement {
  /** UTF-16 offsets of the words. */
  readonly from: number;
  readonly to: number;
  /** The claim that the words seem to make; absent for opinion and history. */
  readonly claim?: Claim;
  /** All that they may mean, where that is more than one claim; likeliest first. */
  readonly readings?: readonly Claim[];
  /** What the words say of a place; nothing where they name their own. */
  readonly of?: (place: Place) => Claim | undefined;
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
    map(sequence(aCadence, inKeyReference), ([name, key]) =>
      statement(here, cadenceFamily.make({ how: 'has', name, ...(key === undefined ? {} : { key }) })),
    ),
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
  /^(?:the\s+)?(?:soprano|alto|tenor|bass|melody|tune|voice|left\s+hand|right\s+hand|top\s+voice)(?:e?s)?[\s,]/iu;

function familyOf({ content }: Claim): string | undefined {
  const says =
    typeof content === 'object' && content !== null && 'says' in content ? content.says : undefined;
  return typeof says === 'string' ? says : undefined;
}

/** What is there if it is anywhere in the bars under discussion: when it is not, they are what it is missed in. */
function isSomewhere({ content }: Claim): boolean {
  if (typeof content !== 'object' || content === null) return false;
  const subject = 'subject' in content ? content.subject : undefined;
  return (
    'quantity' in content ||
    ('says' in content && content.says === 'cadence') ||
    (typeof subject === 'object' && subject !== null && 'edgeChord' in subject)
  );
}

/** What is said of a key or of a line goes on: a bar that another clause names is not where it ends. */
const lasts = (claim: Claim): boolean =>
  familyOf(claim) === 'key' || familyOf(claim)?.startsWith('melodic') === true;

const noteAtEnd = String.raw`(?<!\p{L})[A-G](?:[#♯♭b]|[ -](?:sharp|flat|natural))?$`;
const endsOnNote = new RegExp(noteAtEnd, 'u');
const restOfName = /^[ -](?:sharp|flat|natural|major|minor|diminished|augmented|half|dominant)(?!\p{L})/iu;
/** `Bar 7: C`, `long notes: G`: a note to oneself in a file, but in speech the first of several notes. */
const listOfNotes = new RegExp(`^[^:]*:\\s*(?:[Aa]n?\\s+)?${noteAtEnd}|^notes?:`, 'u');
/** `in bar 2 the bass steps down to A`: the motion ends there, and it is not the A that goes on. */
const goesTo = new RegExp(`(?<!\\p{L})to\\s+(?:an?\\s+|the\\s+)?${noteAtEnd}`, 'u');
const endOfClause =
  /^\s*(?:$|[,;:.!?()–—]|(?:and|but|which|while|where|so|then|as|before|after|in|at)(?!\p{L}))/iu;

/** Whether the grammar takes for a sentence what breaks off in the middle of one, or what a speaker means otherwise. */
function isMisheard(words: string, follows: string, { parts }: Claim): boolean {
  if (endsOnNote.test(words) && restOfName.test(follows)) return true;
  if (listOfNotes.test(words)) return true;
  if (goesTo.test(words) && !/(?<!\p{L})(?:from|resolv\p{L}+)(?!\p{L})/iu.test(words)) return true;
  return parts !== undefined && !endOfClause.test(follows);
}

function plain(sentence: string): Claim | undefined {
  const { steps } = plainSentence.read(startReading(sentence, false), 0);
  return steps.find(({ end }) => end === sentence.length)?.value;
}

/** `the leading tone in the alto falls`: something of the line does. */
const link = /(?<!\p{L})(?:in|of|or|with|between)\s+(?:the\s+)?$|(?<=[^,;]\s)and\s+(?:the\s+)?$/iu;
const longestLink = 16;

/** What the words at a place may say, in every way that they can be read. */
function readingsAt(
  reading: Reading,
  at: number,
  parser: Parser<Claim>,
  place: Place,
): readonly Step<Claim>[] {
  const { text } = reading;
  const [name, are] = [printPlace(place), isPlural(place)];
  const isPartOfSubject = link.test(text.slice(Math.max(0, at - longestLink), at));
  const found = parser.read(reading, at).steps.flatMap(({ value, end }) => {
    const words = text.slice(at, end);
    if (isMisheard(words, text.slice(end, end + 40), value)) return [];
    if (isSaidHere(value, words)) return [{ value, end }];
    const here = aLine.test(words) && !isPartOfSubject ? plain(`${words} in ${name}`) : undefined;
    return here === undefined ? [] : [{ value: here, end }];
  });
  const mentioned = ({ shape, says }: Mention): readonly Step<Claim>[] => {
    shape.lastIndex = at;
    const match = shape.exec(text);
    const claim =
      match === null || (isPartOfSubject && aLine.test(match[0])) ? undefined : plain(says(match, name, are));
    return match === null || claim === undefined ? [] : [{ value: claim, end: at + match[0].length }];
  };
  // Of two equally long ones, what is named in passing knows its line and its kind; of what a line does the grammar knows more.
  return [...mentions.flatMap(mentioned), ...found, ...lineMentions.flatMap(mentioned)];
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
  /** Every way to hear the most words that say something, the likeliest first. */
  const longestAt = (at: number, of: Place): readonly Step<Claim>[] => {
    const all = readingsAt(reading, at, parserFor(of), of);
    const end = Math.max(...all.map(step => step.end));
    return all.filter(step => step.end === end);
  };
  const found: ProseStatement[] = [];
  let read = 0;
  for (const { index } of text.matchAll(wordStart)) {
    if (index < read) continue;
    const heard = longestAt(index, place);
    const [words] = heard;
    if (words === undefined) continue;
    read = endOfWords(words.end);
    // The words that were read may name their own bars; what else the sentence names is asked for.
    const own = named.find(each => each.from >= index && each.to <= read);
    const { places, isNear } =
      own === undefined
        ? placesOfWords(text, { from: index, to: read }, named, place)
        : { places: own.place === undefined ? [] : [own.place], isNear: true };
    // `from bar 12 on` goes beyond the bars under discussion.
    if (places.some(({ kind }) => kind === 'side') || (!isNear && lasts(words.value))) continue;
    // `The sequence rises`, said of all the bars of a step, is somewhere in them.
    const passages =
      own === undefined && familyOf(words.value) === 'sequence' ? places.flatMap(passagesIn) : [];
    const all = [...places, ...passages].flatMap(of =>
      own !== undefined || of === place ? heard : longestAt(index, of),
    );
    const [said] = all;
    if (said === undefined || !isSaid(text, index, endOfWords(said.end))) continue;
    const readings = all.filter(({ end }) => end === said.end).map(({ value }) => value);
    found.push({
      from: index,
      to: endOfWords(said.end),
      claim: (isSomewhere(said.value) ? readings.at(-1) : undefined) ?? said.value,
      ...(readings.length > 1 ? { readings } : {}),
      of: at =>
        own === undefined ? longestAt(index, at).find(({ end }) => end === said.end)?.value : undefined,
    });
  }
  for (let from = 0; ;) {
    const opinion = opinionIn(text.slice(from));
    if (opinion === undefined) break;
    const at = { from: from + opinion.from, to: from + opinion.to };
    if (isVoiced(text, at.from, at.to) && !found.some(each => each.from < at.to && at.from < each.to))
      found.push(at);
    from = at.to;
  }
  return found.sort((a, b) => a.from - b.from);
}
