import type { Turn } from './turn.js';

/** Highest and lowest notes, compass and distance. */
export const registerTurns: readonly Turn[] = [
  [
    'the highest note of <line> is in <place>',
    '^<line> (reaches|attains|hits|gets to|has|touches|arrives at) its (highest|top|topmost) (note|pitch|tone|point) (in|on|at) <place>$',
    '^<line> (peaks|culminates|climaxes|is highest|is at its highest|goes highest) (in|on|at) <place>$',
    "^<line>'s (highest|top) note (is|comes|occurs|falls|stands|appears) (in|on|at) <place>$",
    '^the (climax|apex|peak|summit) of <line> (is|comes|occurs|falls|is reached|lies) (in|on|at) <place>$',
  ],
  [
    'the lowest note of <line> is in <place>',
    '^<line> (reaches|attains|hits|gets to|has|touches|arrives at) its (lowest|bottom) (note|pitch|tone|point) (in|on|at) <place>$',
    '^<line> (bottoms out|is lowest|is at its lowest|goes lowest) (in|on|at) <place>$',
    "^<line>'s (lowest|bottom) note (is|comes|occurs|falls|stands|appears) (in|on|at) <place>$",
  ],
  [
    'the highest note of the piece is in <place>',
    '^(in|on|at) <place> (we hear|we have|is|comes|stands|lies|there is|occurs) the highest note( of the piece| of all|)$',
    '^<place> (has|contains|brings|is where we hear|is home to) the highest note( of the piece| of all|)$',
  ],
  [
    'the lowest note of the piece is in <place>',
    '^(in|on|at) <place> (we hear|we have|is|comes|stands|lies|there is|occurs) the lowest note( of the piece| of all|)$',
    '^<place> (has|contains|brings|is where we hear|is home to) the lowest note( of the piece| of all|)$',
  ],
  [
    'the highest note of <line> is <note>',
    '^<note> is the (highest|top|topmost) (note|pitch) (of|in) <line>$',
    '^<line> (peaks|tops out|culminates) (at|on|with) <note>$',
  ],
  [
    'the lowest note of <line> is <note>',
    '^<note> is the (lowest|bottom) (note|pitch) (of|in) <line>$',
    '^<line> (bottoms out) (at|on) <note>$',
  ],
  ['C4', 'middle C'],
  [
    '<line> does not go above <note>',
    '^no note (in|of) <line> is higher than <note>$',
    '^no note (in|of) <line> (goes|lies|is|rises) above <note>$',
    '^<line> (does not|never) (exceeds?|passes|goes past|rises past|exceed|pass) <note>$',
    '^<line> never (gets|goes) higher than <note>$',
    '^<line> (goes|rises) no higher than <note>$',
  ],
  [
    '<line> does not go below <note>',
    '^no note (in|of) <line> is lower than <note>$',
    '^no note (in|of) <line> (goes|lies|is|falls) below <note>$',
    '^<line> never (gets|goes) lower than <note>$',
    '^<line> (goes|falls|drops) no lower than <note>$',
  ],
  [
    '<line> spans <words>',
    '^(the |)(ambitus|range|compass|tessitura|span) of <line> is <words>$',
    "^<line>'s (ambitus|range|compass|span) is <words>$",
    '^<line> (has|has got) (an ambitus|a range|a compass|a span) of <words>$',
    '^<line> (ranges over|extends over|extends through|moves within the range of|covers|encompasses|takes in) <words>$',
  ],
  [
    '<line> of <place> spans <words>',
    '^<line> (ranges over|extends over|extends through|covers|encompasses|has a range of) <words> in <place>$',
    '^(in|over|throughout) <place>,? <line> (ranges over|extends over|covers|encompasses|has a range of) <words>$',
  ],
  [
    'the lowest note of <line> is <one note> and the highest note of <line> is <other note>',
    '^<line> (ranges|extends|reaches) (between|from) <one note> (and|to|up to) <other note>$',
    '^the (range|compass|ambitus) of <line> (is|goes|extends|runs) (from |between |)<one note> (to|and|up to|-|–) <other note>$',
    "^<line>'s (range|compass) (is|goes) (from |between |)<one note> (to|and|up to) <other note>$",
  ],
  [
    '<line> does not go below <one note> and <line> does not go above <other note>',
    '^<line> (lies|moves|stays|sits|remains|keeps|is|always lies) (between|within) <one note> (and|to) <other note>$',
  ],
  [
    '<words> of <place> are <other words> apart',
    '^the (distance|gap|interval) between <words> (in|of|at|on) <place> is <other words>$',
    '^in <place>,? <words> (lie|stand|are|sound) <other words> apart$',
    '^<words> (lie|stand|sound|are spaced|are separated by) <other words>( apart|) (in|at|on) <place>$',
  ],
  [
    'the first note of <line> is the lowest note of <line>',
    '^<line> (begins|starts|opens) (on|with) its lowest (note|pitch)$',
  ],
  [
    'the last note of <line> is the highest note of <line>',
    '^<line> (ends|closes|finishes) (on|with) its highest (note|pitch)$',
  ],
  ['begins on', '(begins|starts) (high|low),? on'],
  [
    '<line> does not go above <note>',
    '^nowhere does <line> (go|rise|climb|reach|get) (above|over|higher than|beyond) <note>$',
    '^<line> (does not|never) (climb|rise|go|get|reach|climbs|rises|goes|gets|reaches) (higher than|over|beyond) <note>$',
  ],
  [
    '<line> does not go below <note>',
    '^nowhere does <line> (go|fall|drop|sink|get) (below|under|lower than|beneath) <note>$',
    '^<line> never (gets|goes|falls|drops|sinks) (below|under|beneath) <note>$',
  ],
  [
    'the lowest note of <line> is <note>',
    '^<line> (extends|reaches|goes|stretches) (down to|as low as|down as far as) <note>$',
  ],
  [
    'the highest note of <line> is <note>',
    '^<line> (extends|reaches|goes|stretches) (up to|as high as|up as far as) <note>$',
  ],
  ['of the piece is <note>', 'of the piece is (the |a |an |)(note |pitch )<note>'],
  ['<note> is the <word> note of the piece', "^<note> is the piece's <word> note$"],
  [
    'the highest note of <line> is in <place>',
    '^(in|at|on) <place>,? <line> (reaches|attains|hits|touches|arrives at|gets to) its (highest|top|peak) ?(note|pitch|tone|point|)$',
    '^the (top|peak|summit|high point) of <line> is (reached|attained|touched) (in|on|at) <place>$',
  ],
  ['stays above', '(lies|remains|keeps|moves|is) (entirely |wholly |always |completely |)above'],
  ['stays below', '(lies|remains|keeps|moves|is) (entirely |wholly |always |completely |)below'],
];
