import { readClaim } from '../claims/index.js';
import { lessonJsonSchema } from '../lesson/index.js';

export interface Offered {
  readonly label: string;
  readonly detail?: string;
}

/** What can stand at the cursor, and how many characters of it are already there. */
export interface Completion {
  readonly typed: number;
  readonly words: readonly Offered[];
}

interface SchemaNode {
  readonly properties?: Readonly<Record<string, { readonly description?: string }>>;
}

/** Every key of the lesson's schema with its description, gathered from all its levels. */
const keys: readonly Offered[] = (() => {
  const found = new Map<string, Offered>();
  const gather = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return;
    for (const [name, { description }] of Object.entries((node as SchemaNode).properties ?? {}))
      if (!found.has(name))
        found.set(name, {
          label: `${name}: `,
          ...(description === undefined ? {} : { detail: description.split(/[.;:]/u)[0] ?? description }),
        });
    for (const inner of Object.values(node)) gather(inner);
  };
  gather(lessonJsonSchema());
  return [...found.values()];
})();

/** The claim that is being typed: an item of a list, or the braces behind marked words. */
const claimBefore = /(?:^\s*-\s+(?:claim:\s+)?|\{|because:\s+)(?<claim>[^{}:]*)$/u;

/**
 * Words that can stand behind a line as far as it is typed: keys of the lesson at its start, numbers of bars, and the words with which the
 * claim language goes on.
 */
export function wordsFor(line: string, bars: readonly string[]): Completion | undefined {
  const key = /^\s*(?:-\s+)?(?<word>[a-z]+)$/u.exec(line)?.groups?.['word'];
  const claim = claimBefore.exec(line)?.groups?.['claim'];
  const offered: Offered[] = [];
  let typed = 0;
  if (claim !== undefined) {
    const word = /\S*$/u.exec(claim)?.[0] ?? '';
    const before = claim.slice(0, claim.length - word.length);
    typed = word.length;
    if (/\bbars?\s+$/iu.test(before)) offered.push(...bars.map(label => ({ label })));
    // A sign that no claim contains makes the reader say what could have stood in its place.
    const read = readClaim(`${before}\u00a7`);
    if ('problem' in read)
      offered.push(
        ...read.problem.expected.flatMap(each => {
          const plain = /^`([^`]+)`$/u.exec(each)?.[1];
          return plain === undefined ? [] : [{ label: plain }];
        }),
      );
  }
  if (key !== undefined) {
    typed = key.length;
    offered.push(...keys);
  }
  if (claim === undefined && key === undefined) return undefined;
  const start = line.slice(line.length - typed).toLowerCase();
  return { typed, words: offered.filter(({ label }) => label.toLowerCase().startsWith(start)) };
}
