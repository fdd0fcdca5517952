import type { Turn } from './turn.js';

/** Chords, keys and cadences. */
export const harmonyTurns: readonly Turn[] = [
  [
    '<place> has the major subdominant chord and <other place> has the minor subdominant chord',
    '(the |)major (subdominant|IV) (of|in) <place> (turns|becomes|changes to|goes to|turns into) (the |)minor [subdominant |iv ](in|of) <other place>',
  ],
  [
    '<place> go IV iv',
    '^in <place> (the |)major (IV|subdominant) (turns into|becomes|changes to|goes to|is followed by) (the |)minor (iv|subdominant)$',
  ],
  [
    'is the pivot chord and is <numeral> in <one words> and is <other numeral> in <rest>',
    'is (the|a) (pivot|pivot chord|common chord)(:|,|;| -| –| —) <numeral> in <one words>(,|,| and|;) <other numeral> in <rest>$',
  ],
  [
    'is <numeral> in <one words> and is <other numeral> in <rest>',
    'is <numeral> in <one words>(,|, but|, and| but| and becomes|, becoming| becoming) <other numeral> in <rest>$',
  ],
  [
    'stays in <key>',
    '(stays|remains|is|keeps) in <key> (throughout|all the way through|all through|from beginning to end|from start to finish|from first to last)',
  ],
  [
    'stay in <key>',
    '(stay|remain|are|keep) in <key> (throughout|all the way through|all through|from beginning to end|from start to finish|from first to last)',
  ],
  [
    'modulates from <key> to <other key>',
    '(takes us|leads us|leads|moves|goes|travels) from <key> to <other key>',
  ],
  ['begins on a <word> chord', '(begins|opens|starts) (on|with) <word>$'],
  ['ends on a <word> chord', '(ends|closes|finishes) (on|with) <word>$'],
  [
    '<place> has a cadence in <key>',
    'the cadence (in|at|of) <place> (confirms|establishes|settles|is in|closes in) <key>',
    '<key> is (confirmed|established) by (a|the) cadence in <place>',
  ],
  [
    'are a falling sequence by seconds',
    'are a (descending|falling) sequence(,|) each (bar|statement|unit|member|limb|leg|copy) a (step|second|tone) lower than the (last|one before|previous one|previous|first)',
  ],
  [
    'are a rising sequence by seconds',
    'are (an ascending|a rising) sequence(,|) each (bar|statement|unit|member|limb|leg|copy) a (step|second|tone) higher than the (last|one before|previous one|previous|first)',
  ],
  [
    'the <words> of <place> is preceded by <numeral>',
    '<numeral> (comes|appears|stands|is heard|occurs) (right |just |directly |immediately |)before the <words> (in|of|at) <place>',
  ],
  [
    'the <other words> of <place> is preceded by the <words>',
    'the <words> (comes|appears|stands|is heard|occurs) (right |just |directly |immediately |)before the <other words> (in|of|at) <place>',
  ],
  [
    'the <numeral> of <place> is preceded by <one numeral> and is followed by <other numeral>',
    '(the |the passing |a passing |)<numeral> (in|of|at) <place> (connects|links|joins|leads from|passes between|passes from) <one numeral> (to|and|with) <other numeral>',
  ],
  [
    'the <numeral> of <place> is a passing chord and is preceded by <one numeral> and is followed by <other numeral>',
    '(the |)<numeral> (in|of|at) <place> is a passing chord (between|from) <one numeral> (and|to) <other numeral>',
  ],
  [
    '<place> has a passing <numeral> and the <numeral> of <place> is preceded by <one numeral> and is followed by <other numeral>',
    'the passing <numeral> (in|of) <place> (connects|links|joins) <one numeral> (to|and|with) <other numeral>',
  ],
  ['<place> has a <numeral>', 'the passing <numeral> (in|of) <place>$'],
  ['the <numeral> of <place> <rest>', '^in <place>(,|) (the |chord |the chord |)<numeral> <rest>$'],
  [
    '<place> tonicizes <numeral> and has <other numeral>/<numeral>',
    '<numeral> is (tonicized|tonicised) in <place> (by|through|with) its (own |)<other numeral>',
  ],
  [
    '<place> has 1 chord',
    '<place> (stays on|keeps to|remains on|dwells on|has only|is all|is built on|is) (one|a single) (harmony|chord)[ throughout| all through]',
    '<place> has (no change of harmony|only one harmony)',
  ],
  [
    '<place> has <number> chords',
    '<place> has <number> (different|separate|distinct) (chords|harmonies)',
    'there are <number> (different |)(chords|harmonies) in <place>',
  ],
  ['quickens', '(speeds up|accelerates|gets faster|becomes faster|picks up|increases)'],
  [
    'the harmonic rhythm of <place> quickens and <place> has <words> a beat',
    'the harmonic rhythm (speeds up|quickens|accelerates) in <place> to <words> (per|a|on each|on every) beat',
  ],
  [
    'the harmonic rhythm of <place> quickens and <place> has <words> a bar',
    'the harmonic rhythm (speeds up|quickens|accelerates) in <place> to <words> (per|a|in each|in every) (bar|measure)',
  ],
  ['the harmonic rhythm of <place> <rest>', 'the harmonic rhythm <rest> in <place>$'],
  [
    '<place> is a deceptive cadence',
    'instead of (the|an) (expected |)tonic(,|) <place> (brings|has|gives us|gives|goes to) (VI|vi)',
    '<place> (brings|has|gives us|gives|goes to) (VI|vi) instead of (the|an) (expected |)tonic',
  ],
  [
    'the <note> of <place> is the third of the chord and <place> has a Picardy third',
    'the <note> (of|in|at) <place> is (a|the) (Picardy third|tierce de Picardie)',
  ],
  ['<place> has a Picardy third', 'the Picardy third (is|comes|occurs|stands) (in|at) <place>'],
  ['plagal cadence', 'plagal (ending|close)', 'amen cadence', 'Amen cadence'],
  [
    '<place> has <words>',
    '(a|the) <words> (closes|ends|concludes|rounds off|finishes) (the|this) (phrase|section|passage|period|piece|strain) (in|at) <place>',
  ],
  [
    '<place> is a <words>',
    '(a|the) <words> (closes|ends|concludes|rounds off|finishes) (the|this) (phrase|section|passage|period|piece|strain) (in|at) <place>',
  ],
  [
    '<place> has a <words>',
    '(a|an|the) <words> (arrives|comes|occurs|happens|takes place|is found|is heard|falls|appears|stands) (in|at) <place>$',
  ],
  [
    '<place> returns to the tonic key and <place> has a <words>',
    '^(we|the music|the piece|it) (return|returns|come back|comes back|get back|gets back) to the (tonic|home|original|main) key (with|by) (a|an) <words> in <place>$',
  ],
  ['are closely related', '(belong to|stand in) (closely related|neighbouring|neighboring) keys'],
  ['<other key> is the <word> of <key>', 'the (relative |parallel |)<word> of <key> is <other key>'],
  ['has a <words> seventh chord', '(contains|has|uses|features) <words> (sevenths|seventh chords)'],
  ['have a <words> seventh chord', '(contain|have|use|feature) <words> (sevenths|seventh chords)'],
  [
    '<place> is a <word> chord',
    '(the bass (of|in|at) |the bass note (of|in|at) |the chord (of|in|at) |)<place> (is|would be|can be|should be|might be) figured (as |)<word>$',
  ],
  [
    '<place> goes <one numeral> <numeral> <other numeral>',
    '<place> (goes|moves|passes|leads) from <one numeral> (through|via|by way of) <numeral> to <other numeral>',
  ],
  ['<place> prolongs <words>', '<place> (extends|expands|draws out|sustains) the <words>'],
  [
    '<place> is a half cadence and <place> has a cadential six-four',
    '<place> is a half cadence (embellished|decorated|ornamented|prepared|delayed) (by|with) (a|the) cadential (six-four|6/4)',
  ],
  ['has an <words> triad', 'has (a |)(complete|full) <words> (triad|chord)'],
  ['<place> is <numeral>', '<place> is (harmonised|harmonized|set) (by|with|as) <numeral>'],
  ['<place> begins on a', '<place> begins with (a|an)'],
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
  ['<place> has <numeral>', '^<numeral> (is|comes|stands|sounds|is heard|is found) (in|on|at) <place>$'],
  ['have the same chord', '(share|have) the same harmony'],
  ['has the same chord', '(shares|has) the same harmony'],
  ['<one words> goes to <numeral>', '<one words> (goes|comes|moves|leads|returns|falls) back to <numeral>'],
  ['the <words> of <place> resolves to <rest>', '^in <place>,? the <words> resolves to <rest>$'],
  [
    'bar <number> beat 1 has the same chord as bar <other number> beat 1',
    'bar <number> begins (with|on) the same (chord|harmony) as bar <other number>',
  ],
  [
    'the last chord has no <member>',
    'the <member> (of the chord |)(is missing|is absent|is left out|is omitted) (from|in) the last chord',
  ],
  ['followed by a <words> seventh chord', 'followed by (a|an|the) <words> seventh$'],
  ['modulate to the key of v', 'modulate to the minor dominant( key|)$'],
  ['modulates to the key of v', 'modulates to the minor dominant( key|)$'],
];
