import type { Turn } from './turn.js';

/** Two versions of a piece. */
export const versionTurns: readonly Turn[] = [
  [
    '<place> has <one note> where <score> has <other note>',
    '^(in |)<place>,? <score> has <other note> (instead of|in place of|rather than|where the lesson has|where the original has|for|in lieu of) <one note>$',
    '^in <score>,? the <one note> (of|in) <place> (becomes|is changed to|is replaced by|turns into|is|is altered to|has become) <other note>$',
    '^<score> (replaces|changes|alters|exchanges|swaps|turns) (the |)<one note> (with|by|to|into|for) (an |a |)<other note> in <place>$',
    '^where <score> has <other note>,? <place> has <one note>$',
    '^in <place>,? <score> (replaces|changes|alters) <one note> (with|to|by|into) <other note>$',
    '^in <place>,? <score> has <other note>,? (not|instead of) <one note>$',
    '^<place> has <one note>,? (but|whereas|while) <score> has <other note>( there|)$',
  ],
  [
    '<place> differs from <score>',
    '^<score> (changes|alters|modifies|rewrites|varies) <place>$',
    '^<place> (is|are) (altered|modified|rewritten|varied|different|not the same) in <score>$',
    '^<score> (differs|is different|departs from the original) in <place>$',
    '^<score> and the original differ in <place>$',
    '^there is a difference (to|from|with) <score> in <place>$',
  ],
  [
    'only <place> differs from <score>',
    '^<score> and the (original|lesson|piece) differ (in <place> only|only in <place>)$',
    '^the only (difference|change|alteration) (in|to|with|between the original and|from) <score> (is|occurs|lies|comes|is found) in <place>$',
    '^(except for|apart from|other than|but for|with the exception of) <place>,? <score> is (the same|identical|unchanged)$',
    '^(except for|apart from|other than) <place>,? nothing (changes|differs|is changed|is different) in <score>$',
    '^<score> (is the same|is identical|agrees with the original) (except|apart from|except for|but for|except in) <place>$',
    '^<score> (differs|changes|is different) only in <place>$',
    '^<score> (changes|alters) only <place>$',
    '^nothing but <place> (differs|is different|changes) in <score>$',
  ],
  [
    '<place> are the same in <score>',
    '^<score> is (identical|the same|unchanged|unaltered) in <place>$',
    '^<place> (agree|agrees|coincide|coincides|match|matches|is identical|are identical|corresponds|correspond) (with|to|in) <score>$',
    '^<score> (leaves|keeps) <place> (unchanged|as it is|as they are|untouched|unaltered|the same|alone)$',
    '^<score> (agrees|coincides|matches) (with the original |)in <place>$',
    '^<place> (is|are) (untouched|left alone|left unchanged|unaltered|unchanged) in <score>$',
  ],
  [
    '<line> is the same in <score>',
    '^<line> is (unaltered|unchanged|left unchanged|untouched|identical|not changed|left alone|kept) in <score>$',
    '^<line> of <score> is the same$',
    '^<score> has the same <line>$',
    '^<score> (keeps|retains|preserves|leaves|uses) the same <line>$',
    '^<line> does not change in <score>$',
  ],
  [
    'in <score> <place> has <rest>',
    '^the cadence (in|of) <place> (is|becomes) <rest> in <score>$',
    '^<score> (makes|turns) the cadence (in|of) <place> into <rest>$',
  ],
  ['in <score> <rest>', '^(according to|with|looking at|if we take) <score>,? <rest>$'],
  [
    '<score> has 1 bar more',
    '^<score> has (one|an|1) (extra|additional|more|further) (bar|measure)$',
    '^<score> is (one|a|1) (bar|measure) longer$',
  ],
  ['is <words> higher', 'sounds <words> higher'],
  ['is <words> lower', '(sounds|is notated|is written|is set|is pitched) <words> lower'],
  ['is <words> higher', '(is notated|is written|is set|is pitched) <words> higher'],
  [
    '<score> is <words> higher',
    '^<score> (is moved|is shifted|moves everything|has been transposed) up <words>$',
  ],
  [
    '<score> is <words> lower',
    '^<score> (is transposed|is moved|is shifted|moves everything|has been transposed) down <words>$',
  ],
  [
    '<place> has <note> where <score> has none',
    '^<score> (leaves out|omits|drops|lacks|is missing|does without) (the |)<note> (in|of) <place>$',
  ],
];
