import type { Turn } from './turn.js';

/** How many, how often, which one. */
export const countTurns: readonly Turn[] = [
  [
    'the piece has exactly one <words>',
    "^(there's|there is) (exactly|precisely|only|just) one <words>( in the piece|)$",
    '^(only|exactly|just) one <words> (occurs|appears|is found|is heard|is used)( in the piece|)$',
  ],
  [
    'every chord of <place> is',
    '^(all|each|all of the|each of the) (chords|harmonies|chord) (in|of) <place> (is|are)',
    '^every (harmony|chord) (in|of) <place> is',
  ],
  [
    'every bar of <place> has <words>',
    '^(each|all|all of|every one) of <place> (has|have|contains|contain) <words>$',
    '^(each|every) (bar |measure |)(of|in) <place> (has|contains|includes|features|brings) <words>$',
    '^<words> (occurs|appears|is heard|is found|sounds|stands) in (every|each) (bar|measure) of <place>$',
    '^in (every|each) (bar|measure) of <place>,? (we hear|there is|we find|we have) <words>$',
  ],
  [
    'the most frequent chord',
    '(the most common chord|the commonest chord|the most frequently used chord|the most used chord|the most frequent harmony|the most common harmony|the chord used most often|the chord that occurs most often|the chord heard most often)',
  ],
  [
    'the most frequent chord of the piece is <words>',
    '^<words> is (the most common chord|the commonest chord|the most frequently used chord|the most frequent harmony|the most frequent chord|the chord used most often|the chord that occurs most often)( of the piece| in the piece|)$',
    '^<words> (occurs|appears|is used|is heard) most (often|frequently)$',
    '^<words> is used (more often|more frequently|more) than any other chord$',
  ],
  [
    'the most frequent chord of <place> is <words>',
    '^<words> is (the most common|the most frequent|the commonest) (chord|harmony) (in|of) <place>$',
    '^the most (common|frequent) (harmony|chord) (in|of) <place> is <words>$',
  ],
  [
    'no chord of <place> is a root-position <word> chord',
    '^the <word> (never appears|never occurs|never stands|never comes|is never|does not appear|does not occur|is not) in root position in <place>$',
  ],
  [
    'no bar of the piece has <words>',
    '^<words> (is never|are never) (used|heard|found|played|reached|employed)( in the piece|)$',
    '^<words> (does not|do not|never) (occur|occurs|appear|appears|sound|sounds|come|comes)( in the piece| anywhere| at all|)$',
    '^the piece (does without|has no use for|avoids|lacks) <words>$',
    '^(there is|there are) no <words> (anywhere|at all|in the whole piece|anywhere in the piece)$',
    '^(we never hear|we never have|one never hears|you never hear) <words>$',
  ],
  [
    'only <place> has <words>',
    '^<place> is the only (one|bar|measure) (with|that has|which has|that contains|containing|having|to have) <words>$',
    '^<words> (occurs|appears|is heard|is found|is used|sounds) only in <place>$',
    '^<words> (occurs|appears|is heard|is found|is used) nowhere (but|except) in <place>$',
    '^<words> is (confined|restricted|limited) to <place>$',
    '^the only <words> (is|occurs|appears|is found|is heard|comes|stands|falls) (in|at|on) <place>$',
  ],
  [
    'the last <words> of the piece is in <place>',
    '^the (last|final) <words> (comes|occurs|appears|is heard|is found|stands|falls) (in|at|on) <place>$',
    '^(the|a|an) <words> (occurs|appears|is heard) for the last time (in|at|on) <place>$',
  ],
  [
    '<line> of <place> has <number> notes',
    '^<line> (has|plays|sings|contains|counts) <number> notes (in|of) <place>$',
    '^there are <number> notes in <line> (of|in) <place>$',
  ],
  [
    '<words> occurs <number> times in <place>',
    '^<words> (appears|is heard|is used|is found|is played|comes|sounds|turns up|is repeated) <number> times (in|during|within|over) <place>$',
    '^<place> (has|contains|uses|features) <words> <number> times$',
  ],
  [
    '<words> occurs twice in <place>',
    '^<words> (appears|is heard|is used|is found|is played|comes|sounds|turns up) (twice|two times) (in|during|within|over) <place>$',
    '^<place> (has|contains|uses) <words> twice$',
  ],
  [
    '<words> occurs once in <place>',
    '^<words> (appears|is heard|is used|is found|is played|comes|sounds|turns up) (once|only once|just once|a single time|exactly once) (in|during|within|over) <place>$',
    '^<place> (has|contains|uses) <words> once$',
  ],
  [
    '<words> occurs once in the piece',
    '^<words> (appears|is heard|is used|is found|occurs|comes) (only once|just once|exactly once|a single time|once only|once)$',
  ],
  [
    '<words> occurs <number> times in the piece',
    '^<words> (appears|is heard|is used|is found|comes|turns up) <number> times$',
  ],
  [
    'no chord of <place> is',
    '^not (a single|one) (chord|harmony) (of|in) <place> is',
    '^none of the (chords|harmonies) (of|in) <place> is',
  ],
  [
    'no bar of <place> has',
    '^none of <place> (has|contains|have|contain)',
    '^not (a single|one) bar (of|in) <place> (has|contains)',
  ],
  ['no bar of the piece has', '^in no bar (is there|do we hear|do we find|do we have|does the piece have)'],
  [
    '<words> occurs <number> times',
    '^<words> (turns up|comes up|comes|is heard|is struck|is played) <number> times',
  ],
  [
    '<words> occurs twice in the piece',
    '^<words> (turns up|comes up|is heard|is used|occurs|appears) twice$',
  ],
  ['every bar of <place> begins', '^(each|every one|all) of <place> (begins|starts|opens|begin|start|open)'],
  ['every bar of <place> ends', '^(each|every one|all) of <place> (ends|closes|finishes|end|close|finish)'],
];
