import { needlesOf } from './needles.js';
import { patternOf, rewritten } from './pattern.js';
import type { Pattern } from './pattern.js';
import { settled } from './settled.js';
import { turns } from './turns/index.js';

/** Turns of phrase that stand in one sentence; more of them is a sentence that says too much. */
const mostTurns = 4;
/** Sentences that are tried for one that cannot be read, so that an author never waits. */
const mostTried = 160;

type Rewrite = (text: string) => string | undefined;

let rewrites: readonly Rewrite[] | undefined;

/** Made when the first sentence asks for it, and each expression when its words are met: most lessons need none. */
const allRewrites = (): readonly Rewrite[] =>
  (rewrites ??= turns.flatMap(([meant, ...spellings]) =>
    spellings.map((said): Rewrite => {
      const needles = needlesOf(said);
      let pattern: Pattern | undefined;
      return text =>
        needles.length > 0 && !needles.some(word => text.includes(word))
          ? undefined
          : rewritten(text, (pattern ??= patternOf(said)), meant);
    }),
  ));

/**
 * What a sentence says in other words, the fewest turns of phrase first. A turn and what it is read as mean the same, so that what can be
 * read may be checked in its place.
 */
export function* rewordings(text: string): Generator<string> {
  const plain = settled(text);
  if (plain !== text) yield plain;
  const tried = new Set([plain]);
  let last: readonly string[] = [plain];
  for (let depth = 0; depth < mostTurns; depth++) {
    const next: string[] = [];
    for (const sentence of last)
      for (const rewrite of allRewrites()) {
        const other = rewrite(sentence);
        if (other === undefined || tried.has(other)) continue;
        if (tried.size > mostTried) return;
        tried.add(other);
        next.push(other);
        yield other;
      }
    last = next;
  }
}
