import type { Turn } from './turn.js';

/** Phrases, periods, repeats and what comes back. */
export const sectionTurns: readonly Turn[] = [
  [
    'the <word> phrase is <place>',
    '^the <word> phrase (spans|covers|occupies|comprises|takes up|takes in|extends over|extends through|consists of|lasts for|fills|includes) <place>$',
    '^<place> (constitute|constitutes|are|is|comprise|represent) the <word> phrase$',
  ],
  [
    'the <word> phrase is bars <one number>-<other number>',
    '^the <word> phrase (runs|goes|extends|lasts|stretches|reaches|is) from bar <one number> (to|until|through|up to) (bar |)<other number>$',
    '^the <word> phrase (begins|starts) (in|at) bar <one number> and (ends|closes|finishes) (in|at) bar <other number>$',
  ],
  ['the first phrase', 'the opening phrase'],
  [
    'the antecedent is <place>',
    '^the antecedent (spans|covers|occupies|comprises|takes up|extends over|consists of|fills) <place>$',
    '^<place> (make up|makes up|constitute|form|are|is) the antecedent( phrase|)$',
  ],
  [
    'the consequent is <place>',
    '^the consequent (spans|covers|occupies|comprises|takes up|extends over|consists of|fills) <place>$',
    '^<place> (make up|makes up|constitute|form|are|is) the consequent( phrase|)$',
  ],
  [
    'the <word> ends with a <words> cadence and <place> has a <words> cadence',
    '^the <word> ends with an? <words> cadence in <place>$',
    '^the <word> (closes|concludes|finishes) (with|on|in) an? <words> cadence (in|at) <place>$',
  ],
  [
    'the <word> phrase ends with a <words> cadence and <place> has a <words> cadence',
    '^the <word> phrase (ends|closes|concludes|finishes|cadences) (with|on|in) an? <words> cadence (in|at) <place>$',
  ],
  [
    '<other place> repeats <one place>',
    '^(the |)(music|passage|material|phrase) (of|from|in) <one place> (comes back|returns|reappears|recurs|is heard again|is repeated|comes again|is restated|is recalled|is brought back) in <other place>$',
    '^<one place> (comes back|come back|returns|return|reappears|reappear|recurs|recur|is heard again|are heard again|is repeated|are repeated|is restated|are restated) in <other place>$',
    '^<other place> (is|are) (a |an |)(literal|exact|identical|note-for-note|verbatim|strict) (repeat|repetition|copy|restatement|return) of <one place>$',
    '^<other place> (repeat|repeats|copy|copies|restate|restates) <one place> (exactly|literally|note for note|without change|without changes|unchanged|verbatim|in full|unaltered)$',
    '^<other place> (is|are) the same music as <one place>$',
    '^<other place> (restate|restates|copy|copies|duplicate|duplicates|reproduce|reproduces|recall|recalls|revisit|revisits) <one place>$',
  ],
  [
    '<other place> repeats the rhythm of <one place>',
    '^<other place> (takes up|takes over|copies|keeps|uses|has|borrows|retains|shares|imitates|reproduces|restates) the (rhythm|rhythmic pattern|rhythmic figure) of <one place>$',
    '^<other place> (has|uses|shares|keeps) the same (rhythm|rhythmic pattern) (as|with) <one place>$',
    '^the rhythm of <one place> (returns|comes back|recurs|is repeated|is heard again|is taken up) in <other place>$',
  ],
  [
    'bar <other number> repeats the rhythm of bar <one number>',
    '^bar <other number> and bar <one number> (share|have) the same (rhythm|rhythmic pattern)$',
    '^bars <one number> and <other number> (share|have) (the same|an identical|one) (rhythm|rhythmic pattern)$',
    '^the rhythm is the same in bars <one number> and <other number>$',
    '^bars <one number> and <other number> (are rhythmically identical|are identical in rhythm|agree in rhythm)$',
  ],
  [
    'the melody of <other place> repeats <one place> a <word> higher',
    '^the (melody|tune|theme) (of|from|in) <one place> (reappears|comes back|returns|is repeated|recurs|is restated|is taken up|is heard again) a <word> higher in <other place>$',
  ],
  [
    'the melody of <other place> repeats <one place> a <word> lower',
    '^the (melody|tune|theme) (of|from|in) <one place> (reappears|comes back|returns|is repeated|recurs|is restated|is taken up|is heard again) a <word> lower in <other place>$',
  ],
  [
    'the melody of <other place> repeats <one place>',
    '^the (melody|tune|theme) (of|from|in) <one place> (reappears|comes back|returns|is repeated|recurs|is restated|is heard again) in <other place>$',
  ],
  [
    '<place> is repeated',
    '^<place> (is|are) (to be repeated|played twice|repeated literally|marked to be repeated|enclosed in repeat signs|between repeat signs|repeated by means of repeat signs)$',
  ],
  [
    'the piece has first and second endings',
    'the piece has (first- and second-time bars|first and second time bars|1st and 2nd time bars|prima and seconda volta|a first and a second ending|two endings|two alternative endings|first and second-time bars)',
  ],
  [
    '<place> are a <word> period',
    '^<place> (make|form|are|constitute) a <word> period (with|consisting of|made of|of) (an |)antecedent and (a |)consequent( phrases| phrase|)$',
  ],
  [
    '<place> are a <words>',
    '^<place> (are|is) (built|organized|organised|constructed|laid out|designed|structured|shaped) as a <words>$',
    '^<place> (take|takes) the form of a <words>$',
  ],
  [
    '<other place> does not repeat <one place>',
    '^<other place> (is|are) (not the same as|unlike|not identical with|not identical to) <one place>$',
  ],
  [
    'the second half of the piece begins in bar <number>',
    '^the second half (begins|starts|opens|sets in) (in|at|with) bar <number>$',
  ],
  [
    'the opening returns in <place>',
    '^the return of the opening (comes|is|happens|occurs|begins|takes place) (in|at) <place>$',
    '^<place> (brings|bring|brings back|bring back|sees|marks) the (return of the opening|opening back|opening again)$',
  ],
  [
    '<other place> repeats <one place> a <word> higher',
    '^<other place> (is|are) <one place> a <word> (higher|up)$',
  ],
  [
    '<other place> repeats <one place> a <word> lower',
    '^<other place> (is|are) <one place> a <word> (lower|down)$',
  ],
  [
    '<place> are a <words>',
    '^<place> (can be heard as|can be read as|may be called|might be called|may be heard as) a <words>$',
  ],
];
