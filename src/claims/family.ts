import type { Finding, Predicate } from './claim.js';
import { choice, map, optional, rule, sequence, word } from './grammar/index.js';
import type { Parser } from './grammar/index.js';
import type { ClaimContext } from './model.js';
import { negation } from './negation.js';
import { have, haveNo } from './terms/verb.js';
import type { Verb, VerbForm } from './terms/verb.js';

/** A family of claims about subjects of kind `S`: a file of families/ each. */
export interface Family<S> {
  /** Its name in messages and in the reference: `chord`. */
  readonly name: string;
  /** What it reads after the subject, verb included. */
  readonly predicate: Parser<Predicate<S>>;
  /** Sentences that it reads, shown to an author who is stuck. Each is run by a test. */
  readonly examples: readonly string[];
  /** What it reads after `there is`: all that a subject can have. */
  readonly having: readonly Parser<Predicate<S>>[];
  /** What it reads after one of its verbs. */
  readonly after: (verb: Verb) => readonly Parser<Predicate<S>>[];
  /** `key` + `is B minor`, of which `the key of bars 1-8 is B minor` is made. */
  readonly aspects: readonly AspectOf<S>[];
}

/** What a place has that goes by a noun of its own. */
export interface AspectOf<S> {
  readonly noun: Parser<unknown>;
  readonly predicate: Parser<Predicate<S>>;
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
  /** Nouns for what the family speaks of, with what is said of them: `key`, `is`, `B minor`. */
  readonly aspects?: readonly (readonly [noun: Parser<unknown>, verb: Verb, complement: Parser<P>])[];
  readonly print: (says: P, form: VerbForm) => string;
  /** `make` builds the predicates that are probed for the nearest true statement. */
  readonly check: (subject: S, says: P, context: ClaimContext, make: (says: P) => Predicate<S>) => Finding<S>;
}

/** `sounding interval` as the name of a rule of the grammar: `SoundingInterval`. */
export const ruleName = (name: string): string =>
  name.replace(/(?:^|[ -])(\w)/gu, (_, first: string) => first.toUpperCase());

/** Makes a family of its parts. `P` is what its sentences say, as plain data. */
export function family<S, P extends object>(parts: FamilyParts<S, P>): Making<S, P> {
  const make = (says: P): Predicate<S> => ({
    family: parts.name,
    content: says,
    print: form => parts.print(says, form),
    check: (subject, context) => parts.check(subject, says, context, make),
  });
  const phrase = (verb: Verb, complement: Parser<P>): Parser<Predicate<S>> =>
    map(sequence(verb, complement), ([{ negated }, says]) => (negated ? negation(make(says)) : make(says)));
  const had = [
    ...new Set(
      parts.phrases.flatMap(([verb, complement]) => (verb === have || verb === haveNo ? [complement] : [])),
    ),
  ];
  return {
    name: parts.name,
    examples: parts.examples,
    make,
    predicate: rule(`${ruleName(parts.name)}Phrase`, () =>
      choice(...parts.phrases.map(([verb, complement]) => phrase(verb, complement))),
    ),
    having: had.map(complement =>
      map(sequence(optional(word('no')), complement), ([no, says]) =>
        no === undefined ? make(says) : negation(make(says)),
      ),
    ),
    after: wanted =>
      [...new Set(parts.phrases.flatMap(([verb, complement]) => (verb === wanted ? [complement] : [])))].map(
        complement => map(complement, make),
      ),
    aspects: (parts.aspects ?? []).map(([noun, verb, complement]) => ({
      noun,
      predicate: phrase(verb, complement),
    })),
  };
}
