import type { Turn } from './turn.js';

/** Non-chord tones: what they are, how they come and go. */
export const toneTurns: readonly Turn[] = [
  ['passing tone', 'passing(-note|-tone)'],
  ['passing tones', 'passing(-notes|-tones)'],
  [
    'non-chord tone',
    '(non-harmonic note|non-harmonic tone|nonharmonic tone|inharmonic note|unessential note|embellishing tone|nonchord tone|non-chordal tone)',
  ],
  [
    'non-chord tones',
    '(non-harmonic notes|non-harmonic tones|nonharmonic tones|inharmonic notes|unessential notes|embellishing tones|nonchord tones|notes foreign to the chord|non-chordal tones)',
  ],
  [
    'lower neighbour tone',
    '(lower auxiliary|lower auxiliary note|lower auxiliary tone|lower neighboring tone)',
  ],
  [
    'upper neighbour tone',
    '(upper auxiliary|upper auxiliary note|upper auxiliary tone|upper neighboring tone)',
  ],
  ['neighbour tone', '(auxiliary note|auxiliary tone|neighboring note|neighbouring note)'],
  [
    'the first note of <line> of <place> is a <tone>',
    '^<line> (begins|starts|opens|enters) <place> (with|on) an? <tone>$',
    '^<place> (begins|starts|opens) (with|on) an? <tone> in <line>$',
    '^<line> (of|in) <place> (begins|starts|opens) (with|on) an? <tone>$',
  ],
  [
    'the last note of <line> of <place> is a <tone>',
    '^the (final|last|closing) note (of|in) <place> in <line> is an? <tone>$',
    '^<line> (ends|closes|finishes) <place> (with|on) an? <tone>$',
    '^<line> (of|in) <place> (ends|closes|finishes) (with|on) an? <tone>$',
    '^<line> has an? <tone> at the (very |)end of <place>$',
  ],
  [
    'the <note> of <place> is an anticipation',
    '^the <note> at the (very |)end of <place> (is an anticipation|anticipates the next chord|anticipates the following chord|anticipates the next bar)$',
    '^the <note> (in|of) <place> anticipates (the next chord|the following chord|the next harmony|the next bar)$',
  ],
  [
    '<line> of <place> has a <tone>',
    '^an? <tone> in <line> (decorates|ornaments|embellishes|adorns|colours|marks|enriches|delays) <place>$',
    '^<place> (is decorated|is ornamented|is embellished|is adorned) (by|with) an? <tone> in <line>$',
    '^an? <tone> (occurs|appears|is heard|is found|sounds|stands) (in|on) <place> in <line>$',
    '^in <line>,? <place> has an? <tone>$',
    '^<line> (shows|uses|brings|gives|adds|includes|contains|introduces) an? <tone> (in|on|at) <place>$',
  ],
  [
    '<line> of <place> has a suspension',
    '^<line> (is suspended|suspends a note|holds over a note) in <place>$',
  ],
  [
    '<place> has a <tone>',
    '^an? <tone> (decorates|ornaments|embellishes|adorns|colours|marks|enriches) <place>$',
    '^<place> is (decorated|ornamented|embellished|adorned|coloured|enriched) (by|with) an? <tone>$',
    '^the (chord|tonic|harmony|final tonic) (in|of) <place> is (decorated|ornamented|embellished|delayed) (by|with) an? <tone>$',
  ],
  ['the <tone> of <place>', '^the <tone> (heard |found |)(in|on|at) <place>'],
  [
    'the <note> of <place> is a suspension and the suspension of <place> is prepared and <other place> has <note>',
    '^the suspension (in|of) <place> is prepared (by|with|as) (the|a|an) <note> (in|of) <other place>$',
  ],
  ['the <tone> of <place> is <rest>', '^the <tone> is <rest> (in|on|at) <place>$'],
  [
    'the <note> of <place> is a suspension',
    '^the <note> (in|of) <place> is (a suspended note|suspended|held over as a suspension|suspended from the previous chord|suspended from the chord before)$',
  ],
  [
    'the <note> of <place> is a suspension and <other place> has <note>',
    '^<note> is (held over|tied over|suspended|prolonged) from <other place> (and becomes a suspension in|into) <place>$',
  ],
  [
    'the <member> of <place> is a suspension',
    '^the <member> is suspended (in|into) <place>$',
    '^the <member> (in|of) <place> is suspended$',
  ],
  [
    'the bass of <place> has a 2-3 suspension',
    '^the bass suspension (in|of) <place> is (a |of the type |)2-3$',
    '^<place> has a 2-3 bass suspension$',
  ],
  ['the first bar of', 'the first bar (for|in) which'],
  [
    'bars <one number>-<other number> have a <word> pedal',
    '^an? <word> pedal (point |)(in the bass |)(lasts|extends|runs|stretches|goes|is held|is sustained|continues) from bar <one number> (to|until|through|up to) bar <other number>$',
    '^the <word> pedal (point |)(lasts|extends|runs|stretches|goes|is held|is sustained|continues) from bar <one number> (to|through) bar <other number>$',
  ],
  [
    '<place> have a pedal on <note>',
    '^(the |a |)(low |high |held |repeated |sustained |deep |)<note> is (a |the |)pedal( point| note|) (in|through|throughout|during|over|under) <place>$',
    '^(the |a |)(low |high |)<note> is (held|sustained|repeated|kept|heard) as a pedal( point|) (in|through|throughout|during|over|under) <place>$',
    '^an? (low |high |held |)<note> pedal (runs through|lies under|underlies|underpins|supports|is held through|is held in|is heard in|sounds through|sounds in|sounds under|continues through) <place>$',
    '^<place> (stand|sit|rest|are built|are|stay|move|unfold) (over|on|above) an? <note> pedal$',
    '^<place> (stand|sit|rest|are built|are|stay|move|unfold) (over|on|above) a pedal (on |)<note>$',
  ],
  [
    'the soprano of <place> has a pedal',
    '^(an |the |)inverted pedal( point|) (is found |is heard |occurs |appears |sounds |)in the (soprano|top voice|upper voice|top part) of <place>$',
  ],
  [
    'the <note> of <place> is not a chord tone',
    "^the <note> (in|of) <place> (is not|isn't) (part of|a member of|in|a note of|a tone of) the (chord|harmony)$",
    '^in <place>,? the <note> is not (part of|a member of|in|a note of|a chord tone of) the (chord|harmony)$',
    "^the <note> (is not|isn't) (part of|a member of|a note of|a tone of) the (chord|harmony) (in|of|at) <place>$",
    '^the <note> (in|of) <place> (lies|is|stands) outside the (chord|harmony)$',
    "^the <note> (in|of) <place> (does not|doesn't) belong to the (chord|harmony)$",
  ],
  [
    'the <note> of <place> is a chord tone',
    '^the <note> (in|of) <place> (is|belongs to|is part of|is a member of|is a note of) the (chord|harmony)$',
  ],
  [
    'the <note> of <place> is dissonant and is not prepared',
    '^the dissonant <note> (in|of) <place> is (unprepared|not prepared|without preparation)$',
    '^the <note> (in|of) <place> is an unprepared dissonance$',
  ],
  ['is not prepared', 'is (unprepared|without preparation|left unprepared)'],
  [
    'does not resolve',
    '(is unresolved|is left unresolved|remains unresolved|is not resolved|stays unresolved)',
  ],
  [
    'resolves down by step',
    '(resolves|is resolved) (downward|downwards|down|by falling|by descending|by stepping down) (by step|stepwise|a step|one step)',
    '(steps down|descends stepwise|falls stepwise) to its resolution',
  ],
  [
    'resolves up by step',
    '(resolves|is resolved) (upward|upwards|up|by rising) (by step|stepwise|a step|one step)',
  ],
  [
    'every non-chord tone of <place> is a passing tone',
    '^all (of the |the |)non-chord tones (in|of) <place> are passing tones$',
  ],
  [
    '<line> of <place> has a <one tone> and the <one tone> of <place> resolves to <note>',
    '^the <one tone> in <line> of <place> (falls|resolves|goes|moves|drops|descends|steps down) to <note>$',
  ],
  [
    'the <member> of <place> is a suspension',
    '^the <member> (in|of) <place> is (prepared as|treated as|introduced as|brought in as) a suspension$',
  ],
  [
    '<place> have a pedal on <note>',
    '^(the |a |)(low |high |deep |)<note> (sounds|is heard|is held|is kept|lies|acts|serves) as a pedal (point |note |)(in|through|throughout|during|over|under|beneath|below) <place>$',
  ],
  [
    '<line> of <place> has a <word> pedal',
    '^a <word> pedal (point |)is (sustained|held|kept|heard|found|maintained|kept up) in <line> (of|in|through|throughout|during) <place>$',
  ],
  [
    'the <tone> of bar <one number> beat <other number>',
    '^the <tone> (on|in|at) bar <one number> beat <other number>',
  ],
  [
    '<place> have a pedal on <note>',
    '^a pedal on <note> (runs|lies|sounds|is held|is heard|continues|extends) (under|beneath|below|through|throughout) <place>$',
  ],
];
