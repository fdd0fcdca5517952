import type { Turn } from './turn.js';

/** Lines and single notes. */
export const lineTurns: readonly Turn[] = [
  [
    '<line> rises',
    '<line> (walks up|runs up|works its way up|moves upwards|moves upward|creeps up|climbs up)',
  ],
  [
    '<line> falls',
    '<line> (walks down|runs down|works its way down|moves downwards|moves downward|creeps down|climbs down)',
  ],
  [
    'the highest note of <line>',
    'the (highest point|high point|peak|top note|apex) of <line>',
    "<line>'s (highest point|high point|peak|top note)",
  ],
  [
    'the lowest note of <line>',
    'the (lowest point|low point|bottom note) of <line>',
    "<line>'s (lowest point|low point|bottom note)",
  ],
  ['<line> of <place> has a suspension on <note>', '<line> (suspends|holds over) <note> (in|into) <place>'],
  ['leaps', '(jumps|skips|springs|hops)'],
  ['leap', '(jump|skip|spring|hop)'],
  [
    '<line> of <place> has a pedal on <note>',
    '<line> (sustains|holds|keeps|repeats|stays on|sits on) (a |)<note> (through|throughout|all through|for the whole of|during|from|over) <place>',
  ],
  [
    '<line> of <place> leaps <words>',
    "<line>'s leap in <place> is <words>",
    'the leap (of|in) <line> (of|in) <place> is <words>',
  ],
  [
    'the seventh of <place>',
    'the (seventh|7th|chordal seventh) of (V7|the dominant seventh|the chord|the dominant) (in|of) <place>',
  ],
  [
    'the leading tone in <line> of <place> resolves <rest>$',
    '^the leading (tone|note) in <line> resolves <rest> in <place>$',
  ],
  [
    '<line> of <place> has a suspension',
    '<line> (suspends|delays) (its|the) (note|resolution) (in|into) <place>',
  ],
];
