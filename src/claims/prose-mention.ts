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

/** A note by its letter; `E minor` is none. */
export const note = String.raw`[A-G](?:[#♯♭b]|[ -](?:sharp|flat|natural))?(?![ -](?:sharp|flat|natural|major|minor|diminished|augmented|half|dominant|seventh))`;
/** `G minor`, `E flat major`: a chord or a key. */
export const tonic = String.raw`[A-G](?:[#♯♭b]|[ -](?:sharp|flat))?[ -](?:major|minor)`;
export const article = String.raw`(?:(?:[Aa]n?|[Tt]he|[Tt]his|[Tt]hat|our|another)\s+)?`;

export const mention = (pattern: string, says: Mention['says']): Mention => ({
  shape: new RegExp(`${pattern}(?![\\p{L}\\p{N}#♯♭])`, 'uy'),
  says,
});
export const spaced = (words = ''): string => words.replace(/\s+/gu, ' ');
/** A stretch of the words as they stand; `B natural` is B. */
export const group =
  (at: number) =>
  (match: RegExpExecArray): string =>
    spaced(match[at]).replace(/[ -]natural$/u, '');
export const aChord =
  (name: (match: RegExpExecArray) => string): Mention['says'] =>
  (match, place) =>
    `at least 1 chord of ${place} is ${name(match)}`;
export const has =
  (name: (match: RegExpExecArray) => string): Mention['says'] =>
  (match, place, are) =>
    `${place} ${are ? 'have' : 'has'} ${name(match)}`;
