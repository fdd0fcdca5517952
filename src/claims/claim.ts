import type { ClaimContext, Evidence, Verdict, VerdictWord } from './model.js';
import type { Code } from '../diagnostics/index.js';
import type { VerbForm } from './terms/verb.js';

/** A sentence about a score. Two claims are the same when their content is. */
export interface Claim {
  /** Plain data. */
  readonly content: unknown;
  /** The sentence in the form that the reference recommends; reading it gives the same content. */
  readonly print: () => string;
  readonly check: (context: ClaimContext) => Verdict;
  /** The claims that it joins by `and`. */
  readonly parts?: readonly Claim[];
  /** That it is not so, where one thing is said of one subject. */
  readonly denied?: () => Claim;
}

/**
 * What a sentence speaks of, before the score is known. `S` is what it is in a score: a span of time, a line, a note.
 */
export interface Subject<S> {
  readonly content: unknown;
  readonly plural: boolean;
  readonly print: () => string;
  readonly resolve: (context: ClaimContext) => Resolution<S>;
  /** The same kind of subject one slip away: the bar before and after, the other beats. Nearest first. */
  readonly neighbours: (context: ClaimContext) => readonly Subject<S>[];
}

export type Resolution<S> =
  | { readonly kind: 'found'; readonly subject: S }
  /** There is no such place or line: no predicate can be true of it or false of it. */
  | { readonly kind: 'none'; readonly finding: Judged }
  /** A bar number that alternative endings share. */
  | { readonly kind: 'endings'; readonly subjects: readonly Subject<S>[] };

/** A verdict before the nearest true statement is looked for. */
export interface Judged {
  readonly verdict: VerdictWord;
  readonly code: Code;
  readonly reason: string;
  readonly evidence: readonly Evidence[];
}

export interface Finding<S> extends Judged {
  /** What may be true of the subject instead, likeliest first. Asked only where the claim does not hold. */
  readonly instead?: (() => readonly Predicate<S>[]) | undefined;
  /** Whole claims that may be true instead, for families that know better than a change of predicate or place. */
  readonly rather?: (() => readonly Claim[]) | undefined;
  /** Set where it says nothing that the predicate is true of another place: nearly every other bar has no F#. */
  readonly local?: true;
  /** Set where the question makes no sense here, so that its negation makes none either. */
  readonly pointless?: true;
}

/** What a sentence says of its subject. */
export interface Predicate<S> {
  /** Name of the family that reads, prints and checks it. */
  readonly family: string;
  readonly content: unknown;
  readonly print: (form: VerbForm) => string;
  readonly check: (subject: S, context: ClaimContext) => Finding<S>;
  /** What it denies, where it is a denial: to deny it again is to say that. */
  readonly denies?: Predicate<S>;
}
