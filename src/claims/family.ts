import type { Finding, Predicate } from './claim.js';
import { choice, map, rule, sequence } from './grammar/index.js';
import type { Parser } from './grammar/index.js';
import type { ClaimContext } from './model.js';
import { negation } from './negation.js';
import type { Verb, VerbForm } from './terms/verb.js';

/** A family of claims about subjects of kind `S`: a file of families/ each. */
export interface Family<S> {
  /** Its name in messages and in the reference: `chord`. */
  readonly name: string;
  /** What it reads after the subject, verb included. */
  readonly predicate: Parser<Predicate<S>>;
  /** Sentences that it reads, shown to an author who is stuck. Each is run by a test. */
  readonly examples: readonly string[];
}

/** A family that also builds predicates of its own kind, for probing. */
export interface Making<S, P> extends Family<S> {
  readonly make: (says: P) => Predicate<S>;
}

interface FamilyParts<S, P extends object> {
  readonly name: string;
  readonly examples: readonly string[];
  /** The verbs and what may follow each. */
  readonly phrases: readonly (readonly [verb: Verb, complement: Parser<P>])[];
  readonly print: (says: P, form: VerbForm) => string;
  /** `make` builds the predicates that are probed for the nearest true statement. */
  readonly check: (subject: S, says: P, context: ClaimContext, make: (says: P) => Predicate<S>) => Finding<S>;
}

const ruleName = (name: string): string =>
  `${name.replace(/(?:^|[ -])(\w)/gu, (_, first: string) => first.toUpperCase())}Phrase`;

/** Makes a family of its parts. `P` is what its sentences say, as plain data. */
export function family<S, P extends object>(parts: FamilyParts<S, P>): Making<S, P> {
  const make = (says: P): Predicate<S> => ({
    family: parts.name,
    content: says,
    print: form => parts.print(says, form),
    check: (subject, context) => parts.check(subject, says, context, make),
  });
  const phrases = parts.phrases.map(([verb, complement]) =>
    map(sequence(verb, complement), ([{ negated }, says]) => (negated ? negation(make(says)) : make(says))),
  );
  return {
    name: parts.name,
    examples: parts.examples,
    make,
    predicate: rule(ruleName(parts.name), () => choice(...phrases)),
  };
}
