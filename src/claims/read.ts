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

/** `a`, `a or b`, `a, b or c`. */
function either(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} or ${names.at(-1) ?? ''}`;
}

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
  const [step] = claim.read(startReading(text, false), 0).steps;
  if (step !== undefined) return { claim: step.value };
  const { failure } = claim.read(startReading(text), 0);
  const at = Math.max(0, failure.at);
  const stopped = /^[^\s,;]*/u.exec(text.slice(at))?.[0] ?? '';
  const before = text.slice(0, at).trim();
  const example = nearestExample(text);
  const meant = nearestWord(stopped, failure.expected);
  return {
    problem: {
      code: 'C0001',
      at,
      length: stopped.length,
      message: stopped === '' ? 'the claim breaks off here' : `cannot read \`${stopped}\` here`,
      expected: failure.expected,
      help: `${meant === undefined ? '' : `did you mean \`${meant}\`? `}${before === '' ? 'here' : `after \`${before}\``} could stand ${either(failure.expected)}${
        example === undefined ? '' : `; the nearest sentence that can be checked: \`${example}\``
      }`,
    },
  };
}
