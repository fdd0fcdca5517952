import type { Turn } from './turn.js';

/** Single notes: where they lie, where they come from and where they go. */
export const noteTurns: readonly Turn[] = [
  // Octaves are counted from middle C (MusicXML 4.0, type octave).
  ['C5', 'the C above middle C'],
  ['C3', 'the C below middle C'],
  ['<note>4', 'the <note> above middle C', 'middle <note>'],
  ['<note>3', 'the <note> below middle C'],
  [
    'is in <line>',
    '(is found|is heard|can be heard|is placed|is located|stands|sits|occurs) in <line>',
    '(is sung|is played|is taken|is held) by <line>',
    '(is given|is assigned|belongs|falls|goes) to <line>',
  ],
  ['the <note> in <line>', "<line>'s <note>", '<line> note <note>'],
  [
    'bar <number> has <note> and bar <other number> has <other note>',
    'the <note> (in|of) (bar|m.|measure) <number> (becomes|turns into|changes to|is raised to|is lowered to|gives way to) <other note> in (bar|m.|measure) <other number>',
  ],
  [
    'bars <number>-<other number> have a cross relation between <note> and <other note>',
    'there is a (cross|false) relation between the <note> (of|in) bar <number> and the <other note> (of|in) bar <other number>',
  ],
  [
    'bars <number>-<other number> have a cross relation between <note> and <other note> and <line> of bar <number> has <note> and <other line> of bar <other number> has <other note>',
    '<note> in <line> of bar <number> and <other note> in <other line> of bar <other number> (make|form|are|cause|create) a (cross|false) relation',
    'the <note> in <line> of bar <number> and the <other note> in <other line> of bar <other number> (make|form|are|cause|create) a (cross|false) relation',
  ],
  ['the leading tone in <line>', "<line>'s leading (note|tone)"],
  ['the <note> in the top line of <place>', 'the <note> at the top of <place>'],
  ['the <note> in the bass of <place>', 'the <note> at the bottom of <place>'],
  [
    'the <note> in <line> of bar <other number> is a suspension and bar <number> has <note>',
    "<line>'s <note> is (suspended|held over) from (bar|m.|measure) <number> (into|to|over) (bar |m. |measure |)<other number>",
    'the <note> in <line> of (bar|m.|measure) <number> is suspended (into|over into|over to) (bar|m.|measure) <other number>',
    'the <note> in <line> (of|in) (bar|m.|measure) <number> is (held over|tied over|held) as a suspension (into|in) (bar|m.|measure) <other number>',
  ],
  [
    'the <note> of bar <other number> is a suspension and bar <number> has <note>',
    'the <note> (of|in) (bar|m.|measure) <number> is suspended (into|over into|over to) (bar|m.|measure) <other number>',
    'the <note> (of|in) (bar|m.|measure) <number> is (held over|tied over|held) as a suspension (into|in) (bar|m.|measure) <other number>',
  ],
  ['is tied into', 'is (tied|held) over (into|to)'],
  [
    '<place> has a <words> suspension in <line> and the <words> suspension of <place> resolves to <rest>',
    '(a|the) <words> suspension in <line> (delays|holds up|postpones|resolves to) <rest> in <place>$',
  ],
  [
    '<place> has a <words> suspension in <line> and the <words> suspension of <place> resolves to <rest>',
    'the <words> suspension in <line> of <place> resolves to <rest>$',
  ],
  ['and is left', 'and (left|quitted)'],
  ['is approached by leap', 'is (leapt to|leaped to|reached by leap|reached by a leap|entered by leap)'],
  ['is left by leap', '(leaps|jumps|skips) away'],
  [
    'is a non-chord tone',
    '(does not belong to|is not part of|is not in|is foreign to|is not a member of|is dissonant with) the (chord|harmony)',
  ],
  [
    'the <note> of <place> is the third of the chord and <place> has a Picardy third',
    'the <note> (in|of) <place> is (a|the) Picardy third',
    'the Picardy third is the <note> (in|of) <place>',
  ],
  [
    'is the seventh of the chord',
    '(adds the|is the|provides the|supplies the|makes the) seventh (to|of) the (dominant|chord|harmony)',
    'is the seventh$',
  ],
  ['the first <words>', 'the very first <words>'],
];
