import type { Code } from '../diagnostics/index.js';
import type { Claim } from './claim.js';
import { startReading } from './grammar/index.js';
import { nearestExample, nearestWord } from './nearest-example.js';
import { claim } from './sentence.js';

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
}

export type ReadClaim = { readonly claim: Claim } | { readonly problem: UnreadClaim };

/** Most of what could have stood at a place that is named; a longer list is not read. */
const mostNamed = 8;

/** `a`, `a or b`, `a, b or c`, `a, b or 12 others`. */
function either(names: readonly string[]): string {
  const left = names.length - mostNamed;
  const named = left < 2 ? names : [...names.slice(0, mostNamed), `${String(left)} others`];
  return named.length < 2 ? named.join('') : `${named.slice(0, -1).join(', ')} or ${named.at(-1) ?? ''}`;
}

/** What to write instead: the word that was meant, else what could stand there; and a sentence to begin from. */
function wayOn(text: string, before: string, stopped: string, expected: readonly string[]): string {
  const meant = nearestWord(stopped, expected);
  const could =
    meant === undefined
      ? `${before === '' ? 'here' : `after \`${before}\``} could stand ${either(expected)}`
      : `did you mean \`${meant}\`?`;
  const example = nearestExample(text);
  if (example === undefined) return could;
  return `${could}${meant === undefined ? ';' : ''} the nearest sentence that can be checked: \`${example}\``;
}

const capitalArticle = /(?<=\s)An?(?=\s+[\p{L}\d])/u;
/** `Is A Half Cadence` as `Is a Half Cadence`; offsets stay what they are. */
const withSmallArticles = (text: string): string =>
  text.replace(new RegExp(capitalArticle, 'gu'), article => article.toLowerCase());

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
  // Words count in any case; only `A` is first taken for the note.
  const spellings = [text, ...(capitalArticle.test(text) ? [withSmallArticles(text)] : [])];
  for (const spelling of spellings) {
    const [step] = claim.read(startReading(spelling, false), 0).steps;
    if (step !== undefined) return { claim: step.value };
  }
  const failure = spellings
    .map(spelling => claim.read(startReading(spelling), 0).failure)
    .reduce((far, each) => (each.at > far.at ? each : far));
  const at = Math.max(0, failure.at);
  const stopped = /^[^\s,;]*/u.exec(text.slice(at))?.[0] ?? '';
  const before = text.slice(0, at).trim();
  return {
    problem: {
      code: 'C0001',
      at,
      length: stopped.length,
      message: stopped === '' ? 'the claim breaks off here' : `cannot read \`${stopped}\` here`,
      expected: failure.expected,
      help: wayOn(text, before, stopped, failure.expected),
    },
  };
}
