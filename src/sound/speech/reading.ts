import type { Token } from './token.js';
import type { Reading } from './music-words.js';

/** What a rule sees: the tokens and where it stands. */
export interface Place {
  readonly tokens: readonly Token[];
  readonly index: number;
  readonly text: string;
  readonly options: SpellingOptions;
}

export interface SpellingOptions {
  /** The lesson's own lexicon: written form to spoken form. */
  readonly lexicon?: Readonly<Record<string, string>>;
  /** Mode of the key in which numerals are read; VII in minor is named as the subtonic. */
  readonly mode?: 'major' | 'minor';
}

/** A token that could be read in two ways. */
export interface Doubt {
  readonly from: number;
  readonly to: number;
  readonly written: string;
  readonly readAs: string;
  readonly couldBe: string;
}

/** What a rule makes of the token at its place. */
export interface TokenReading {
  readonly words: Reading;
  /** How many tokens it takes; 1 where absent. */
  readonly takes?: number;
  readonly doubt?: Pick<Doubt, 'readAs' | 'couldBe'>;
}

/** Reads the token at a place, or leaves it to the next rule. */
export type Rule = (place: Place) => TokenReading | undefined;

const coreAt = ({ tokens, index }: Place, by: number): string => tokens[index + by]?.core ?? '';

/** The token at the place, without the punctuation around it. */
export const here = (place: Place): string => coreAt(place, 0);
/** The next token as written. */
export const nextCore = (place: Place): string => coreAt(place, 1);
/** Neighbouring words in lower case, empty at the ends and across the end of a sentence. */
export const wordBefore = (place: Place): string =>
  place.tokens[place.index]?.startsSentence === true ? '' : coreAt(place, -1).toLowerCase();
export function wordAfter(place: Place): string {
  const pause = place.tokens[place.index]?.pause;
  return pause === 'none' || pause === 'short' ? coreAt(place, 1).toLowerCase() : '';
}

export const phrase = (text: string): Reading => text.split(/[ -]/u).filter(word => word !== '');
