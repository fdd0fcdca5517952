import type { Turn } from './turn.js';

/** Phrases, returns and likenesses. */
export const formTurns: readonly Turn[] = [
  ['<place> are a', '<place> (make up|form|build|give us|are made up of|are built as) (a|one)'],
  [
    'the first phrase is <number> bars long',
    'the first phrase (lasts|takes up|takes|spans|covers|has) <number> bars',
  ],
  ['<other place> is a varied repeat of <one place>', '<other place> (answers|varies) <one place>'],
  [
    '<place> ends with a',
    'the (phrase|section|passage|line) (ends|closes|finishes|cadences) in <place> (with|on|in) an?',
  ],
  ['the <word> phrase is <bars place>', '<bars place> (are|make up|form|constitute|make) the <word> phrase'],
];
