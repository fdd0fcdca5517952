import type { Turn } from './turn.js';

/** Roman numerals, applied chords, six-four chords and functions. */
export const numeralTurns: readonly Turn[] = [
  [
    '<place> is <numeral>',
    '^<place> (can be|may be|should be|could be|is best|is|is to be|must be|has to be|gets) (analysed|analyzed|labelled|labeled|read|understood|interpreted|called|named|described|notated|figured|written) (as |)<numeral>',
    '^the (roman numeral|Roman numeral|numeral|analysis|symbol|Roman|correct numeral|right numeral) (of|for|in|at) <place> is <numeral>',
    '^(label|mark|call|analyse|analyze|read|hear) <place> (as |)<numeral>',
    '^<numeral> is the (roman numeral|Roman numeral|numeral|analysis|right label|correct analysis) (of|for) <place>$',
    '^the (right|correct) (analysis|label|numeral) (of|for) <place> is <numeral>',
  ],
  [
    '<place> is <rest> in <key>',
    '^(in the key of|relative to|with respect to|from the point of view of|from the standpoint of|seen from|heard in|read in|in terms of|in) <key>,? <place> (is|becomes|would be) <rest>$',
  ],
  ['the <chord> of <place>', '^the <chord> (in|at|on) <place>'],
  [
    '<place> is <word> and <place> is an applied chord',
    '^the <word> (chord |)(in|of|at) <place> is (a |an )(secondary dominant|applied chord|applied dominant)$',
  ],
  ['<numeral> of', 'the <numeral> chord of'],
  ['the <numeral> of <place>', '^<numeral> (in|at|on|of) <place>'],
  [
    '<place> resolves',
    '^the (secondary dominant|applied dominant|applied chord|dominant seventh|dominant seventh chord|diminished seventh|diminished seventh chord|leading-tone chord|augmented sixth|augmented sixth chord|chord|harmony) (in|of|at) <place> resolves',
  ],
  [
    'resolves to <numeral>',
    'resolves (in|on|on|by moving|by going) to <numeral>',
    'resolves to <numeral> (as expected|as it should|as usual|regularly|normally)',
  ],
  ['resolves to <numeral>', 'resolves to <numeral> in the (next|following) (bar|measure|chord)'],
  [
    'the <one numeral> of bar <one number> resolves to <other numeral> and bar <other number> has <other numeral>',
    '^(the |)<one numeral> (in|of) (bar|measure|m.) <one number> (goes|moves|resolves|leads|is followed by|proceeds|progresses|leads on|passes) (to |into |on to |)(the |)<other numeral> in (bar|measure|m.) <other number>$',
  ],
  [
    'the <numeral> of <place> resolves to <other numeral>',
    '^(the |)<numeral> (in|of) <place> (goes|moves|leads|proceeds|progresses|leads on|passes) (to|into|on to|directly to) (the |)<other numeral>$',
  ],
  [
    '<one numeral> goes to <other numeral>',
    '<one numeral> (leads|moves|proceeds|progresses|passes) (to|into|on to) <other numeral>',
  ],
  [
    'is viio7/<numeral>',
    'is the (leading-tone|leading tone|leading-note) (diminished |)seventh (chord |)of <numeral>',
  ],
  [
    '<place> is viio7 in <key>',
    '^<place> is the (leading-tone|leading tone|leading-note) (diminished |)seventh (chord |)of <key>$',
  ],
  [
    '<place> is an applied chord of <key>',
    '^the (diminished seventh|diminished seventh chord|dominant seventh|dominant seventh chord|chord) (in|of) <place> (acts|functions|serves|works|is|is used) (as |)(a |the |)(secondary |applied |)dominant (of|to|for) <key>$',
  ],
  [
    '<place> is an applied chord of <numeral>',
    '^the (diminished seventh|diminished seventh chord|dominant seventh|dominant seventh chord|chord) (in|of) <place> (acts|functions|serves|works|is|is used) (as |)(a |the |)(secondary |applied |)dominant (of|to|for) <numeral>$',
  ],
  [
    '<place> has a borrowed chord',
    '^<place> (has|contains|uses|features|includes|employs) (a chord|a harmony) (borrowed|taken|that is borrowed|which is borrowed) from the (parallel|tonic|opposite) (minor|major|mode)( key|)$',
    '^<place> (has|contains|uses|shows) (an example of |an instance of |)(modal mixture|mode mixture|modal borrowing|mixture)$',
    '^(a borrowed chord|modal mixture|mode mixture) (is used|is heard|is found|occurs|appears) in <place>$',
  ],
  [
    'the <numeral> of <place> is a borrowed chord',
    '^(the |)(minor |major |)<numeral> (in|of) <place> (is|comes|is taken) (borrowed |)from (the |)(parallel |tonic |)(minor|major)( key| mode|)$',
    '^(the |)(minor |major |)<numeral> (in|of) <place> is (modal mixture|mode mixture|an example of mixture|a mixture chord|an instance of mixture)$',
    '^<place> borrows (its |the |)<numeral> from the (parallel|tonic) (minor|major)$',
  ],
  [
    'the <numeral> of <place> is borrowed from <key>',
    '^(the |)(minor |major |)<numeral> (in|of) <place> (is borrowed|comes|is taken) from <key>$',
  ],
  ['is a cadential six-four', 'is (cadential|a cadential one)'],
  [
    '<place> is a <word> six-four',
    '^the (6/4|six-four|six four|64|second-inversion chord|second inversion chord|six-four chord|6/4 chord|second-inversion triad) (in|of|at|on) <place> is (of the |an? |)<word>( one| type| kind| six-four| 6/4|)$',
  ],
  [
    '<place> has a <word> six-four',
    '^an? <word> (six-four|6/4|six four) (chord |)(decorates|embellishes|ornaments) <place>$',
  ],
  ['passing six-four', 'passing (6/4|six four)'],
  [
    'is a pedal six-four',
    'is a (neighbouring|neighboring|neighbour|neighbor|auxiliary) (six-four|6/4|six four)( chord|)',
  ],
  [
    'has a pedal six-four',
    'has a (neighbouring|neighboring|neighbour|neighbor|auxiliary) (six-four|6/4|six four)( chord|)',
  ],
  [
    'is a third-inversion dominant seventh chord',
    'is (a |the |)dominant (with seventh|with a seventh|with its seventh|with the seventh|seventh),? (in |)third inversion',
  ],
  [
    'is a first-inversion dominant seventh chord',
    'is (a |the |)dominant (with seventh|with a seventh|with its seventh|with the seventh|seventh),? (in |)first inversion',
  ],
  [
    'is a second-inversion dominant seventh chord',
    'is (a |the |)dominant (with seventh|with a seventh|with its seventh|with the seventh|seventh),? (in |)second inversion',
  ],
  ['the first chord of the piece', 'the (first|opening|initial) (chord|harmony)'],
  ['the piece begins on <words>', '^<words> (opens|begins|starts) the piece$'],
  ['the piece ends on <words>', '^<words> (closes|ends|concludes|finishes) the piece$'],
  [
    '<place> has bVI',
    '^the (flat|flattened|lowered) submediant( chord| triad|) (is used|is heard|occurs|appears|is found) in <place>$',
  ],
  [
    '<place> has <one numeral> and <place> does not have <other numeral>',
    '^<place> (has|uses) <one numeral> (in place of|instead of|rather than) (the |)<other numeral>$',
  ],
  [
    '<place> is <one numeral> and <place> is not <other numeral>',
    '^<place> is <one numeral>,? (in place of|instead of|rather than) <other numeral>$',
  ],
  [
    '<place> has dominant function',
    '^(the chord (in|of) |)<place> (has|plays|fulfils|fulfills|serves|takes|performs|takes on) (a |the |)dominant (role|function|purpose)$',
  ],
  [
    '<place> has predominant function',
    '^(the chord (in|of) |)<place> (has|plays|fulfils|fulfills|serves|takes|performs|takes on) (a |the |)(predominant|pre-dominant|subdominant) (role|function|purpose)$',
    '^<place> (acts|serves|functions|works) (as |)(a |the |)(predominant|pre-dominant)( chord| harmony|)$',
  ],
  [
    '<place> has tonic function',
    '^(the chord (in|of) |)<place> (has|plays|fulfils|fulfills|serves|takes|performs|takes on) (a |the |)tonic (role|function|purpose)$',
  ],
  [
    'the subdominant chord of bar <one number> resolves to V and bar <other number> has V',
    '^the subdominant (in|of) bar <one number> (leads|goes|moves|is followed) (to|by|into) the dominant (in|of) bar <other number>$',
  ],
  [
    'the dominant chord of bar <one number> resolves to the tonic and bar <other number> has the tonic chord',
    '^the dominant (in|of) bar <one number> (resolves|leads|goes|moves|is followed) (to|by) the tonic (in|of) bar <other number>$',
  ],
  [
    'the dominant seventh chord of bar <one number> resolves to the tonic and bar <other number> has the tonic chord',
    '^the dominant seventh (chord |)(in|of) bar <one number> (resolves|leads|goes|moves) to the tonic (in|of) bar <other number>$',
  ],
  [
    'the dominant of <place> resolves deceptively',
    '^the dominant( seventh|) (in|of) <place> (moves|goes|proceeds|leads) deceptively to (vi|VI|the submediant)$',
    '^the dominant( seventh|) (in|of) <place> (goes|moves|leads|resolves) to (vi|VI|the submediant),? (instead of|rather than|not|in place of) (I|i|the tonic)$',
    '^the dominant( seventh|) (in|of) <place> (is resolved|resolves) in a deceptive way$',
  ],
  ['the V of <place> resolves to vi', '^instead of I,? V (resolves|goes|moves) to vi in <place>$'],
  [
    '<place> prolong <words>',
    '^<place> (expand|extend|elaborate|sustain|express|spin out|compose out) <words>$',
    '^(all of |the whole of |)<place> (is|are) (an expansion of|an elaboration of|an extension of|a prolongation of) <words>$',
  ],
  [
    '<place> go by falling fifths',
    '^(the chords |the roots |the harmonies |the harmony |the progression |)(in |of |)<place> (follow|follows|trace|traces|outline|outlines|form|forms|run through|go round|go around|move around|move round|cycle through) (a|the|part of the|part of a) (circle-of-fifths|circle of fifths|cycle of fifths|falling-fifths|descending-fifths|descending fifths|falling fifths)( pattern| progression| sequence| chain|)$',
    '^the roots (in|of) <place> (descend|fall|drop|move down|go down|move) by (descending |falling |)fifths$',
  ],
  [
    'every chord of <place> is the dominant chord',
    '^(the harmony |)(of |in |)<place> (is|are|has|have|consists of|uses) (exclusively|only|nothing but|solely|purely|entirely) (the |)dominant( harmony| chord|)$',
    '^all (of |)<place> is dominant( harmony|)$',
  ],
  [
    'every chord of <place> is the tonic chord',
    '^(the harmony |)(of |in |)<place> (is|are|has|have|consists of|uses) (exclusively|only|nothing but|solely|purely|entirely) (the |)tonic( harmony| chord|)$',
    '^all (of |)<place> is tonic( harmony|)$',
  ],
  [
    '<place> are <numeral>',
    '^the harmony (stays|remains|rests|is static|sits) on <numeral> (throughout|through|in|during|for the whole of|for all of|over) <place>$',
    '^<numeral> (is held|is sustained|lasts|is maintained|is kept) (throughout|through|during|for|over) <place>$',
    '^<place> (stay|remain|rest|sit) on <numeral>( throughout|)$',
  ],
  [
    '<place> are the <word> chord',
    '^the harmony (stays|remains|rests|sits) on the <word> (throughout|through|in|during|for the whole of|for all of|over) <place>$',
  ],
  [
    'bar <one number> is <one numeral> and bar <other number> is <other numeral>',
    '^bars <one number> and <other number> are <one numeral> and <other numeral>( respectively|)$',
  ],
];
