import type { Claim } from './claim.js';
import { isKnownWord, nearestExample, nearestWord } from './nearest-example.js';
import type { VerdictWord } from './model.js';
import { openVerbs, portrayals } from './opinion-words.js';
import { shortened } from './rewording/index.js';
import { sayVerdict } from './say-verdict.js';
import { areOfOneStem, hasTradeWord } from './trade-words.js';

/** Where reading stopped. */
interface Stop {
  readonly text: string;
  readonly at: number;
  /** The word there, empty at the end of the text. */
  readonly stopped: string;
  /** What could have stood there. */
  readonly expected: readonly string[];
}

/** Reads a sentence; `undefined` for one that is none. */
type Read = (text: string) => Claim | undefined;

/** What is said most of a place, a line, a note or two lines, each kind of statement once, with an example. */
const usual: readonly string[] = [
  'is V65/V',
  'is D7/F#',
  'is a D minor seventh chord',
  'is in D major',
  'is a half cadence',
  'is D5',
  'has C#',
  'is a passing tone',
  'resolves to D',
  'has a suspension',
  'has a pedal on D',
  'is a predominant',
  'modulates to D major',
  'is a phrase',
  'moves by step',
  'is a major third apart',
  'moves in contrary motion',
  'has parallel fifths',
  'repeats bar 1',
];

const reference = '`lesson-schema/claim-language.md`';

/** Most of what could have stood at a place that is named; a longer list is not read. */
const mostNamed = 8;

/** `a`, `a or b`, `a, b or c`; of more than can be read at once the first, and where the others stand. */
function either(names: readonly string[]): string {
  const left = names.length - mostNamed;
  const named = left < 2 ? names : [...names.slice(0, mostNamed), `others (see ${reference})`];
  return named.length < 2 ? named.join('') : `${named.slice(0, -1).join(', ')} or ${named.at(-1) ?? ''}`;
}

const pluralSubject = /^(?:bars|measures|mm\.?|bb\.?|beats)\s|\sbeats\s|\sand\s/iu;
const plurals: Readonly<Record<string, string>> = {
  is: 'are',
  has: 'have',
  resolves: 'resolve',
  modulates: 'modulate',
  moves: 'move',
  repeats: 'repeat',
};

/** The usual statements that can follow what was read, without the words of theirs that were read already. */
function usualAfter(before: string, read: Read): readonly string[] {
  if (before === '') return [];
  const begun = before.toLowerCase();
  const found = usual.flatMap(statement => {
    const [verb = '', ...rest] = statement.split(' ');
    const words = [pluralSubject.test(before) ? (plurals[verb] ?? verb) : verb, ...rest];
    const said = words.findLastIndex((_, at) =>
      begun.endsWith(` ${words.slice(0, at).join(' ').toLowerCase()}`),
    );
    const following = words.slice(Math.max(0, said)).join(' ');
    return read(`${before} ${following}`) === undefined ? [] : [following];
  });
  return [...new Set(found)];
}

/** What an author leaves out between a place and what is said of it. */
const links = ['is a', 'is', 'has a', 'has', 'are', 'have'] as const;

/** The author's own sentence mended: the word that was meant, a verb where none stands, the place behind what it has. */
function mended({ text, at, stopped }: Stop, meant: string | undefined, read: Read): Claim | undefined {
  const [before, after] = [text.slice(0, at).trim(), text.slice(at).replace(/^[\s:=–—-]+/u, '')];
  // `bar 5 was iv`, `bar 21 creates a pedal`, `bar 12 feels like D major`.
  const statement = text.slice(at + stopped.length).replace(/^\s+(?:like|as|for)(?=\s)/u, '');
  const guesses = [
    ...(['was', 'were', ...openVerbs, ...portrayals].includes(stopped.toLowerCase())
      ? ['is', 'are', 'has', 'have', 'is in', 'are in'].map(link => `${before} ${link}${statement}`)
      : []),
    // Of `modulates to` the word alone: what follows it may stand there.
    ...(meant === undefined ? [] : [meant, meant.split(' ')[0] ?? meant]).map(
      word => `${text.slice(0, at)}${word}${text.slice(at + stopped.length)}`,
    ),
    // `a cadential six-four resolving to V`: the verb as the grammar has it.
    ...(/^\p{L}{3,}ing$/u.test(stopped)
      ? ['s', 'es'].map(
          ending => `${before} and ${stopped.slice(0, -3)}${ending}${text.slice(at + stopped.length)}`,
        )
      : []),
    ...(before === '' || after === '' ? [] : links.map(link => `${before} ${link} ${after}`)),
    `there is a ${text}`,
    `there is a ${before} in ${after}`,
  ];
  for (const guess of guesses) {
    const claim = read(guess);
    // A sentence about the whole piece is one that the author did not begin.
    if (claim !== undefined && !claim.print().startsWith('the piece ')) return claim;
  }
  return undefined;
}

/** A word that no rule knows may be one of taste that no list has; of words of the trade, notes and figures that is not likely. */
const mayBeOpinion = (word: string): boolean =>
  /^\p{Ll}{3,}$/u.test(word) && !hasTradeWord(word) && !isKnownWord(word);
const asOpinion = 'if it is a matter of taste or history, begin it with `opinion:` or `history:`';

/** A sentence that can be checked in place of one that cannot be read. */
export interface Meant {
  readonly claim: Claim;
  /** What the author wrote and it does not say. */
  readonly leftOut?: string;
}

/** Asks whether a sentence was meant, and says what came of it where that is known: an author need not try it first. */
export function askIfMeant({ claim, leftOut }: Meant, verdict?: VerdictWord): string {
  const asked = `did you mean \`${claim.print()}\`?`;
  const said = [
    ...(leftOut === undefined ? [] : [`that leaves out \`${leftOut}\``]),
    ...(verdict === undefined ? [] : [sayVerdict[verdict]]),
  ].join('; ');
  return said === '' ? asked : `${asked} ${said.charAt(0).toUpperCase()}${said.slice(1)}`;
}

/** The sentence without the fewest words that keep it from being read. */
function withoutSome(text: string, read: Read): Meant | undefined {
  for (const { sentence, leftOut } of shortened(text)) {
    const claim = read(sentence);
    // A sentence about the whole piece is one that the author did not begin.
    const saysMore = claim?.print().includes('the piece') === true && !/\bpiece\b/iu.test(sentence);
    if (claim !== undefined && !saysMore) return { claim, leftOut };
  }
  return undefined;
}

interface WayOn {
  readonly help: string;
  readonly meant?: Meant;
}

/**
 * What to write instead of a sentence that cannot be read: the sentence that was meant, else what is left of it without some words, else what
 * could stand where reading stopped, the usual statements first, and the nearest example.
 */
export function wayOn(stop: Stop, read: Read): WayOn {
  const { text, at, stopped, expected } = stop;
  const near = nearestWord(stopped, expected);
  const whole = mended(stop, near, read);
  // Another form of the same word is no slip of the pen: where it mends nothing it is no help either.
  const word = near !== undefined && areOfOneStem(stopped, near.split(' ')[0] ?? near) ? undefined : near;
  const meant =
    whole === undefined ? (word === undefined ? withoutSome(text, read) : undefined) : { claim: whole };
  if (meant !== undefined) return { help: askIfMeant(meant), meant };
  const before = text.slice(0, at).trim().replace(/\s+/gu, ' ');
  const likely = usualAfter(before, read).map(each => `\`${each}\``);
  const could =
    word !== undefined
      ? `did you mean \`${word}\`?`
      : `${before === '' ? 'here' : `after \`${before}\``} could stand ${either([...likely, ...expected.filter(each => !likely.some(one => each.includes(one)))])}`;
  const example = nearestExample(text);
  const parts = [
    could,
    ...(example === undefined ? [] : [`the nearest sentence that can be checked: \`${example}\``]),
    ...(mayBeOpinion(stopped) ? [asOpinion] : []),
  ];
  return { help: parts.reduce((said, part) => `${said}${said.endsWith('?') ? '' : ';'} ${part}`) };
}
