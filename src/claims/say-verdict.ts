import type { VerdictWord } from './model.js';

/** A verdict as a clause. */
export const sayVerdict: Readonly<Record<VerdictWord, string>> = {
  holds: 'it holds',
  arguable: 'it is arguable',
  undecided: 'it is undecided',
  fails: 'it fails',
};
