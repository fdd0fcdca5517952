import { withArticle } from './terms/chord-name.js';

/**
 * What teachers name in passing, and the sentence of the claim language that says it of a place. Common practice; each is read by the
 * grammar before it counts, so a phrase that the grammar does not know is no statement.
 */
export interface Mention {
  /** Sticky: tried where a word begins. */
  readonly shape: RegExp;
  /** The sentence; `are` tells whether the place takes a plural verb. */
  readonly says: (match: RegExpExecArray, place: string, are: boolean) => string;
}

const note = String.raw`[A-G](?:[#♯♭b]|[ -](?:sharp|flat))?`;
const key = String.raw`(?:the\s+key\s+of\s+)?(${note}[ -](?:major|minor)|the\s+(?:relative|parallel)\s+(?:major|minor))`;
const article = String.raw`(?:(?:[Aa]n?|[Tt]he|[Tt]his|[Tt]hat|our|another)\s+)?`;
const numeralShape = String.raw`[b♭#♯]?(?:VII|VI|V|IV|III|II|vii|vi|iv|iii|ii)(?:[o°ø]|\+)?(?:65|64|43|42|[67])?`;
const mover = String.raw`(?:we|it|music|piece|line|phrase|tune|waltz|song|strain|section|harmony|grace)`;

const mention = (pattern: string, says: Mention['says']): Mention => ({
  shape: new RegExp(`${pattern}(?![\\p{L}\\p{N}#♯♭])`, 'uy'),
  says,
});
const aChord =
  (name: (match: RegExpExecArray) => string): Mention['says'] =>
  (match, place) =>
    `at least 1 chord of ${place} is ${name(match)}`;
const has =
  (name: (match: RegExpExecArray) => string): Mention['says'] =>
  (match, place, are) =>
    `${place} ${are ? 'have' : 'has'} ${name(match)}`;
const verbOf =
  (singular: string, plural: string, name: (match: RegExpExecArray) => string): Mention['says'] =>
  (match, place, are) =>
    `${place} ${are ? plural : singular} ${name(match)}`;
const spaced = (words = ''): string => words.replace(/\s+/gu, ' ');
const whole = (match: RegExpExecArray): string => spaced(match[0]);
const group =
  (at: number) =>
  (match: RegExpExecArray): string =>
    spaced(match[at]);

export const mentions: readonly Mention[] = [
  mention(
    `${article}Neapolitan(?:\\s+(?:sixth|6th|chord))?`,
    aChord(() => 'the Neapolitan chord'),
  ),
  mention(
    `${article}((?:German|French|Italian)\\s+(?:augmented\\s+)?sixth)(?:\\s+chord)?`,
    aChord(match => withArticle(group(1)(match))),
  ),
  mention(
    `${article}((?:cadential|passing)\\s+(?:six-four|6/4))(?:\\s+chord)?`,
    aChord(match => `a ${group(1)(match)}`),
  ),
  mention(
    `([Aa]|[Tt]he)\\s+(dominant\\s+(?:seventh|7th)(?:\\s+chord)?)(\\s+of\\s+${note}[ -](?:major|minor))?`,
    // Of a key it is one chord, whichever article it has.
    aChord(match =>
      spaced(
        `${match[3] === undefined ? (match[1] ?? '').toLowerCase() : 'the'} ${match[2] ?? ''}${match[3] ?? ''}`,
      ),
    ),
  ),
  mention(
    `${article}((?:half-|fully\\s+)?diminished\\s+(?:seventh|7th)(?:\\s+chord)?(?:\\s+on\\s+${note})?)`,
    aChord(match => `a ${group(1)(match)}`),
  ),
  mention(
    `${article}(?:secondary|applied)\\s+dominant`,
    aChord(() => 'a secondary dominant'),
  ),
  mention(`(${numeralShape}(?:/${numeralShape})?)(?:\\s+in\\s+(${note}[ -](?:major|minor)))?`, aChord(whole)),
  mention(
    `(?:[Mm]odulat(?:es?|ed|ing)|[Mm]odulation|[Mm]odulations)\\s+(?:to|into)\\s+(?:${key}|(the\\s+(?:dominant|subdominant|mediant|submediant|supertonic)))`,
    verbOf('modulates to', 'modulate to', match => spaced(match[1] ?? match[2])),
  ),
  mention(
    `${mover}\\s+(?:has\\s+|have\\s+)?(?:now\\s+)?(?:moves?|moved|turns?|turned|goes|go|gone|slips?|slipped|travels?|changes?)\\s+(?:to|into)\\s+${key}`,
    verbOf('modulates to', 'modulate to', group(1)),
  ),
  mention(
    `(?:[Rr]eturn(?:s|ing)?|(?:come|comes|go|goes|went)\\s+(?:back|home)|[Bb]ack|home)\\s+to\\s+${key}`,
    verbOf('ends in', 'end in', group(1)),
  ),
  mention(
    `(${note}[ -](?:major|minor))\\s+is\\s+(?:only\\s+|briefly\\s+|merely\\s+|just\\s+)?(?:tonicized|tonicised|touched|visited)`,
    verbOf('tonicizes', 'tonicize', group(1)),
  ),
  mention(
    `(?:[Tt]he\\s+|[Oo]ur\\s+)?key(?:\\s+here|\\s+now)?\\s+(?:is\\s+(?:now\\s+)?|of\\s+)(${note}[ -](?:major|minor))`,
    verbOf('is in', 'are in', group(1)),
  ),
  mention(
    `${article}((?:tonic|dominant)\\s+pedal)(?:\\s+point)?`,
    has(match => `a ${group(1)(match)}`),
  ),
  mention(
    `${article}pedal(?:\\s+point|\\s+tone|\\s+note)?\\s+on\\s+(${note})`,
    has(match => `a pedal on ${group(1)(match)}`),
  ),
  mention(
    `${article}(?:(?:rising|falling|ascending|descending|strict|exact|harmonic|melodic)\\s+)*sequence`,
    has(() => 'a sequence'),
  ),
  mention(
    `${article}(parallel\\s+(?:fifths|octaves))(?:\\s+between\\s+(?:the\\s+)?(soprano|alto|tenor|bass)\\s+and\\s+(?:the\\s+)?(soprano|alto|tenor|bass))?`,
    has(match =>
      match[2] === undefined || match[3] === undefined
        ? group(1)(match)
        : `${group(1)(match)} between the ${match[2]} and the ${match[3]}`,
    ),
  ),
  mention(
    `${article}Picardy\\s+third`,
    has(() => 'a Picardy third'),
  ),
  mention(
    `${article}((?:\\d-\\d\\s+)?(?:suspension|passing\\s+(?:tone|note)|neighbou?r(?:\\s+(?:tone|note))?|appoggiatura|anticipation))\\s+in\\s+(?:the\\s+)?(soprano|alto|tenor|bass)`,
    (match, place) => `there is ${withArticle(group(1)(match))} in the ${match[2] ?? ''} in ${place}`,
  ),
];
