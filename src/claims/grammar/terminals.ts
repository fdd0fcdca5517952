import { nothingTried } from './failure.js';
import type { Failure } from './failure.js';
import { endOfSpelling } from './loosely.js';
import { failed, map, readAs, skipSpace } from './parser.js';
import type { Parser } from './parser.js';
import { expressionOf, oneOf, text } from './shape.js';
import type { Shape } from './shape.js';

/** The characters with which one of some words begins, in either case: what saves most attempts at them. */
const openingsOf = (words: readonly string[]): ReadonlySet<string> =>
  new Set(words.flatMap(each => [each.charAt(0).toLowerCase(), each.charAt(0).toUpperCase()]));

/**
 * A word in any of its spellings; case does not matter. The value is the first spelling. A spelling of several words
 * (`time signature`) may be broken by any white space or a hyphen.
 */
export function word(...spellings: readonly [string, ...string[]]): Parser<string> {
  const longestFirst = spellings.map(each => each.toLowerCase()).sort((a, b) => b.length - a.length);
  const [canonical] = spellings;
  const openings = openingsOf(spellings);
  return {
    shape: spellings.length === 1 ? text(canonical) : oneOf(...spellings),
    read: (reading, at) => {
      reading.asked++;
      const start = skipSpace(reading.text, at);
      if (openings.has(reading.text.charAt(start))) {
        for (const spelling of longestFirst) {
          const end = endOfSpelling(reading.text, start, spelling);
          if (end !== undefined) return readAs(canonical, end);
        }
      }
      return failed(reading, start, `\`${canonical}\``);
    },
  };
}

/** A word in small letters only: the article `a` beside the note A. */
export const smallWord = (...spellings: readonly [string, ...string[]]): Parser<string> => {
  const loose = word(...spellings);
  return {
    shape: loose.shape,
    read: (reading, at) => {
      const start = skipSpace(reading.text, at);
      const outcome = loose.read(reading, start);
      const isSmall = outcome.steps.every(({ end: stop }) => {
        const written = reading.text.slice(start, stop);
        return written === written.toLowerCase();
      });
      return isSmall ? outcome : failed(reading, start, `\`${spellings[0]}\``);
    },
  };
};

/** One of several words with the value that each stands for. */
export function wordsFor<T>(values: readonly (readonly [T, string, ...string[]])[]): Parser<T> {
  const options = values.map(([value, ...spellings]) => map(word(...spellings), () => value));
  const openings = openingsOf(values.flatMap(([, ...spellings]) => spellings));
  return {
    shape: { kind: 'choice', options: options.map(option => option.shape) },
    read: (reading, at) => {
      const start = skipSpace(reading.text, at);
      if (!reading.tracing && !openings.has(reading.text.charAt(start))) return failed(reading, start);
      const outcomes = options.map(option => option.read(reading, start));
      const steps = outcomes.flatMap(outcome => outcome.steps).sort((a, b) => b.end - a.end);
      if (steps.length > 0) return { steps, failure: nothingTried };
      return failed(reading, start, ...outcomes.flatMap(outcome => outcome.failure.expected));
    },
  };
}

interface TokenOf<T> {
  /** Name in the grammar. */
  readonly name: string;
  /** What the author is told that could stand here: ``a key such as `D major` ``. */
  readonly label: string;
  readonly shape: Shape;
  /** The value of the matched text, or `undefined` where it has the shape but no meaning. */
  readonly value: (matched: string) => T | undefined;
}

/** A token whose shape says exactly what it looks like. No letter or digit may follow, nor a decimal point with its digits. */
export function token<T>({ name, label, shape, value }: TokenOf<T>): Parser<T> {
  const expression = new RegExp(`${expressionOf(shape)}(?![\\p{L}\\p{N}]|\\.\\d)`, 'uy');
  return {
    shape: { kind: 'token', name, body: shape },
    read: (reading, at) => {
      reading.asked++;
      const start = skipSpace(reading.text, at);
      expression.lastIndex = start;
      const matched = expression.exec(reading.text)?.[0];
      const read = matched === undefined ? undefined : value(matched);
      if (read === undefined) return failed(reading, start, label);
      return readAs(read, expression.lastIndex);
    },
  };
}

interface ForeignToken<T> {
  readonly name: string;
  readonly label: string;
  /** What the grammar prints; a test proves that the reader accepts all of it. */
  readonly shape: Shape;
  /** Whether the text at a place is meant as this token at all. */
  readonly opens: RegExp;
  /** Reads the whole run of characters up to the next white space; offsets of the failure count from its start. */
  readonly value: (run: string) => { readonly value: T } | Failure;
  /** What a run is; up to the next white space, comma or semicolon where nothing is said. */
  readonly run?: RegExp;
}

const insideWord = /^\p{Ll}{2}$/u;

/** Neither numerals nor chord symbols contain quotation marks, but a sentence may stand in them. */
const toSpace = /[^\s,;“”"„«»‘’']+/uy;

/** A token that another stage reads (a Roman numeral, a chord symbol). */
export function foreignToken<T>({
  name,
  label,
  shape,
  opens,
  value,
  run = toSpace,
}: ForeignToken<T>): Parser<T> {
  return {
    shape: { kind: 'token', name, body: shape },
    read: (reading, at) => {
      reading.asked++;
      const start = skipSpace(reading.text, at);
      run.lastIndex = start;
      const whole = run.exec(reading.text)?.[0].replace(/\.$/, '') ?? '';
      if (!opens.test(whole)) return failed(reading, start, label);
      const read = value(whole);
      if ('value' in read) return readAs(read.value, start + whole.length);
      // A word that only begins like one is none: `vo` of `voice` is not half a numeral.
      if (insideWord.test(whole.slice(Math.max(0, read.at - 1), read.at + 1)))
        return failed(reading, start, label);
      return failed(reading, start + read.at, ...(read.at === 0 ? [label] : read.expected));
    },
  };
}

/** A mark such as a comma. */
export function mark(...marks: readonly [string, ...string[]]): Parser<string> {
  const [canonical] = marks;
  return {
    shape: marks.length === 1 ? text(canonical) : oneOf(...marks),
    read: (reading, at) => {
      reading.asked++;
      const start = skipSpace(reading.text, at);
      const found = marks.find(each => reading.text.startsWith(each, start));
      return found === undefined
        ? failed(reading, start, `\`${canonical}\``)
        : readAs(canonical, start + found.length);
    },
  };
}

/** The end of the text. */
export const end: Parser<undefined> = {
  shape: { kind: 'sequence', parts: [] },
  read: (reading, at) => {
    const start = skipSpace(reading.text, at);
    return start === reading.text.length
      ? readAs(undefined, start)
      : failed(reading, start, 'the end of the claim');
  },
};
