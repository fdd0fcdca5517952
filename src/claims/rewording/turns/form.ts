import type { Turn } from './turn.js';

/** Phrases, returns and likenesses. */
export const formTurns: readonly Turn[] = [
  [
    'the piece has <words> introduction',
    'the (piano|accompaniment|song) (has|plays|gives|starts with|begins with|opens with) <words> introduction',
  ],
  [
    'the piece has <number> phrases and every phrase is <other number> bars long',
    '(the piece|it) (is made of|is built from|is made up of|consists of|has|falls into) <number> <other number>-(bar|measure) phrases',
  ],
  ['<place> has <number> phrases', '<place> (is|are) (made of|built from|made up of) <number> phrases'],
  ['the <words> is <place>', '^<place> (are|is|make up|form|constitute) the <words>$'],
  ['the middle section', 'the (B section|contrasting middle|middle strain|episode|digression)'],
  ['the first phrase', 'the (opening|first) (line|phrase) of the (melody|song|hymn|tune)'],
  [
    'the <one word> phrase begins like the <other word> phrase',
    'the <one word> phrase (begins|starts|opens) (like|as|the same way as|in the same way as|just like|with the same music as|with the same tune as) the <other word>$',
  ],
  [
    'every phrase begins like the first phrase',
    '(the|both|both the|all the|all) phrases (begin|start|open) (alike|the same way|in the same way|identically|with the same music)',
  ],
  [
    'the piece has <number> phrases',
    '(there are|we hear|it has|it falls into|the piece falls into|the piece divides into) <number> phrases',
  ],
  [
    'the piece has <number> sections',
    '(there are|it has|it falls into|the piece falls into|the piece divides into) <number> (sections|strains|parts)',
  ],
  [
    'every phrase is <number> bars long',
    '(each|every) phrase (has|lasts|takes up|takes|spans|covers) <number> (bars|measures)',
    'the phrases are (all |each |)<number> (bars|measures) long',
    '(all phrases|all the phrases) are <number> (bars|measures) long',
  ],
  ['every phrase', '(each|every one) of the phrases', 'all (the |)phrases'],
  ['begins in <place> and begins on the <rest>', '(begins|starts|opens) in <place> (on|with) the <rest>'],
  [
    'ends in <place> and ends on the <rest>',
    '(ends|closes|finishes|concludes|cadences) in <place> (on|with) the <rest>',
  ],
  [
    'ends with a <words> and ends in <place>',
    '(ends|closes|finishes|concludes|cadences) (with|on) (a|an) <words> (in|at) <place>$',
  ],
  [
    'begins on the <words> and begins in <place>',
    '(begins|starts|opens) (with|on) the <words> (in|at) <place>$',
  ],
  [
    'ends on the <words> and ends in <place>',
    '(ends|closes|finishes|concludes) (with|on) the <words> (in|at) <place>$',
  ],
  [
    'ends in <one place> and <words> ends in <other place>',
    'ends in <one place> and <words> in <other place>$',
  ],
  [
    'does not begin on the tonic',
    '(begins|starts|opens) (away from|off|outside|elsewhere than on) the tonic',
  ],
  ['does not end on the tonic', '(ends|closes|finishes) (away from|off|elsewhere than on) the tonic'],
  [
    'does not end in the tonic key',
    '(ends|closes|finishes|cadences) (outside|away from) the (home|tonic|main) key',
    '(ends|closes|finishes) in another key',
  ],
  ['is a period and modulates', 'is a modulating period'],
  ['are a period and modulate', 'are a modulating period'],
  [
    'the opening returns in <place>',
    'the (A section|return|reprise|recapitulation|first section|opening section) (returns|begins|comes back|starts|comes|is back|sets in) (in|at) <place>',
  ],
  [
    '<other place> repeat <one place> a <words> higher',
    'the (model|pattern|figure|idea|unit) (in|of) <one place> is (transposed|moved|shifted|repeated) up (a|an) <words> in <other place>',
    '<other place> are <one place> (transposed |moved |shifted |)up (a|an) <words>$',
  ],
  [
    '<other place> repeat <one place> a <words> lower',
    'the (model|pattern|figure|idea|unit) (in|of) <one place> is (transposed|moved|shifted|repeated) down (a|an) <words> in <other place>',
    '<other place> are <one place> (transposed |moved |shifted |)down (a|an) <words>$',
  ],
  [
    '<other place> repeats <one place> a <words> higher',
    '<other place> is (transposed|moved|shifted) up (a|an) <words> from <one place>',
    '<other place> is <one place> (transposed |moved |shifted |)up (a|an) <words>$',
  ],
  [
    '<other place> repeats <one place> a <words> lower',
    '<other place> is (transposed|moved|shifted) down (a|an) <words> from <one place>',
    '<other place> is <one place> (transposed |moved |shifted |)down (a|an) <words>$',
  ],
  ['<place> are a', '<place> (make up|form|build|give us|are made up of|are built as) (a|one)'],
  [
    'the first phrase is <number> bars long',
    'the first phrase (lasts|takes up|takes|spans|covers|has) <number> bars',
  ],
  ['<other place> is a varied repeat of <one place>', '<other place> (answers|varies) <one place>'],
  [
    '<place> ends with a',
    'the (phrase|section|passage|line) (ends|closes|finishes|cadences) in <place> (with|on|in) (a|an)',
  ],
  ['the <word> phrase is <bars place>', '<bars place> (are|make up|form|constitute|make) the <word> phrase'],
  ['<one place> repeat <other place>', '<one place> (state|present|give|play) <other place>'],
  [
    'every phrase of <words> has <number> bars',
    'the phrases of <words> are all <number> bars long',
    'all (the |)phrases of <words> are <number> bars long',
  ],
];
