import type { Turn } from './turn.js';

/** Metre, rhythm, the pace of the harmony, texture and figuration. */
export const durationTurns: readonly Turn[] = [
  [
    '<place> have one chord a bar',
    '^one (chord|harmony) (per bar|per measure|a bar|to the bar|each bar|every bar|to a bar) in <place>$',
    '^(we have |there is |)one (chord|harmony) (per bar|per measure|a bar|to the bar|each bar|to a bar) (in|for|during|throughout) <place>$',
    '^each bar of <place> has (a single|one|only one|just one) (chord|harmony)$',
    '^the harmony (changes|moves) (once a bar|once per bar|every bar|with every bar|bar by bar|at every bar line|with each bar) (in|during|throughout) <place>$',
  ],
  [
    '<place> have <number> chords a bar',
    '^<number> (chords|harmonies) (per bar|per measure|a bar|to the bar|each bar|every bar|to a bar) in <place>$',
    '^each (bar |)of <place> has <number> (chords|harmonies)$',
    '^the harmony (changes|moves) <number> times (a|per) bar in <place>$',
  ],
  [
    'the harmonic rhythm quickens in <place>',
    '^the (harmonic rhythm|rate of chord change|pace of the harmony) (becomes faster|becomes quicker|gets faster|speeds up|accelerates|increases|picks up|is faster) in <place>$',
    '^the (chords|harmonies) (change|move|come) (more quickly|faster|more rapidly|more often|more frequently) in <place>$',
    '^<place> (speeds up|accelerates|quickens|speed up|accelerate|quicken) the harmonic rhythm$',
  ],
  [
    'the chord changes in <place>',
    '^<place> (has|brings) a (chord change|change of harmony|change of chord|harmonic change)$',
    '^there is a (chord change|change of harmony|change of chord) (in|on|at) <place>$',
    '^a new (chord|harmony) (arrives|comes|begins|sounds|enters) (in|on|at) <place>$',
  ],
  [
    'the chord changes in bar <one number> beat <other number>',
    '^bar <one number> (has|brings) a (chord change|change of harmony|change of chord) on beat <other number>$',
  ],
  [
    'bar <other number> has the same chord as bar <one number>',
    '^bars <one number> and <other number> (share|have) (the same|one) (chord|harmony)$',
  ],
  [
    '<range> do not change harmony',
    '^(the same|one) (chord|harmony) (is held|is kept|lasts|is sustained|is maintained|is prolonged|continues|stays|remains|holds) (throughout|through|for|over|during|in|across|for all of) <range>$',
    '^(the |)harmony (is static|stays the same|stands still|remains the same|is unchanged|does not move|is stationary) (throughout|through|for|over|during|in|across) <range>$',
    '^<range> (have|share|keep|has|keeps) (the same|one|a single) (chord|harmony)( throughout|)$',
  ],
  [
    '<place> have <number> voices',
    '^<place> (reduce|reduces|thin out|thins out|thin|thins) (the texture |)to <number> (voices|parts)$',
    '^the texture (thins out|is reduced|thins|shrinks|is thinned|drops) to <number> (voices|parts) in <place>$',
    '^(only |just |)<number> (voices|parts) (sound|sing|are heard|play|are active|take part|are left|are used|are present) in <place>$',
    '^the texture (of|in) <place> (is|has) <number>(-part| parts| voices|-voice|-voiced)$',
    '^<place> (is|are) (in|written in|for|set in|written for) <number> (parts|voices)$',
    '^all <number> (voices|parts) (sound|sing|play|are heard|take part|join in) in <place>$',
    '^<place> (is|are) (written |set |)(in|for) <number>(-part| part) (harmony|texture|writing)$',
  ],
  [
    'the piece has 4 voices',
    '^the (texture|writing|setting) is (four-part|in four parts|four-voice|in four voices)( throughout|)$',
    '^the piece is (written in|written for|set for|in|for) (four parts|four voices)( throughout|)$',
  ],
  [
    'the piece has 3 voices',
    '^the (texture|writing|setting) is (three-part|in three parts|three-voice|in three voices)( throughout|)$',
    '^the piece is (written in|written for|set for|in|for) (three parts|three voices)( throughout|)$',
  ],
  [
    'the piece has 2 voices',
    '^the (texture|writing|setting) is (two-part|in two parts|two-voice|in two voices)( throughout|)$',
    '^the piece is (written in|written for|set for|in|for) (two parts|two voices)( throughout|)$',
  ],
  [
    '<line> of <place> rests',
    '^<line> (drops out|is tacet|falls silent|has rests|is absent|does not play|is missing|pauses|has a rest throughout|is not heard) (in|during|throughout|for) <place>$',
    '^<line> (in|of) <place> (drops out|is tacet|falls silent|does not play|is silent)$',
    '^in <place>,? <line> (drops out|is tacet|falls silent|is silent|does not play|pauses)$',
  ],
  [
    '<line> of <range> keeps the same figuration',
    '^the (pattern|figure|figuration|accompaniment pattern|accompaniment figure|accompanying figure) (in|of) <line> (is the same|stays the same|remains the same|does not change|is constant|is unchanged|continues unchanged|continues) (in|through|throughout|during|over) <range>$',
    '^<line> (repeats|keeps|maintains|keeps up|continues|sustains|uses|plays) (the same|one|a single) (pattern|figure|figuration|accompaniment figure|accompaniment pattern) (in|through|throughout|during|over|in every bar of|in each bar of) <range>$',
    '^<line> (keeps|maintains) its (pattern|figure|figuration) (in|through|throughout|during) <range>$',
  ],
  [
    '<range> keep the same figuration',
    '^the (pattern|figure|figuration|accompaniment pattern|accompaniment figure) (stays the same|remains the same|does not change|is constant|is unchanged|continues unchanged|is the same|is kept up|is maintained) (in|through|throughout|during|over) <range>$',
    '^<range> (maintain|maintains|continue|continues|keep up|keeps up|sustain|sustains|share|shares|have|use) (the same|one) (pattern|figure|figuration|accompaniment figure|accompaniment pattern)$',
  ],
  [
    'the figuration changes in <place>',
    '^the (pattern|figure|accompaniment pattern|accompaniment figure) (changes|is broken|breaks off|breaks|stops|is abandoned) (in|at) <place>$',
    '^<place> (changes|breaks|abandons|interrupts|breaks off) the (pattern|figure|figuration|accompaniment pattern|accompaniment figure)$',
  ],
  [
    'the right hand and the left hand of <place> move in parallel octaves',
    '^(the|both) hands (play|move|are|go|double each other) in (octaves|parallel octaves) in <place>$',
    '^(the|both|the two) hands double each other (at the octave|in octaves) in <place>$',
    '^the (right|left) hand doubles the (left|right) hand (an octave higher|an octave lower|at the octave|in octaves) in <place>$',
  ],
  ['the metre is', 'the (metre|meter|time) (signature is|is that of)'],
  ['the metre is <word>', '^<word> (time|metre|meter)$'],
  ['6/8', '(six-eight|six-eight time|six eight time|6/8-time)'],
  ['3/4', '(three-four|three-four time|three-quarter time|three four time)'],
  ['4/4', '(four-four|four-four time|common time)'],
  ['2/4', '(two-four|two-four time)'],
  [
    '<place> changes metre to <words>',
    '^<place> (switches|changes|moves|goes over|shifts) to <words> (time|metre|meter)$',
    '^the (time|metre|meter|time signature) (switches|moves|shifts|goes over) to <words> in <place>$',
  ],
  [
    'the piece has a pickup',
    '^(the piece|the melody|it|the music) (begins|starts|opens|sets off) (with|on) (an|the|its) (upbeat|anacrusis|up-beat|pick-up)$',
  ],
  ['pickup', '(anacrusis|pick-up|up-beat|auftakt)'],
  [
    '<place> has a syncopation',
    '^<place> (has|contains|uses|shows|have|features) (a |)(syncopated|off-beat) (rhythm|rhythms|figure|pattern)$',
    '^the rhythm (in|of) <place> is syncopated$',
    '^<place> (is|are) syncopated$',
  ],
  [
    '<line> of <place> has a syncopation',
    '^<line> (has|uses|plays) (a |)syncopated (rhythm|rhythms|figure|pattern) in <place>$',
    '^(syncopations|syncopation|a syncopated rhythm) (occur|occurs|is heard|is found|are heard) in <line> (in|of) <place>$',
  ],
  [
    '<place> has a hemiola',
    '^<place> (forms|form|make|makes|produce|produces|are|is|create|creates|build) a hemiola$',
    '^a hemiola (spans|covers|extends over|occupies|fills) <place>$',
  ],
  [
    '<line> has only',
    '^<line> (moves|runs|proceeds|goes|flows|plays|is written) (throughout |)(in|with) (steady|even|continuous|constant|running|unbroken|uninterrupted|nothing but|regular) ',
    '^<line> (consists|is made up|is built) (entirely |only |solely |)(of|from)',
  ],
  [
    '<line> of <place> has only',
    '^<line> (in|of) <place> (moves|runs|proceeds|goes|flows|plays|is written) (in|with) (steady |even |continuous |constant |running |unbroken |)',
  ],
  [
    '<place> has only <words>',
    '^(all |all the |all of the )notes (in|of) <place> are <words>$',
    '^every note (in|of) <place> is an? <words>$',
  ],
  ['bar <one number> has the rhythm', '^the rhythm (of|in) bar <one number> is'],
  [
    '<line> of <place> has the rhythm <words>',
    '^<line> (in|of) <place> has the rhythm (of |)(an? |)<words>$',
    '^the rhythm of <line> (in|of) <place> is <words>$',
  ],
  ['<one words>, <other words>', '^<one words> followed by (an? |)<other words>$'],
  [
    'the <note> of <place> is tied over the bar line',
    '^the <note> (in|of) <place> is (held|carried|sustained|tied) (over|across|over across) the (barline|bar line|bar-line)$',
  ],
  [
    '<place> has a fermata',
    '^<place> has a (fermata|pause|pause mark|fermata sign) (over|on|above) (the |its |)(last |final |first |)(chord|note)$',
    '^there is a (pause|pause mark|fermata sign|pause sign) (over|on|above|in|at) <place>$',
    '^<place> is (held by|marked with|sustained by) a (fermata|pause)$',
  ],
  [
    '<place> begins with a rest',
    '^a rest (begins|opens|starts) <place>$',
    '^<place> (opens|starts|sets out) with a rest$',
    '^there is a rest at the (beginning|start) of <place>$',
  ],
  [
    'the tempo is quarter note = <number>',
    '^the tempo is <number> (crotchets|quarter notes|quarters) (per|a) minute$',
  ],
  [
    'every bar has <number> beats',
    '^the piece has <number> beats (to the bar|to a bar|in a bar|per bar|in each bar|in every bar|a bar)$',
    '^there are <number> beats (to the bar|to a bar|in a bar|per bar|in each bar|in every bar|a bar)$',
  ],
  ['<line> has', '<line> (plays|sings)'],
  [
    '<line> of <place> has only <words>',
    '^<words> (run|flow|move|continue) (through|in) <line> (in|of|through|throughout) <place>$',
    '^<line> (in|of) <place> (is|runs|goes) (all|entirely|completely|wholly) (in |)<words>$',
  ],
  [
    '<place> has <words>',
    '^<words> (pervades|dominates|runs through|characterises|characterizes|permeates|marks|fills|colours) <place>$',
  ],
  [
    '<place> has <number> chords',
    '^<number> (chords|harmonies) (fill|make up|share|are used in|are heard in|sound in|occupy) <place>$',
  ],
  ['the left hand of <place> rests', '^only the right hand (plays|sounds|is heard|is active) in <place>$'],
  ['the right hand of <place> rests', '^only the left hand (plays|sounds|is heard|is active) in <place>$'],
  [
    '<place> is homorhythmic',
    '^in <place>,? all (the |)(voices|parts) (have|move in|share|sing) (the same|one) rhythm$',
    '^all (the |)(voices|parts) (have|move in|share|sing) (the same|one|an identical) rhythm in <place>$',
  ],
  [
    '<place> has 1 chord',
    '^the (chord|harmony) (of|in) <place> (lasts|fills|takes up|occupies) the (whole|entire) bar$',
    '^one (chord|harmony) (fills|lasts for the whole of|takes up|occupies) <place>$',
  ],
  [
    'the <note> of <place> is tied into <other place>',
    '^the <note> (in|of) <place> is tied to the <note> (in|of) <other place>$',
  ],
];
