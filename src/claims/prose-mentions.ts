import { aChord, article, group, has, mention, note, spaced, tonic } from './prose-mention.js';
import type { Mention } from './prose-mention.js';
import { withArticle } from './terms/chord-name.js';

const key = String.raw`(?:the\s+key\s+of\s+)?(${tonic}|the\s+(?:relative|parallel)\s+(?:major|minor))`;
const numeralShape = String.raw`[b♭#♯]?(?:VII|VI|V|IV|III|II|vii|vi|iv|iii|ii)(?:[o°ø]|\+)?(?:65|64|43|42|[67])?`;
const mover = String.raw`(?:we|it|music|piece|line|phrase|tune|waltz|song|strain|section|harmony|grace)`;
const verbOf =
  (singular: string, plural: string, name: (match: RegExpExecArray) => string): Mention['says'] =>
  (match, place, are) =>
    `${place} ${are ? plural : singular} ${name(match)}`;
/** Suspensions by their intervals in words. */
const figures: Readonly<Record<string, string>> = {
  'four-three': '4-3',
  'seven-six': '7-6',
  'nine-eight': '9-8',
  'two-three': '2-3',
};
const figured = Object.keys(figures).join('|');
const inFigures = (words: string): string =>
  words.replace(new RegExp(figured, 'u'), word => figures[word] ?? word);
/** Numbers of the degrees that a chord is applied to. */
const degrees: Readonly<Record<string, string>> = {
  two: 'ii',
  supertonic: 'ii',
  four: 'IV',
  subdominant: 'IV',
  five: 'V',
  dominant: 'V',
  six: 'vi',
  submediant: 'vi',
};
const degree = String.raw`(?:the\s+)?(${Object.keys(degrees).join('|')})`;
const inversion = String.raw`(?:\s+(?:comes\s+|is\s+|appears\s+)?(in\s+(?:first|second|third)\s+inversion|in\s+root\s+position))?`;
/** What a moment of music is said to do to bring a chord about. */
const bringing = String.raw`(?:[Ww]e\s+(?:get|have|hear|meet|find|reach|land\s+on|arrive\s+(?:on|at))|brings?|answers?\s+(?:(?:it|us|this|that)\s+)?with|turns?\s+into|resolves?\s+to|gives?\s+way\s+to|followed\s+by|lands?\s+on)`;
const again = String.raw`(?:(?:now|then|again|still|simply|duly|only|back|at\s+last|already)\s+)?`;
/** `over C`, `in root position`. */
const bassOf = String.raw`(?:\s+(?:chord|triad))?(?:\s+(over\s+${note}|in\s+(?:first|second|third)\s+inversion|in\s+root\s+position))?`;
const aTriad = aChord(match => spaced(`${match[1] ?? ''} ${match[2] ?? ''}`).trim());
const whole = (match: RegExpExecArray): string => spaced(match[0]);

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
    `([Aa]|[Tt]he)\\s+(dominant\\s+(?:seventh|7th)(?:\\s+chord)?)(\\s+of\\s+${tonic})?${inversion}`,
    // Of a key it is one chord, whichever article it has.
    aChord(match =>
      spaced(
        `${match[3] === undefined ? (match[1] ?? '').toLowerCase() : 'the'} ${match[2] ?? ''}${match[3] ?? ''}${match[4] === undefined ? '' : ` ${match[4]}`}`,
      ),
    ),
  ),
  mention(
    `${article}((?:half-|fully\\s+)?diminished\\s+(?:seventh|7th)(?:\\s+chord)?(?:\\s+on\\s+${note})?)`,
    aChord(match => `a ${group(1)(match)}`),
  ),
  mention(
    `${article}diminished\\s+(?:seventh|7th)(?:\\s+chord)?\\s+of\\s+${degree}`,
    aChord(match => `viio7/${degrees[match[1] ?? ''] ?? ''}`),
  ),
  mention(
    `${article}(?:secondary|applied)\\s+dominant(?:\\s+of\\s+${degree})?`,
    aChord(match =>
      match[1] === undefined ? 'a secondary dominant' : `an applied chord of ${degrees[match[1]] ?? ''}`,
    ),
  ),
  mention(
    `[Tt]he\\s+dominant\\s+of\\s+the\\s+dominant`,
    aChord(() => 'the dominant of the dominant'),
  ),
  mention(
    `(?:[Tt]he\\s+|[Ii]ts\\s+|[Tt]his\\s+)(?:chord|harmony)\\s+(?:is|becomes|stays|remains|turns\\s+(?:in)?to|changes\\s+to)\\s+${again}(?:an?\\s+)?(${tonic})${bassOf}`,
    aTriad,
  ),
  mention(
    `(${tonic})\\s+${again}(?:follows|arrives|answers|comes|appears|sounds|returns|enters)${inversion}`,
    aTriad,
  ),
  mention(`${bringing}\\s+${again}(?:an?\\s+)?(${tonic})${bassOf}`, aTriad),
  mention(
    `${bringing}\\s+${again}the\\s+(tonic|dominant|subdominant)(?:\\s+chord)?(?!\\s+(?!(?:and|in|on|of|again|here|at|with|as|before|which|that|but|for|over|from|by)(?!\\p{L}))[\\p{L}\\d])${inversion}`,
    aChord(match => spaced(`the ${match[1] ?? ''} ${match[2] ?? ''}`).trim()),
  ),
  mention(
    `(${tonic})\\s+(over\\s+(?:an?\\s+)?${note})`,
    aChord(match => spaced(`${match[1] ?? ''} ${(match[2] ?? '').replace(/\s+an?\s+/u, ' ')}`)),
  ),
  mention(
    `[Tt]he\\s+(?:first|second|third|fourth|other)(?:\\s+(?:one|chord))?\\s+is\\s+(?:an?\\s+)?(${tonic})${bassOf}`,
    aTriad,
  ),
  mention(
    `[Tt]he\\s+(?:very\\s+)?(?:last|final)\\s+chord\\s+is\\s+(?:an?\\s+)?(${tonic})${bassOf}`,
    (match, place) => `the last chord of ${place} is ${spaced(`${match[1] ?? ''} ${match[2] ?? ''}`).trim()}`,
  ),
  mention(
    `[Tt]he\\s+notes(?:\\s+here)?\\s+are\\s+(${note}(?:,\\s+${note})*,?\\s+and\\s+${note})`,
    has(match => group(1)(match).replace(/,?\s+and\s+|,\s+/gu, ' ')),
  ),
  mention(
    `[Tt]he\\s+(?:cadence|close)(?:\\s+(?:here|there))?\\s+is\\s+(perfect|imperfect|deceptive|plagal|authentic|evaded)`,
    has(match => `a${/^[aeiou]/u.test(match[1] ?? '') ? 'n' : ''} ${match[1] ?? ''} cadence`),
  ),
  mention(`(${numeralShape}(?:/${numeralShape})?)(?:\\s+in\\s+(${tonic}))?`, aChord(whole)),
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
    `(${tonic})\\s+is\\s+(?:only\\s+|briefly\\s+|merely\\s+|just\\s+)?(?:tonicized|tonicised|touched|visited)`,
    verbOf('tonicizes', 'tonicize', group(1)),
  ),
  mention(
    `(?:[Tt]he\\s+|[Oo]ur\\s+)?key(?:\\s+here|\\s+now)?\\s+(?:is\\s+(?:now\\s+)?|of\\s+)(${tonic})`,
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
    `${article}(?:(?:(rising|ascending)|(falling|descending)|strict|exact|harmonic|melodic)\\s+)*sequence(?:\\s+that\\s+(?:(rises|climbs|ascends|goes\\s+up)|(?:falls|descends|goes\\s+down)))?`,
    has(match =>
      /(?:ris(?:ing|es)|climbs|ascend|goes\s+up)/u.test(match[0])
        ? 'a rising sequence'
        : /(?:fall|descend|goes\s+down)/u.test(match[0])
          ? 'a falling sequence'
          : 'a sequence',
    ),
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
    `${article}((?:(?:\\d-\\d|${figured})\\s+)?(?:suspension|passing\\s+(?:tone|note)|neighbou?r(?:\\s+(?:tone|note))?|appoggiatura|anticipation))\\s+(?:is\\s+)?in\\s+(?:the\\s+)?(soprano|alto|tenor|bass)`,
    (match, place) =>
      `there is ${withArticle(inFigures(group(1)(match)))} in the ${match[2] ?? ''} in ${place}`,
  ),
  mention(
    `${article}((?:${figured})\\s+suspension)`,
    has(match => withArticle(inFigures(group(1)(match)))),
  ),
];
