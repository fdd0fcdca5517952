import type { Turn } from './turn.js';

/** Chords, keys and cadences. */
export const harmonyTurns: readonly Turn[] = [
  [
    '<place> is <numeral>',
    '<place> is (harmonised|harmonized|set) (by|with|as) <numeral>',
    '<place> harmonizes <words> with <numeral>',
  ],
  ['<place> begins on a', '<place> begins with an?'],
  ['the harmony of <place> is <numeral>', 'the harmony (moves|goes|changes|turns) to <numeral> in <place>'],
  ['modulates to', '(takes us|leads us|brings us|leads|turns) (in|)to the key of'],
  ['modulate to <key>', '(take us|lead us|bring us) (in|)to <key>'],
  ['modulates to <key>', '(takes us|leads us|brings us) (in|)to <key>'],
  ['modulate to the', '(take us|lead us|bring us) (in|)to the'],
  ['modulates to the', '(takes us|leads us|brings us) (in|)to the'],
  ['tonicize <key>', '(pass through|touch on|touch|visit|go through|glance at|hint at) <key>'],
  ['tonicizes <key>', '(passes through|touches on|touches|visits|goes through|glances at|hints at) <key>'],
  [
    '<place> is in <key>',
    '<key> (returns|is back|is restored|is regained|is reached|arrives) (in|at|by) <place>',
  ],
  [
    '<place> returns to the tonic key',
    'the (tonic|home|original|main) key (returns|is back|is restored|is regained|is reached|comes back) (in|at|by) <place>',
  ],
  [
    'a <words> <rest>',
    '^(the|a) <words> (arrives|comes|occurs|happens|takes place|is found|is heard|can be heard|falls) <rest>$',
  ],
  [
    'bar <number> has a <words>',
    '(a|an|the) <words> (arrives|comes|occurs|happens|takes place|is found|is heard|falls|appears|stands) (in|at) bar <number>',
  ],
  [
    '<place> has no third',
    'the third (of the chord |)(is missing|is absent|is left out|is omitted|never sounds) (in|from) <place>',
  ],
  [
    '<place> has no fifth',
    'the fifth (of the chord |)(is missing|is absent|is left out|is omitted|never sounds) (in|from) <place>',
  ],
  ['is in second inversion', 'is in (six-four|6/4|six four) position'],
  ['is in first inversion', 'is in (six-three|6/3|sixth) position'],
  [
    '<place> has a dominant pedal',
    'a dominant pedal (underlies|runs through|underpins|supports|lies under|is held through|is heard in) <place>',
  ],
  ['<place> have a dominant pedal', '<place> (sit|stand|rest|stay) (on|over) a dominant pedal'],
  [
    '<place> has a tonic pedal',
    'a tonic pedal (underlies|runs through|underpins|supports|lies under|is held through|is heard in) <place>',
  ],
  ['<place> have a tonic pedal', '<place> (sit|stand|rest|stay) (on|over) a tonic pedal'],
  ['<place> go <numeral>-<words>', '^<numeral>(-|–| - | – )<words> (in|across|over|through) <place>$'],
  [
    '<place> has <note>',
    '<place> introduces (a |the |)<note>',
    '<place> (is|are) where <note> (comes in|enters|appears)',
  ],
  [
    'the <numeral> of <place> is a borrowed chord',
    '<place> borrows <numeral> from the (parallel|tonic) (minor|major)',
  ],
  ['<numeral> of <place> resolves deceptively', '<numeral> in <place> resolves deceptively to (vi|VI)'],
  ['<place> prolong <words>', '<words> (is|are) prolonged (in|through|throughout|over|by|across) <place>'],
  ['<place> prolongs <words>', '<words> (is|are) prolonged (in|through|throughout|over|by|across) <place>'],
  ['begins on a dominant seventh chord', 'begins (with|on) a (dominant seventh|V7)'],
];
