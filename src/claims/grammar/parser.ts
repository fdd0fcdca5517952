import { failureAt, furthest, nothingTried } from './failure.js';
import type { Failure } from './failure.js';
import { canOpen, openingsOf, wordAt } from './openings.js';
import type { Openings } from './openings.js';
import type { Shape } from './shape.js';

/** One way to read on from a place: the value and the offset behind it. */
export interface Step<T> {
  readonly value: T;
  readonly end: number;
}

/** All ways to read on, at most one for each end, the preferred one first; and how far the ways that failed came. */
export interface Outcome<T> {
  readonly steps: readonly Step<T>[];
  readonly failure: Failure;
}

/** One text being read. */
export interface Reading {
  readonly text: string;
  /** Results of rules by place: each rule runs once at a place, so that reading stays linear in the length of the claim. */
  readonly known: Map<object, Map<number, Outcome<unknown>>>;
  /**
   * Whether failures are kept. A sentence is first read without them, and once more with them only where it could not be read:
   * most sentences can.
   */
  readonly tracing: boolean;
  /** The word at each place that was asked about. */
  readonly words: Map<number, string>;
  /** How often a parser was asked, for the test that hostile input costs no more than its length. */
  asked: number;
}

/** Reads a part of a sentence. Parsers are ambiguous on purpose (`D` or `D minor`): the whole sentence decides. */
export interface Parser<T> {
  readonly shape: Shape;
  readonly read: (reading: Reading, at: number) => Outcome<T>;
}

const noSteps: Outcome<never> = { steps: [], failure: nothingTried };

/** No way to read on from `at`, where `expected` could have stood. */
export const failed = (reading: Reading, at: number, ...expected: readonly string[]): Outcome<never> =>
  reading.tracing ? { steps: [], failure: failureAt(at, ...expected) } : noSteps;

export const readAs = <T>(value: T, end: number): Outcome<T> => ({
  steps: [{ value, end }],
  failure: nothingTried,
});

export const startReading = (text: string, tracing = true): Reading => ({
  text,
  known: new Map(),
  words: new Map(),
  tracing,
  asked: 0,
});

const space = /\s*/y;

/** Offset of the next character that is not white space. */
export function skipSpace(text: string, at: number): number {
  const next = text.charCodeAt(at);
  // Nearly always a single space or none.
  if (next > 0x20 && next < 0x80) return at;
  if (next === 0x20 && text.charCodeAt(at + 1) > 0x20 && text.charCodeAt(at + 1) < 0x80) return at + 1;
  space.lastIndex = at;
  return space.test(text) ? space.lastIndex : at;
}

/** A value that takes no text. */
export const nothing = <T>(value: T): Parser<T> => ({
  shape: { kind: 'sequence', parts: [] },
  read: (_reading, at) => readAs(value, at),
});

export const map = <T, U>(parser: Parser<T>, convert: (value: T) => U): Parser<U> => ({
  shape: parser.shape,
  read: (reading, at) => {
    const { steps, failure } = parser.read(reading, at);
    if (steps.length === 0) return { steps: [], failure };
    return { steps: steps.map(step => ({ value: convert(step.value), end: step.end })), failure };
  },
});

/** As `map`, for a conversion that may refuse what was read; `expected` then says what could have stood at its start. */
export const refine = <T, U>(
  parser: Parser<T>,
  convert: (value: T) => U | undefined,
  expected: string,
): Parser<U> => ({
  shape: parser.shape,
  read: (reading, at) => {
    const { steps, failure } = parser.read(reading, at);
    const kept = steps.flatMap(({ value, end }) => {
      const converted = convert(value);
      return converted === undefined ? [] : [{ value: converted, end }];
    });
    if (kept.length === steps.length || !reading.tracing) return { steps: kept, failure };
    return { steps: kept, failure: furthest(failure, failureAt(skipSpace(reading.text, at), expected)) };
  },
});

type Values<P extends readonly Parser<unknown>[]> = {
  [I in keyof P]: P[I] extends Parser<infer T> ? T : never;
};

function distinctEnds<T>(steps: readonly Step<T>[]): readonly Step<T>[] {
  if (steps.length < 2) return steps;
  const seen = new Set<number>();
  return steps.filter(({ end }) => {
    const isNew = !seen.has(end);
    seen.add(end);
    return isNew;
  });
}

function then<A, B, C>(
  first: Outcome<A>,
  next: (step: Step<A>) => Outcome<B>,
  join: (a: A, b: B) => C,
): Outcome<C> {
  if (first.steps.length === 0) return { steps: [], failure: first.failure };
  let failure = first.failure;
  const steps = first.steps.flatMap(step => {
    const rest = next(step);
    failure = furthest(failure, rest.failure);
    return rest.steps.map(({ value, end }) => ({ value: join(step.value, value), end }));
  });
  return { steps: distinctEnds(steps), failure };
}

/** The rest of a sequence once it has become ambiguous. */
function readRest(
  parsers: readonly Parser<unknown>[],
  from: number,
  first: Outcome<readonly unknown[]>,
  reading: Reading,
): Outcome<readonly unknown[]> {
  let all = first;
  for (const parser of parsers.slice(from)) {
    all = then(
      all,
      step => parser.read(reading, step.end),
      (before, value) => [...before, value],
    );
  }
  return all;
}

/** Nearly every part of a sequence reads one way or none, so that no lists of ways are built until one does otherwise. */
function readInOrder(
  parsers: readonly Parser<unknown>[],
  reading: Reading,
  at: number,
): Outcome<readonly unknown[]> {
  const values: unknown[] = [];
  let place = at;
  let failure = nothingTried;
  for (let index = 0; index < parsers.length; index++) {
    const outcome = parsers[index]?.read(reading, place);
    if (outcome === undefined) break;
    failure = furthest(failure, outcome.failure);
    const [step] = outcome.steps;
    if (step === undefined) return { steps: [], failure };
    if (outcome.steps.length > 1) {
      const steps = outcome.steps.map(({ value, end }) => ({ value: [...values, value], end }));
      return readRest(parsers, index + 1, { steps, failure }, reading);
    }
    values.push(step.value);
    place = step.end;
  }
  return { steps: [{ value: values, end: place }], failure };
}

/** One after the other. */
export function sequence<const P extends readonly Parser<unknown>[]>(...parsers: P): Parser<Values<P>> {
  return {
    shape: { kind: 'sequence', parts: parsers.map(parser => parser.shape) },
    read: (reading, at) => {
      reading.asked++;
      // The list of values loses the types of the single places; they are those of `parsers` by construction.
      return readInOrder(parsers, reading, at) as Outcome<Values<P>>;
    },
  };
}

/**
 * Whether a shape can begin at a place, by its first word or character: what keeps a large grammar from trying all of its rules at every
 * word. Not asked while failures are traced, because they tell what could have stood there.
 */
function opensAt(openings: Openings | undefined, reading: Reading, at: number): boolean {
  if (openings === undefined || reading.tracing) return true;
  const start = skipSpace(reading.text, at);
  return canOpen(openings, reading.text, start, wordOf(reading, start));
}

function wordOf(reading: Reading, start: number): string {
  let word = reading.words.get(start);
  if (word === undefined) reading.words.set(start, (word = wordAt(reading.text, start)));
  return word;
}

/** The options of a choice that a word may open, by their places in it: kept, because a large choice is asked at many words. */
function optionsByWord(openings: readonly (Openings | undefined)[]): (word: string) => readonly number[] {
  const known = new Map<string, readonly number[]>();
  return word => {
    let places = known.get(word);
    if (places === undefined) {
      places = [...openings.keys()].filter(place => {
        const each = openings[place];
        return each === undefined || each.expressions.length > 0 || each.words.has(word);
      });
      known.set(word, places);
    }
    return places;
  };
}

/** Any of them; where two read equally far, the one named first. */
export const choice = <T>(...options: readonly Parser<T>[]): Parser<T> => {
  let openings: readonly (Openings | undefined)[] | undefined;
  let byWord: ((word: string) => readonly number[]) | undefined;
  const all = [...options.keys()];
  return {
    shape: { kind: 'choice', options: options.map(option => option.shape) },
    read: (reading, at) => {
      reading.asked++;
      openings ??= options.map(option => openingsOf(option.shape));
      byWord ??= optionsByWord(openings);
      let failure = nothingTried;
      const steps: Step<T>[] = [];
      const places = reading.tracing ? all : byWord(wordOf(reading, skipSpace(reading.text, at)));
      for (const index of places) {
        const option = options[index];
        if (option === undefined || !opensAt(openings[index], reading, at)) continue;
        const outcome = option.read(reading, at);
        failure = furthest(failure, outcome.failure);
        if (outcome.steps.length > 0) steps.push(...outcome.steps);
      }
      return { steps: distinctEnds(steps), failure };
    },
  };
};

/** The second only where the first reads nothing: for what is dear to read and means less. */
export const otherwise = <T>(first: Parser<T>, second: Parser<T>): Parser<T> => ({
  shape: { kind: 'choice', options: [first.shape, second.shape] },
  read: (reading, at) => {
    const outcome = first.read(reading, at);
    if (outcome.steps.length > 0) return outcome;
    const { steps, failure } = second.read(reading, at);
    return { steps, failure: furthest(outcome.failure, failure) };
  },
});

/** Read, but not offered to an author who is stuck: what else could stand there says enough. */
export const quiet = <T>(parser: Parser<T>): Parser<T> => ({
  shape: parser.shape,
  read: (reading, at) => ({ steps: parser.read(reading, at).steps, failure: nothingTried }),
});

/** With it or without it; `undefined` where it is left out. */
export const optional = <T>(parser: Parser<T>): Parser<T | undefined> => ({
  shape: { kind: 'optional', of: parser.shape },
  read: (reading, at) => {
    const { steps, failure } = parser.read(reading, at);
    return { steps: distinctEnds<T | undefined>([...steps, { value: undefined, end: at }]), failure };
  },
});

/** One or more, with `separator` between two of them. Longer lists first. */
export const list = <T>(parser: Parser<T>, separator: Parser<unknown>): Parser<readonly T[]> => ({
  shape: { kind: 'repeated', of: parser.shape, separator: separator.shape },
  read: (reading, at) => {
    let failure = nothingTried;
    const found: Step<readonly T[]>[] = [];
    let ends = then(
      readAs<readonly T[]>([], at),
      step => parser.read(reading, step.end),
      (before, value): readonly T[] => [...before, value],
    );
    while (ends.steps.length > 0) {
      failure = furthest(failure, ends.failure);
      found.unshift(...ends.steps);
      const separated = then(
        ends,
        step => separator.read(reading, step.end),
        before => before,
      );
      ends = then(
        separated,
        step => parser.read(reading, step.end),
        (before, value): readonly T[] => [...before, value],
      );
    }
    return { steps: distinctEnds(found), failure: furthest(failure, ends.failure) };
  },
});

/**
 * A named rule of the grammar. With `label`, a reader who gets stuck at its first word is told the label (``a place such as
 * `bar 5` ``) and not the dozen words that could open it. The parser is asked for late so that rules may contain each other.
 */
export function rule<T>(name: string, parser: () => Parser<T>, label?: string): Parser<T> {
  let made: Parser<T> | undefined;
  let openings: Openings | undefined | null = null;
  const body = (): Parser<T> => (made ??= parser());
  const self: Parser<T> = {
    shape: { kind: 'rule', name, body: () => body().shape },
    read: (reading, at) => {
      let places = reading.known.get(self);
      if (places === undefined) reading.known.set(self, (places = new Map<number, Outcome<unknown>>()));
      // Only this rule writes into its own map, so what comes out has its own type.
      const known = places.get(at) as Outcome<T> | undefined;
      if (known !== undefined) return known;
      reading.asked++;
      if (openings === null) openings = openingsOf(body().shape);
      const outcome = opensAt(openings, reading, at) ? body().read(reading, at) : noSteps;
      // Without tracing there is no failure to be called by its label.
      const start = reading.tracing ? skipSpace(reading.text, at) : at;
      const isStuckAtStart = label !== undefined && reading.tracing && outcome.failure.at === start;
      const result = isStuckAtStart ? { steps: outcome.steps, failure: failureAt(start, label) } : outcome;
      places.set(at, result);
      return result;
    },
  };
  return self;
}
