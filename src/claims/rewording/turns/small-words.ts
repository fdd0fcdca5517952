import type { Turn } from './turn.js';

/** Words that say nothing about the notes. */
export const smallWordTurns: readonly Turn[] = [
  ['have', 'each have'],
  ['has', 'each has'],
  [
    'in the piece',
    '(anywhere|anywhere at all|at any point|at any time) in the (piece|hymn|song|chorale|music|score|movement|setting)',
    'throughout the (piece|hymn|song|chorale|music|score|movement|setting)',
  ],
  ['in', '(anywhere|anywhere at all|at any point) in'],
  [
    '',
    '(simply|clearly|plainly|neatly|entirely|altogether|indeed|actually|also|again|then|thus|now|here|immediately|straight away|at once|straight|directly|duly|quickly|briefly|finally|eventually)',
  ],
  [
    '<rest>',
    '^(and|so|then|now|next|here|we hear that|we have|we find|you can see that|you can hear that) <rest>$',
    '^(so|then|now|next|here), <rest>$',
  ],
];
