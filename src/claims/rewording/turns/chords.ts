import type { Turn } from './turn.js';

/** Chords: their tones, their places, their names. */
export const chordTurns: readonly Turn[] = [
  [
    '<place> is',
    '^stacked in thirds,? <place> (gives|makes|forms|yields|becomes|is)',
    '^the (notes|tones|pitches) (of|in) <place> (add up to|make up|form|make|spell|spell out|yield|give|combine into|combine to form|stack up to|together form|together make)',
    '<place> (adds up to|spells|spells out|yields|outlines)',
  ],
  ['<numeral> of <place>', '<numeral> (used |heard |found |)(in|on|at) <place>'],
  [
    'chord on <note>',
    'chord (built|formed|constructed|erected|based|rooted|founded|stacked) (on|upon|above|over) (the |a |)<note>',
  ],
  ['seventh on <note>', 'seventh (built|formed|based|rooted) (on|upon|above|over) (the |a |)<note>'],
  ['triad on <note>', 'triad (built|formed|based|rooted) (on|upon|above|over) (the |a |)<note>'],
  ['sixth chord on <note>', 'sixth (built|formed|based) (on|upon|above|over) (the |a |)<note>'],
  [
    '<place> is a <note> <words> chord',
    '^the chord (built |formed |)on <note> in <place> is (a |an |)<words>( chord|)$',
    '^the <words> (chord|triad) (in|of) <place> (is|stands) (built |formed |based |)on <note>$',
  ],
  [
    '<place> is a <note> <words> triad',
    '^the triad (built |formed |)on <note> in <place> is (a |an |)<words>( triad|)$',
  ],
  [
    'is in first inversion',
    '(has|have) (its|the) third (of the chord |)(in the bass|at the bottom|in the lowest voice|as its lowest note|as the lowest note|as its bass|as the bass|in the bottom voice)',
    '(stands|is|sits|rests) (on|over) (its|the) third',
  ],
  [
    'is in second inversion',
    '(has|have) (its|the) fifth (of the chord |)(in the bass|at the bottom|in the lowest voice|as its lowest note|as the lowest note|as its bass|as the bass|in the bottom voice)',
    '(stands|is|sits|rests) (on|over) (its|the) fifth',
  ],
  [
    'is in third inversion',
    '(has|have) (its|the) seventh (of the chord |)(in the bass|at the bottom|in the lowest voice|as its lowest note|as the lowest note|as its bass|as the bass|in the bottom voice)',
    '(stands|is|sits|rests) (on|over) (its|the) seventh',
  ],
  [
    'is in root position',
    '(has|have) (its|the) root (of the chord |)(in the bass|at the bottom|in the lowest voice|as its lowest note|as the lowest note|as its bass|as the bass|in the bottom voice)',
    '(stands|is|sits|rests) (on|over) (its|the) root',
  ],
  [
    '<place> is in first inversion',
    "^(the chord's|the|its) third (of the chord |)(lies|is|sits|stands) (in the bass|at the bottom|in the lowest voice|in the bottom voice) (in|of|at) <place>$",
    "^in <place>,? (the chord's|the|its) third (of the chord |)(lies|is|sits|stands) (in the bass|at the bottom|in the lowest voice|in the bottom voice)$",
    '^<place> is (not in root position but in first inversion)$',
  ],
  [
    '<place> is in second inversion',
    "^(the chord's|the|its) fifth (of the chord |)(lies|is|sits|stands) (in the bass|at the bottom|in the lowest voice|in the bottom voice) (in|of|at) <place>$",
    "^in <place>,? (the chord's|the|its) fifth (of the chord |)(lies|is|sits|stands) (in the bass|at the bottom|in the lowest voice|in the bottom voice)$",
  ],
  [
    '<place> is in third inversion',
    "^(the chord's|the|its) seventh (of the chord |)(lies|is|sits|stands) (in the bass|at the bottom|in the lowest voice|in the bottom voice) (in|of|at) <place>$",
    "^in <place>,? (the chord's|the|its) seventh (of the chord |)(lies|is|sits|stands) (in the bass|at the bottom|in the lowest voice|in the bottom voice)$",
  ],
  [
    '<place> is in root position',
    "^(the chord's|the|its) root (of the chord |)(lies|is|sits|stands) (in the bass|at the bottom|in the lowest voice|in the bottom voice) (in|of|at) <place>$",
    "^in <place>,? (the chord's|the|its) root (of the chord |)(lies|is|sits|stands) (in the bass|at the bottom|in the lowest voice|in the bottom voice)$",
  ],
  ['is a root-position <words>', 'is an? <words> (with (its|the) root in the bass|in root position)$'],
  [
    '<place> doubles its <member>',
    '^the (chord|triad|harmony) (of|in|at) <place> (has|shows) (a doubled|two) <member>s?$',
    '^the <member> (of the chord |of the triad |of the harmony |)(in|of) <place> (is|gets|appears|occurs) (doubled|twice)$',
    '^the <member> (of the chord |of the triad |of the harmony |)(is|gets|appears|occurs) (doubled|twice) in <place>$',
    '^in <place>,? (the composer doubles|we double|they double) (the|its) <member>$',
    '^in <place>,? the <member> (of the chord |of the triad |)(is|gets) doubled$',
    '^<place> (has|contains|features|shows) (a doubled|two) <member>s?$',
    '^a doubled <member> (is heard|is found|occurs|appears) in <place>$',
  ],
  ['is an augmented triad', 'is an augmented chord'],
  [
    '<place> is in close position',
    '^<place> is (written|voiced|spaced|set|laid out) (in close position|closely|in close harmony)$',
    '^the (upper voices|upper parts|voices|parts) (of|in) <place> are (in|set in|written in|voiced in|spaced in) close (position|harmony|spacing)$',
    '^<place> (has|uses|shows) close (position|spacing|harmony)$',
  ],
  [
    '<place> is in open position',
    '^<place> is (written|voiced|spaced|set|laid out) in open (position|spacing|harmony)$',
    '^the (upper voices|upper parts|voices|parts) (of|in) <place> are (in|set in|written in|voiced in|spaced in) open (position|harmony|spacing)$',
    '^<place> (has|uses|shows) open (position|spacing|harmony)$',
  ],
  [
    'dominant seventh chord',
    '(major-minor seventh|major–minor seventh|major minor seventh) chord',
    '(major-minor seventh|major–minor seventh|major minor seventh)',
  ],
  [
    'is a <word> augmented sixth chord',
    'is of the <word> (variety|type|kind|sort)',
    'is the <word> (variety|type|kind)',
  ],
  [
    '<place> is a <word> augmented sixth chord',
    '^the augmented sixth (chord |)(in|of|at) <place> is (an? |the |of the |)<word>( sixth| type| kind| variety| sort| one|)$',
  ],
  ['<place> begins on', '^<place> (is opened|opens|begins|starts) (by|with|on) '],
  ['<place> begins on <words>', '^<words> (opens|begins|starts|launches|introduces) <place>$'],
  ['<place> ends on <words>', '^<words> (closes|ends|concludes|finishes|rounds off) <place>$'],
  [
    '<place> has no third',
    '^<place> has only (the |its |a |)root and (the |its |a |)fifth$',
    '^<place> (is|has) an? (bare|empty|hollow|open) fifth$',
  ],
  ['has no third', 'has no third,? (only|just) (a |the |)root and (a |the |)fifth'],
  ['<place> is the <word> chord', "^<place>'s (chord|harmony) is the <word>$"],
  [
    '<place> is',
    "^<place>'s (chord|harmony|triad|sonority) is",
    '^the (sonority|simultaneity|verticality) (in|of|at) <place> is',
  ],
  [
    'the <word> chord of <place> is in <words> inversion',
    '^the <word> (in|of) <place> is in <words> inversion$',
  ],
  ['<place> is a <words>, in <word> inversion', '^an? <words>,? <place>,? <word> inversion$'],
  [
    'has no <member>',
    '(is voiced|is written|stands|is spaced|appears|sounds|comes) without (a|an|its|the|any) <member>',
  ],
  ['the last chord', 'the (final|closing) (sonority|harmony|chord)'],
  ['has no third', '(is|becomes) (a|an) (bare|empty|hollow) fifth'],
  [
    '<place> go <words>',
    '^<words> are the (chords|harmonies) (of|in) <place>$',
    '^the (chords|harmonies) (of|in) <place> (run|go|read|succeed each other as|follow as) <words>$',
  ],
];
