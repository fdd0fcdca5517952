import type { Code } from '../diagnostics/index.js';
import type { Claim } from './claim.js';
import { startReading } from './grammar/index.js';
import { nearestWord } from './nearest-example.js';
import { isOpinion, slipIn, tasteWords, withoutTaste } from './opinion.js';
import { affirmation, rewordings } from './rewording/index.js';
import { claim } from './sentence.js';
import { wayOn } from './way-on.js';
import type { Meant } from './way-on.js';
import { wordDistance } from './word-distance.js';

/** Characters of a claim; a sentence that a reader can follow is far shorter. */
export const longestClaim = 1000;

/** Why a sentence is no claim. Offsets are UTF-16 units of the text. */
export interface UnreadClaim {
  readonly code: Code;
  /** Where reading stopped. */
  readonly at: number;
  /** Length of the word there, 0 at the end of the text. */
  readonly length: number;
  readonly message: string;
  /** What could have stood there. */
  readonly expected: readonly string[];
  readonly help: string;
  /** The sentence that the help proposes, where it proposes a whole one. */
  readonly meant?: Meant;
}

export type ReadClaim = { readonly claim: Claim } | { readonly problem: UnreadClaim };

const capitalArticle = /(?<=\s)An?(?=\s+[\p{L}\d])/u;
/** `Is A Half Cadence` as `Is a Half Cadence`; offsets stay what they are. */
const withSmallArticles = (text: string): string =>
  text.replace(new RegExp(capitalArticle, 'gu'), article => article.toLowerCase());

/** Words count in any case; only `A` is first taken for the note. */
const spellingsOf = (text: string): readonly string[] => [
  text,
  ...(capitalArticle.test(text) ? [withSmallArticles(text)] : []),
];

function plainly(text: string): Claim | undefined {
  for (const spelling of spellingsOf(text)) {
    const [step] = claim.read(startReading(spelling, false), 0).steps;
    if (step !== undefined) return step.value;
  }
  return undefined;
}

/** The claim, and in its reasons the words by which it was understood. */
const understood = (meant: Claim): Claim => ({
  ...meant,
  check: context => {
    const verdict = meant.check(context);
    return { ...verdict, reason: `read as \`${meant.print()}\`: ${verdict.reason}` };
  },
});

/** A sentence that the grammar does not have, by what it says in other words. */
function reworded(text: string): Claim | undefined {
  for (const other of rewordings(text)) {
    const meant = checkable(other);
    if (meant !== undefined) return understood(meant);
  }
  const affirmed = affirmation(text);
  if (affirmed === undefined) return undefined;
  for (const other of [affirmed, ...rewordings(affirmed)]) {
    const meant = checkable(other);
    if (meant !== undefined) return meant.denied === undefined ? undefined : understood(meant.denied());
  }
  return undefined;
}

/** A guess at what was meant is worth something only where it can be checked. */
function checkable(text: string): Claim | undefined {
  const read = plainly(text);
  return read === undefined || isOpinion(read) ? undefined : read;
}

/** The word of taste that a word of some length is one letter away from. */
const misspeltTaste = (written: string): string | undefined =>
  written.length < 6 ? undefined : tasteWords.find(word => wordDistance(written.toLowerCase(), word) === 1);

/** Reads a sentence of the claim language. Never throws. */
export function readClaim(text: string): ReadClaim {
  if (text.length > longestClaim)
    return {
      problem: {
        code: 'C0002',
        at: longestClaim,
        length: 0,
        message: `the claim has ${String(text.length)} characters, more than ${String(longestClaim)}`,
        expected: [],
        help: 'write several shorter claims',
      },
    };
  const read = plainly(text);
  if (read !== undefined && !isOpinion(read)) return { claim: read };
  const meant = reworded(text) ?? read;
  if (meant !== undefined) return { claim: meant };
  const slip = slipIn(text);
  if (slip !== undefined)
    return {
      problem: {
        code: 'C0001',
        at: slip.at,
        length: slip.word.length,
        message: `cannot read \`${slip.word}\` here`,
        expected: [`\`${slip.meant}\``],
        help: `did you mean \`${slip.meant}\`?`,
      },
    };
  const bare = withoutTaste(text);
  const failure = [...new Set([...spellingsOf(text), bare])]
    .map(spelling => claim.read(startReading(spelling), 0).failure)
    .reduce((far, each) => (each.at > far.at ? each : far));
  const at = Math.max(0, failure.at);
  const stopped = /^[^\s,;]*/u.exec(text.slice(at))?.[0] ?? '';
  const taste = failure.expected.some(each => nearestWord(stopped, [each]) !== undefined)
    ? undefined
    : misspeltTaste(stopped);
  return {
    problem: {
      code: 'C0001',
      at,
      length: stopped.length,
      message: stopped === '' ? 'the claim breaks off here' : `cannot read \`${stopped}\` here`,
      expected: failure.expected,
      ...(taste === undefined
        ? wayOn({ text: bare, at, stopped, expected: failure.expected }, checkable)
        : {
            help: `did you mean \`${taste}\`? That would be a matter of taste, which no note can settle`,
          }),
    },
  };
}
