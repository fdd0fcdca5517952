import type { Turn } from './turn.js';

/** Cadences, and how phrases end. */
export const cadenceTurns: readonly Turn[] = [
  ['half cadence', '(half close|half-close|semicadence|semi-cadence|half-cadence)'],
  ['cadence', '(close at the cadence|cadential arrival|cadence point)'],
  [
    '<place> end with <words>',
    '^<words> (rounds off|ends|closes|concludes|finishes|completes|terminates) <place>$',
    '^<place> (is|are) (rounded off|ended|closed|concluded|finished|brought to a close|brought to an end) (by|with) <words>$',
    '^<place> (comes|come) to (rest|a close|an end|a stop) (with|on) <words>$',
  ],
  ['the piece ends with <words>', '^<words> (ends|closes|concludes|finishes|completes) the piece$'],
  [
    '<place> has <words>',
    '^<words> (follows|comes|falls|lands|arrives|is placed|stands|occurs|takes place|is reached|is made) (in|on|at) <place>$',
  ],
  [
    '<place> ends on the dominant chord',
    '^(the phrase |the music |)(in |of |)<place> (pause|pauses|rest|rests|halt|halts|stop|stops|come to rest|comes to rest|break off|breaks off|hang|hangs|end|ends|finish|finishes|close|closes) on (the dominant|V)$',
  ],
  [
    '<place> ends on the dominant chord',
    '^(the phrase|the music|it) (pauses|rests|halts|stops|comes to rest|hangs) on (the dominant|V) (in|at) <place>$',
  ],
  [
    '<place> has an evaded cadence',
    '^the (cadence|expected cadence|cadence expected|cadence prepared|cadence promised) (in|of|at) <place> is (evaded|avoided|circumvented|denied|dodged)$',
    '^the cadence is (evaded|avoided|circumvented|dodged) (in|at) <place>$',
    '^<place> (evades|avoids|dodges) (the|its|a) (expected |)cadence$',
  ],
  [
    'bars <one number>-<other number> are a Phrygian half cadence',
    '^iv6(-|–| - | – | )V in bars <one number>-<other number> (is|are|makes|forms|make|form) a Phrygian (half |)cadence$',
  ],
  [
    '<place> go <words> and <place> have a cadence',
    '^<words> (forms|makes|is|constitutes|gives) the cadence (in|of|at) <place>$',
  ],
  [
    '<one place> is a half cadence and <other place> is an authentic cadence',
    '^a half cadence (in|at) <one place> (is |)answered by an authentic cadence (in|at) <other place>$',
  ],
  [
    '<one place> has <one words> and <other place> has <other words>',
    '^<one words> (in|at) <one place> (is answered by|is followed by|answered by|followed by) <other words> (in|at) <other place>$',
  ],
  [
    '<place> has no cadence',
    '^(there is|there was) not a (single |)cadence in <place>$',
    '^<place> (is|are) without (a |any |)cadence$',
    '^<place> (do|does) not cadence$',
    '^no cadence (occurs|is heard|is found|takes place|comes) in <place>$',
  ],
  [
    'bar <number> beat <other number> has a cadence',
    '^the cadence (lands|arrives|falls|comes|is reached|occurs|is|takes place) (in|on|at) bar <number> beat <other number>$',
    '^the cadence (in|of) bar <number> (lands|arrives|falls|comes|is reached|occurs|is) on beat <other number>$',
  ],
  [
    '<place> has a <words> cadence',
    '^the cadence (in|of|at) <place> (is|is of|belongs to) (the |a |an |)<words> (type|kind|variety|one)$',
    '^the <words> cadence (is|comes|falls|occurs|arrives|is heard|is found|is reached) (in|at|on) <place>$',
    '^<place> cadences with a <words> cadence$',
  ],
  ['<place> has a perfect authentic cadence', '^<place> (is closed|closes|ends) by a PAC$'],
  ['the last cadence', 'the (final|closing|concluding) cadence'],
  ['the <word> phrase ends on', 'the <word> phrase cadences on'],
  [
    '<place> end with <words>',
    '^<words> (marks|brings|signals|forms|makes|gives) the (end|close|conclusion) of <place>$',
  ],
  [
    '<place> go <one words> and <place> have a <other words> cadence',
    '^<one words> in <place> (makes|make|forms|form|is|are|gives|constitutes) a <other words> cadence$',
  ],
];
