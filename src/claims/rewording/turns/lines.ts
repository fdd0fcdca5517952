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
    '<line> of <place> holds <note>',
    '<line> (sustains|holds|keeps|repeats|stays on|sits on) (a |its |the |)<note> (through|throughout|all through|for the whole of|during|from|over) <place>',
  ],
  [
    '<line> of bars <number>-<other number> holds <note>',
    '<line> (sustains|holds|keeps|repeats|stays on|sits on) (a |its |the |)<note> from (bar|measure|m.) <number> (right |)(through |)(to|until|into) (bar |measure |m. |)<other number>',
  ],
  [
    '<line> goes <one note> <middle note> <other note>',
    '<line> (rises|falls|moves|goes) from <one note> (through|via|by way of) <middle note> to <other note>',
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
    'the leading tone in <line> of <place> resolves <rest>',
    '^the leading (tone|note) in <line> resolves <rest> in <place>$',
  ],
  [
    '<line> of <place> has a suspension',
    '<line> (suspends|delays) (its|the) (note|resolution) (in|into) <place>',
  ],
  // How high and how low.
  [
    '<line> never goes above <note>',
    '<line> has no (note|notes) (above|higher than|over) <note>',
    '<line> (does not|never|nowhere) (goes|go|rises|rise|climbs|climb|reaches|reach|moves|sings|sing) (above|beyond|higher than|over|past) <note>',
  ],
  [
    '<line> never goes below <note>',
    '<line> has no (note|notes) (below|lower than|under) <note>',
    '<line> (does not|never|nowhere) (goes|go|falls|fall|sinks|sink|drops|drop|moves|sings|sing) (below|lower than|under|beneath) <note>',
  ],
  ['the range of <line>', "<line>'s (range|compass|ambitus)", '<line> (range|compass)'],
  ['the range of the voice', 'the (vocal|voice) (range|compass)'],
  [
    '<line> spans <note> to <other note>',
    '<line> (lies|moves|stays|keeps|sings|remains|goes) between <note> and <other note>',
    '<line> (lies|moves|stays|keeps|sings|remains) within <note> (to|and) <other note>',
    '<line> goes no (lower|higher) than <note> and no (higher|lower) than <other note>',
  ],
  // How far.
  ['by step', '(by a|a|one|by one) step', 'a (scale step|single step)'],
  [
    '<line> has no leap larger than <rest>',
    '<line> (moves by|leaps by|has|uses) nothing (larger|bigger|wider|greater) than <rest>$',
    '<line> (moves|leaps) by (at most|no more than) <rest>$',
    '<line> has (only leaps|no leaps) (of at most|of more than|beyond|over) <rest>$',
  ],
  ['never leaps', '(never|does not) (moves|move|proceeds) by (leap|leaps|skip|skips)', 'has no leaps'],
  ['never leaps', 'moves (only|entirely|always) by step'],
  [
    'does not cross another voice',
    'crosses (no other|none of the other) (voice|voices|part|parts|line|lines)',
  ],
  [
    '<line> and <other line> of <place> have a voice exchange',
    '(there is a|a) voice exchange (between|in) <line> and <other line> (in|at) <place>',
    'a voice exchange (occurs|takes place|happens|appears) (between|in) <line> and <other line> in <place>',
    '<place> (has|have|contains|contain) a voice exchange (between|in) <line> and <other line>',
  ],
  [
    '<line> and <other line> end on the same note',
    '<line> and <other line> (meet|come together|join) at the end',
  ],
  // In their order.
  [
    '<line> of <place> rises through <word>',
    'scale degrees <word> (rise|climb|ascend) in <line> (in|of) <place>',
    'scale degrees <word> (rise|climb|ascend) in <place> in <line>',
  ],
  [
    '<line> of <place> falls through <word>',
    'scale degrees <word> (fall|descend) in <line> (in|of) <place>',
    'scale degrees <word> (fall|descend) in <place> in <line>',
  ],
  [
    '<line> of <place> has the degrees <word>',
    'scale degrees <word> (are|occur|appear|are heard|come) in <line> (in|of) <place>',
    '<line> of <place> (sings|plays|outlines|states) scale degrees <word>',
  ],
  [
    '<line> of bars <number>-<other number> <words>',
    '^in (bar|m.|measure) <number> <line> <words> in (bar|m.|measure) <other number>$',
    '^in (bar|m.|measure) <number>, <line> <words> in (bar|m.|measure) <other number>$',
  ],
  [
    '<one note>, <other note>, <third note>',
    '<one note>, <other note> and <third note>',
    '<one note>, <other note>, and <third note>',
  ],
  [
    'the bass of <place> goes <rest>',
    '<place> (has|have) the bass <rest>$',
    'the bass notes (of|in) <place> are <rest>$',
  ],
  [
    '<line> <words> at the close',
    '<line> <words> (at|in) the (final|last|closing|concluding) (cadence|close|progression)',
  ],
  [
    'the leading tone in <line> of the close resolves <rest>',
    'the leading (tone|note) in <line> (rises|resolves) <rest> at the (final|last|closing) cadence$',
    "<line>'s leading (tone|note) (rises|resolves) <rest> at the (final|last|closing) cadence$",
  ],
  ['the close', 'the (final|last|closing|concluding) cadence'],
  [
    '<line> and <other line> of <place> move in <word> motion',
    '<line> of <place> moves in <word> motion (with|to|against|with respect to|relative to) <other line>',
    '<line> moves in <word> motion (with|to|against) <other line> in <place>',
    '<line> moves in <word> motion (with|to|against) <other line> of <place>',
  ],
  // What is kept.
  [
    '<line> of <place> is <note>',
    '<line> (holds|sustains|keeps|stays on|remains on|prolongs|sits on|rests on) (a |an |the |its |its final |the final |)<note> (for|through|throughout|during|over|in|across|all through|to the end of|for all of|for the whole of) <place>',
  ],
  [
    'in the last <number> bars',
    '(for|through|over|during|throughout|across|in) the (last|final|closing) <number> (measures|bars)',
  ],
  [
    'in the first <number> bars',
    '(for|through|over|during|throughout|across|in) the (first|opening) <number> (measures|bars)',
  ],
  [
    '<line> of the last <number> bars is <note>',
    '<line> (holds|sustains|keeps|stays on|remains on|prolongs|sits on|rests on) (a |an |the |its |its final |the final |)<note> (for|through|over|during|throughout|in) the (last|final|closing) <number> (bars|measures)',
  ],
  ['outlines', '(arpeggiates|arpeggiates through|spells out|traces)', 'is an arpeggio of', 'breaks up'],
  [
    '<line> of <place> outlines the tonic triad',
    '<line> of <place> (has|plays|is|begins with|opens with) (a|an ascending|a rising|a descending|a falling) (tonic|tonic triad) arpeggio',
    '<line> (has|plays) (a|an ascending|a rising|a descending|a falling) (tonic|tonic triad) arpeggio in <place>',
  ],
  [
    '<place> repeats the rhythm of <other place> in <line>',
    '<line> of <place> repeats the rhythm of <other place>',
  ],
  [
    '<line> of <place> leaps an <words>',
    'there is (a|an) <words> leap in <line> (in|of|at) <place>',
    '<line> (of|in) <place> has (a|an) <words> leap',
  ],
  [
    '<line> of <place> rests',
    '^there is a rest (on|in) <place> in <line>$',
    "^there's a rest (on|in) <place> in <line>$",
  ],
  [
    'the highest note of <line> is <note> in <place>',
    '<line> (climaxes|peaks|culminates) on <note> in <place>',
  ],
  ['the <note> of <place>', 'the <note> (tied|held|carried|held over|tied over) (into|over into) <place>'],
];
