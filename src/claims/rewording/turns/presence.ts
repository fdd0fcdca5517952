import type { Turn } from './turn.js';

/** What stands somewhere, whoever hears, finds or meets it there. */
export const presenceTurns: readonly Turn[] = [
  [
    '<place> has <rest>',
    '^(in|at|on|by|throughout|during) <place>,? (we|you|one)( can| will| may| do| should|) (hear|find|encounter|meet|see|get|have|notice|observe|hears|finds|encounters|meets|sees|gets|has) <rest>$',
    "^(in|at|on|throughout|during) <place>,? you'll (hear|find|encounter|meet|see|get|have|notice) <rest>$",
    "^(in|at|on|throughout|during) <place>,? (there is|there's|there are|there're|there appears|there occurs|comes|stands|appears|occurs|sounds) <rest>$",
  ],
  [
    '<place> has <words>',
    '^(we|you|one)( can| will| may| do| should|) (hear|find|encounter|meet|see|get|have|notice|observe|hears|finds|meets|sees|gets|has) <words> (in|at|on|throughout|during) <place>$',
    "^you'll (hear|find|encounter|meet|see|get|have|notice) <words> (in|at|on|throughout|during) <place>$",
    '^(in|at|on|throughout|during) <place>,? <words> (is|are|can be|may be|gets|get) (heard|found|met|used|seen|present|played|sounded|encountered|introduced|employed|to be found|to be heard)$',
    '^(in|at|on|throughout|during) <place>,? <words> (sounds|sound|occurs|occur|appears|appear|is there|comes|crops up|turns up)$',
    '^<words> (is|are|can be|may be|gets|get) (heard|found|met|used|seen|present|played|sounded|encountered|introduced|employed|to be found|to be heard) (in|at|on|throughout|during) <place>$',
    '^<words> (sounds|sound|crops up|turns up|turn up|is there|follows|exists|stands|is sounding|sits) (in|at|on|throughout) <place>$',
  ],
  ['<place> has a <words>', '^<place> (contains|has|uses|shows) the use of (a|an) <words>$'],
  [
    '<line> of <place> has <words>',
    '^<words> (is|are|can be) (heard|found|used|seen|present|played|sounded|to be found|to be heard) in <line> (in|of|at) <place>$',
    '^<words> (sounds|sound|appears|appear|occurs|occur|stands|lies) in <line> (in|of|at) <place>$',
    '^in <line> of <place>,? (there is|there are|we hear|we find|we have|you hear) <words>$',
  ],
  [
    '<place> has no <words>',
    '^<place> (is|are) (without|free of|free from|lacking) (a |an |any |)<words>$',
    '^<words> (is|are) (absent|missing|lacking|wanting|omitted|left out) (in|from) <place>$',
    '^in <place>,? <words> (does not|do not|never|does never) (appear|appears|occur|occurs|sound|sounds|come)$',
    "^in <place>,? <words> (doesn't|don't) (appear|occur|sound|come)$",
    '^<words> (is|are) (not heard|not found|not used|not present|never heard|never used) in <place>$',
    "^<words> (isn't|aren't) (heard|found|used|present|played) in <place>$",
    '^(there is|there are) not (a single|one|any) <words> in <place>$',
    "^there (isn't|aren't) (a single|one|any|an|a) <words> in <place>$",
    '^<place> (does not|do not) (contain|have|use|include) any <words>$',
    "^<place> (doesn't|don't) (contain|have|use|include) any <words>$",
    '^no <words> (occur|occurs|appear|appears|sound|sounds|is heard|are heard|is found|are found|is used|are used|is present|are present) anywhere in <place>$',
    '^no <words> (occur|occurs|appear|appears|sound|sounds|is heard|are heard|is found|are found|is used|are used|is present|are present) in <place>$',
  ],
  [
    'the first <words> of the piece is in <place>',
    '^(we get |we hear |we have |we meet |)(our|the) first <words> (in|at) <place>$',
    '^(the|our) first <words> (occurs|appears|comes|is heard|is found|falls|stands|arrives|does not come until|does not appear until|does not occur until|comes only|appears only|is not heard until) (in|at|on|) <place>$',
    "^(the|our) first <words> (doesn't come until|doesn't appear until|doesn't arrive until|doesn't occur until|isn't heard until) <place>$",
    '^the first <words> (does not come until|does not appear until|does not arrive until|does not occur until|is not heard until|is not until) <place>$',
    "^(there is|there's|we hear|we have|you hear) no <words> (until|before) <place>$",
    '^<place> (has|brings|contains|is|gives|gives us|presents|introduces|sees) the first <words>$',
  ],
  [
    'the first note <note> of the piece is in <place>',
    '^<note> (appears|occurs|sounds|is heard|comes|enters|is used|is introduced) for the first time (in|on|at) <place>$',
    '^<note> first (appears|occurs|sounds|is heard|comes|enters) (in|on|at) <place>$',
    '^the first <note>( of the piece|) (is|appears|occurs|comes|is heard) (in|on|at) <place>$',
  ],
  [
    'the first <words> of the piece is in <place>',
    '^(the|a|an) <words> (appears|occurs|sounds|is heard|comes|enters|is used|is introduced|arrives) for the first time (in|on|at) <place>$',
    '^(the|a|an) <words> first (appears|occurs|sounds|is heard|comes|enters|arrives) (in|on|at) <place>$',
  ],
  [
    '<line> of <place> has <words>',
    '^(we|you|one) (hear|find|encounter|meet|see|get|have|notice|hears|finds|sees) <words> in <line> (of|in|at) <place>$',
  ],
];
