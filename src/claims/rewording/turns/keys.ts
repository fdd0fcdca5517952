import type { Turn } from './turn.js';

/** Keys, tonicizations and modulations. */
export const keyTurns: readonly Turn[] = [
  [
    '<place> stay in <key>',
    '^<place> (stay|stays|remain|remains|are|is) (firmly|squarely|solidly|securely|completely|wholly|entirely|throughout|still|rooted|anchored|steadily) in <key>$',
    '^<place> (do not leave|does not leave|never leave|never leaves|do not depart from|keep to|keeps to|stick to|sticks to|hold to) <key>$',
    '^(the music |the piece |the key |)(stays|remains) in <key> (throughout|through|for|during|in|all through|for the whole of|until the end of) <place>$',
  ],
  [
    '<place> is in <key>',
    '^(the music |the piece |we |it )(is|are|has arrived|have arrived|has reached|have reached|stands|lands|arrives|arrive) (in |at |)<key> (by|in|at) <place>$',
    '^by <place>,? (we have reached|we are in|we have arrived in|we have arrived at|the music is in|the music has reached|the piece has reached|we reach|we find ourselves in) <key>$',
    '^by the (time of|time we reach) <place>,? (we have reached|we are in|the music is in) <key>$',
    '^(in|at|from) <place>,? (we are in|the music is in|we find ourselves in|the key is) <key>$',
    '^<key> is the key of <place>$',
    '^the (key|tonality|local key|prevailing key) (of|in|for) <place> is <key>$',
    '^the (new |)key of <key> (is reached|arrives|is attained) (in|at|by) <place>$',
  ],
  [
    '<place> modulate to <words>',
    '^(the|a) modulation to <words> (is completed|takes place|happens|occurs|is achieved|is made|is carried out|is effected|is heard|is found) (in|by|over|at|within|during|across) <place>$',
    '^(in|over|during|by|within|across) <place>,? (the music|the piece|it|the key) (modulates|moves|changes key|shifts|turns|goes|changes) to <words>$',
    '^(the music|the piece|the key|we) (modulates|modulate|changes|changes key|shifts|changes over) to <words> (in|over|during|by|within|across|at) <place>$',
    '^<place> (makes|make|effects|effect|carry out|brings|bring|contain|contains|undergo|undergoes) a modulation to <words>$',
    '^<place> (change|changes) (key |)to <words>$',
  ],
  [
    '<place> modulate',
    '^(the|a) modulation (takes place|happens|occurs|is found|is heard) (in|over|at|within|during|across) <place>$',
    '^(the key changes|the key is changed|the music changes key|the music modulates|there is a change of key|a change of key occurs) (in|over|within|during|across) <place>$',
  ],
  [
    '<place> do not modulate',
    '^no modulation (occurs|takes place|happens|is heard|is found) in <place>$',
    '^there is no (modulation|change of key|key change) in <place>$',
    '^the key does not change in <place>$',
    '^<place> (makes|make|contain|contains|has|have) no (modulation|change of key)$',
  ],
  [
    '<place> tonicize <key>',
    '^<place> (are|is|make|makes|form|forms|bring|brings|contain|contains) a (brief |short |passing |momentary |quick |)(excursion|tonicization|tonicisation|visit|detour|move|digression) (to|of|into) <key>$',
    '^<place> (briefly |momentarily |only |merely |)(hint at|hints at|tonicise|tonicises|tonicises|brush|brushes) <key>$',
    '^<key> is (briefly |momentarily |)(tonicized|tonicised|touched on|touched upon|visited|hinted at) (in|over|by) <place>$',
    '^in <place>,? <key> is (briefly |momentarily |)(tonicized|tonicised|touched on|touched upon|visited)$',
  ],
  [
    '<place> tonicizes <key> and <place> does not modulate to <key>',
    '^<key> is (only|merely|just) (tonicized|tonicised|touched on|hinted at) in <place>$',
    '^in <place>,? <key> is (only|merely|just) (tonicized|tonicised|touched on)$',
    '^<place> (only|merely|just) (tonicizes|tonicises|touches on|tonicize|tonicise|touch on) <key>$',
    '^<place> (tonicizes|tonicises|tonicize|tonicise) <key>,? (but|without) (does not modulate|do not modulate|modulating|a modulation|never modulates)( to it| there|)$',
  ],
  [
    'bar <number> is <one numeral> in <one key> and <other numeral> in <other key>',
    '^(the |)<one numeral> of <one key> in bar <number> (becomes|is also|is reinterpreted as|turns into|is at the same time) <other numeral> (of|in) <other key>$',
    '^in bar <number>,? <one numeral> (of|in) <one key> (becomes|is also|is reinterpreted as|turns into) <other numeral> (of|in) <other key>$',
    '^bar <number>,? (is |)<one numeral> (of|in) <one key>,? (becomes|is also|is reinterpreted as|equals|=) <other numeral> (of|in) <other key>$',
  ],
  [
    'the piece modulates without a pivot chord',
    '^the modulation (is made|happens|takes place|is done|is effected|occurs|comes|works|is|proceeds) without (a |any |)pivot( chord|)$',
    '^(there is no|no) pivot chord (is used |)(for|in) the modulation$',
  ],
  ['the relative key of', 'the relative (major|minor) of'],
  [
    '<one key> is the relative key of <other key>',
    "^<other key>'s relative (major|minor|key) is <one key>$",
    '^the relative (major|minor|key) of <other key> is <one key>$',
  ],
  [
    '<one key> is the dominant key of <other key>',
    "^<other key>'s dominant( key|) is <one key>$",
    '^the dominant key of <other key> is <one key>$',
  ],
  [
    '<one key> is the subdominant key of <other key>',
    "^<other key>'s subdominant( key|) is <one key>$",
    '^the subdominant key of <other key> is <one key>$',
  ],
  ['in major', 'in (the major mode|major mode|the major|a major key)'],
  ['in minor', 'in (the minor mode|minor mode|the minor|a minor key)'],
  [
    'the piece ends with a Picardy third',
    '^(the piece |the music |)(ends|closes|concludes|finishes) (with|on) a (tierce de Picardie|Picardy|Picardy cadence|Picardy chord)$',
    '^a (tierce de Picardie|Picardy third) (ends|closes|concludes|finishes) the piece$',
    '^the piece (is ended|is closed) (by|with) a (tierce de Picardie|Picardy third)$',
  ],
  ['Picardy third', '(tierce de Picardie|tierce picarde|Picardie third)'],
  [
    '<place> returns to the tonic key',
    '^<place> (marks|brings|sees|has|makes) (the|a) (return|move back) (to|of) the (tonic|home|original|main|principal) key$',
    '^<place> brings (the |us |)(back |)(to |)the (tonic|home|original|main|principal) key( back|)$',
    '^(the music|the piece|we) (returns|return|comes back|come back|goes back|go back|is back|are back) (to|in) the (tonic|home|original|main|principal) key (in|at|by) <place>$',
    '^the return (to|of) the (tonic|home|original|main) key (comes|happens|occurs|takes place|is) (in|at) <place>$',
  ],
  ['<place> is in <key>', '^<place> (marks|brings|sees) (the|a) return (to|of) <key>$'],
  [
    'the piece has a key signature of',
    '^there (is|are) (a |)key signature of',
    '^the key signature (is|shows|contains|consists of)',
  ],
  [
    'the piece has a key signature of <words>',
    '^<words> (in|are in|make up|stand in) the key signature$',
    '^the key signature (is|shows|contains|consists of|carries) <words>$',
  ],
  [
    'no bar of the piece is in <key>',
    '^(the music|the piece|it) (is never|never is|is not ever) in <key>$',
    '^(the music|the piece|it) never (reaches|visits|goes to|touches|gets to) <key>$',
  ],
  [
    '<place> stay in the tonic key',
    '^<place> (do not leave|does not leave|never leave|never leaves|keep to|stick to|sticks to) the (tonic|home|main) key$',
  ],
  [
    '<one place> is in minor and <other place> is in major',
    '^<one place> is minor and <other place> (is |)major$',
  ],
  [
    'the piece begins in <one key> and the piece ends in <other key>',
    '^the piece (begins|starts|opens) in <one key> (and|but) (ends|closes|finishes|concludes) in <other key>$',
    '^the piece (moves|goes|travels|passes) from <one key> (at the beginning |)to <other key>( at the end|)$',
  ],
  [
    '<place> modulates to <key>',
    '^<place> (plunges|takes|leads|brings|carries|swings|drops|lands|launches|throws|moves|steers|guides|tips) us (into|to|in|towards) <key>$',
    '^<place> (plunges|swings|drops|lands|launches|steers|heads|breaks|opens out) (into|to|in|for) <key>$',
  ],
  [
    '<place> modulate to <rest>',
    '^<place> (lead|leads|move|moves|turn|turns) away from the (tonic|home key|tonic key) (to|into) <rest>$',
    '^the modulation (in|of) <place> (goes|is|leads|moves) to <rest>$',
    '^<place> (shift|shifts|change|changes|cross|crosses) over to <rest>$',
  ],
  [
    '<place> modulate from <one key> to <other key>',
    '^(a |the |)modulation from <one key> to <other key> (occurs|happens|takes place|is found|is heard) (in|over|within|during) <place>$',
  ],
  [
    'the piece does not modulate',
    '^the piece (stays|remains|is|keeps) in (one|the same|a single) key( throughout|)$',
    '^the piece never (modulates|changes key|leaves its key|leaves the tonic key|leaves the home key)$',
  ],
  [
    '<place> is in <key>',
    '^we (find ourselves|are|have arrived|have landed) (in|back in) <key> (in|at|by) <place>$',
    '^(in|at|by) <place>,? we are back in <key>$',
  ],
  ['in <key>', 'in the key of <key>'],
  [
    '<place> is in <key>',
    '^(by|in|at) <place>,? the music (has moved|has modulated|has gone|has got|has come) to <key>$',
  ],
];
