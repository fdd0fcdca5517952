import { didYouMean } from '../diagnostics/index.js';
import { isBackwards } from './bars.js';
import { probableKey } from './home.js';
import type { Tree } from './tree.js';

/** What an author probably wanted, from a value that does not fit. */
export type Hint = (tree: Tree) => string | undefined;

const writtenOf = (tree: Tree): string => (tree.kind === 'scalar' ? tree.written.trim() : '');

/** Numbers, truth values and colons where a text is wanted. */
export const textHint: Hint = tree => {
  const opener = tree.span.source.text[tree.span.start];
  if (tree.kind === 'mapping') {
    const cause = opener === '{' ? 'braces make' : 'a colon with a space after it makes';
    return `${cause} a mapping: put the whole text in double quotes`;
  }
  if (tree.kind === 'list') {
    return `${opener === '[' ? 'square brackets' : 'dashes'} make a list: put the whole text in double quotes`;
  }
  return tree.value === null || typeof tree.value === 'string'
    ? undefined
    : `put it in double quotes to have it as a text: \`"${tree.written}"\``;
};

/** The nearest of the words to choose from. */
export const wordHint =
  (words: readonly string[]): Hint =>
  tree =>
    didYouMean(writtenOf(tree), words);

/** A number with its unit. */
export const numberHint: Hint = tree => {
  const digits = /-?\d+(?:\.\d+)?/.exec(writtenOf(tree))?.[0];
  return digits === undefined || digits === writtenOf(tree)
    ? undefined
    : `write the number alone: \`${digits}\``;
};

/** Two bar numbers in any other writing, and the pickup by its number. */
export const barsHint: Hint = tree => {
  if (tree.kind === 'scalar' && typeof tree.value !== 'string') return undefined;
  if (/^(?:the )?(?:pickup|anacrusis)$/i.test(writtenOf(tree))) return 'the pickup is bar 0: write `0`';
  const written = tree.kind === 'list' ? tree.items.map(writtenOf).join(' ') : writtenOf(tree);
  const numbers = written.match(/\d+[a-z]?/g);
  const [first, last] = numbers ?? [];
  if (numbers?.length !== 2 || first === undefined || last === undefined) return undefined;
  return isBackwards({ first, last }) ? undefined : `write \`${first}-${last}\``;
};

/** A key in other clothes. */
export const keyHint: Hint = tree => {
  const meant = probableKey(writtenOf(tree));
  return meant === undefined ? undefined : `did you mean \`${meant}\`?`;
};

/** One value, or dashes without a space, where a list is wanted. */
export const listHint: Hint = tree => {
  const written = writtenOf(tree);
  if (written === '') return undefined;
  return written.startsWith('-')
    ? 'put a space after each dash'
    : 'put each item behind a dash and a space on a line of its own';
};

/** `yes` and `no` are plain texts in YAML 1.2. */
export const yesOrNoHint: Hint = tree => {
  const written = writtenOf(tree).toLowerCase();
  if (['yes', 'y', 'on'].includes(written)) return 'write `true`';
  return ['no', 'n', 'off'].includes(written) ? 'write `false`' : didYouMean(written, ['true', 'false']);
};
