import { wordDistance } from './word-distance.js';

/** Words in which something checkable is said: their presence tells a claim from a sentence of taste. Common practice. */
const tradeWords = new Set(
  `cadence cadences cadential authentic plagal deceptive evaded imperfect dominant dominants subdominant predominant tonic tonics mediant
  submediant supertonic chord chords triad triads seventh sevenths ninth ninths sixth sixths fifth fifths fourth fourths third thirds octave
  octaves unison major minor diminished augmented half-diminished inversion inversions inverted suspension suspensions retardation passing
  neighbor neighbour appoggiatura anticipation pedal pedals sequence sequences modulation modulations modulates modulate tonicization
  tonicizes tonicize tonicized tonicised tonicises parallel contrary oblique interval intervals degree semitone semitones sharp natural
  neapolitan german french italian picardy chromatic diatonic dissonance dissonances dissonant consonance consonant resolves resolve
  resolution soprano numeral harmonic melodic accidental enharmonic arpeggio arpeggiated prolongs prolong doubles doubled repeats repeated
  step steps leap leaps key half phrase period pivot root relation relations`.split(/\s+/u),
);
/** What lines and chords do: looked at for slips of the pen only. */
const tradeVerbs =
  'rises descends ascends contains continues returns prepares delays modulated dominates'.split(' ');
/** English words that are one letter away from a word of the trade. */
const otherWords = new Set(
  `mayor manor miner chore cord cords topic tunic sonic tonal tried filth petal medal petals medals phase phases harp shark share sharpe nature
  naturally revolution receptive perceptive invention phrased phrases periods periodic thirdly sixthly fifthly fourthly resolved resolving
  repeating stop stops heap heaps hey they room roof degrees keys roots halves lap lea rot het hall halt calf lead leaf leave lean steep steppe
  arises prises raises prepared relays`.split(/\s+/u),
);
const letters = /\p{L}[\p{L}-]*/gu;

const stemOf = (word: string): string => word.replace(/(?:s|es|ed|d|ing|al|ally|ly)$/u, '');
/** Whether two words are forms of one: `lead` and `leads`, `modulating` and `modulate`. */
export function areOfOneStem(one: string, other: string): boolean {
  const forms = (word: string): readonly string[] => [word.toLowerCase(), stemOf(word.toLowerCase())];
  return forms(one).some(form => forms(other).includes(form));
}
const withNeighboursSwapped = (word: string): readonly string[] =>
  Array.from({ length: word.length - 1 }, (_, at) =>
    [word.slice(0, at), word.charAt(at + 1), word.charAt(at), word.slice(at + 2)].join(''),
  );

/** The word of the trade that was meant where one letter of a short word, two of a long one, or two neighbours are wrong. */
function meantBy(word: string): string | undefined {
  if (word.length < 3 || tradeWords.has(word) || otherWords.has(word)) return undefined;
  const swapped = withNeighboursSwapped(word);
  return [...tradeWords, ...tradeVerbs].find(trade => {
    if (trade.length < 4 || Math.abs(trade.length - word.length) > 2) return false;
    if (stemOf(trade) === stemOf(word)) return false;
    if (trade.length === 4) return word.length === 3 && wordDistance(word, trade) === 1;
    if (word.length < 4) return false;
    return swapped.includes(trade) || wordDistance(word, trade) <= (word.length > 7 ? 2 : 1);
  });
}

/** A word with a slip of the pen, as an offset, and the word of the trade that was meant. */
export interface Slip {
  readonly at: number;
  readonly word: string;
  readonly meant: string;
}

/** The first misspelt word of the trade in a text; words that are `known` are what they are. */
export function slipOfThePen(text: string, known: (word: string) => boolean): Slip | undefined {
  for (const { index, 0: word } of text.matchAll(letters)) {
    const meant = known(word.toLowerCase()) ? undefined : meantBy(word.toLowerCase());
    if (meant !== undefined) return { at: index, word, meant };
  }
  return undefined;
}

/** Whether a word of the trade stands in a text. */
export const hasTradeWord = (text: string): boolean =>
  [...text.toLowerCase().matchAll(letters)].some(([word]) => tradeWords.has(word));

const note = String.raw`[A-H](?:[#♯♭x]|b(?!\p{L}))*\d?(?![\p{L}\p{N}])`;
const romanNumeral = String.raw`[b#♭♯]*(?:[iv]+|[IV]{2,}|V)(?:[o°ø+]|\d|/|M)*(?!\p{L})`;
const lettersAndFigures = String.raw`(?!\d+(?:st|nd|rd|th|s)\b)(?:\p{L}+[#♯♭]?\d|\d\p{L})`;
const symbolShape = new RegExp(`(?<![\\p{L}\\p{N}.'’])(?:${note}|${romanNumeral}|${lettersAndFigures})`, 'u');

/** Whether a note, a Roman numeral, a chord symbol or figures stand in a text, readable or not. */
export const hasSymbol = (text: string): boolean =>
  symbolShape.test(text) || /(?<![\p{L}\p{N}])I$/u.test(text);
/** Whether one stands at its very beginning. */
export const startsWithSymbol = (text: string): boolean => symbolShape.exec(text.trimStart())?.index === 0;
