import type { Turn } from './turn.js';

/** Words that say nothing about the notes. */
export const smallWordTurns: readonly Turn[] = [
  [
    '',
    '(just|simply|clearly|plainly|neatly|entirely|altogether|indeed|actually|also|again|then|thus|now|here|immediately|straight away|at once|straight|directly|duly|quickly|briefly)',
  ],
  [
    '<rest>',
    '^(and|so|then|now|next|here|notice that|note that|observe that|we hear that|we have|we find|you can see that|you can hear that) <rest>$',
    '^(so|then|now|next|here), <rest>$',
  ],
];
