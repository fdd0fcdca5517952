/**
 * Turns of phrase, each as it is read: first what the grammar knows, then what teachers also say for it. Both mean the same; what would
 * be a guess does not belong here. Notation: see pattern.ts. Wording: common practice of classrooms, British and American.
 */
export const turns: readonly (readonly [meant: string, ...said: string[]])[] = [
  // The piece and its parts.
  [
    'the piece',
    'the (hymn|song|tune|chorale|waltz|minuet|adagio|movement|excerpt|example|music|work|score|setting)',
  ],
  [
    '<place>',
    'the (passage|music|stretch|chord|harmony|chords|harmonies|section|phrase) (of|in|from|at) <place>',
  ],
  [
    'in <place>',
    'at the (cadence|close|chord) (of|in) <place>',
    '(across|within|inside|over the course of|all through|right through|all the way through) <place>',
  ],
  [
    'in bars <number>-<other number>',
    'between (bar|bars|measures|mm.|m.) <number> and (bar |measure |m. |)<other number>',
    'from (bar|measure|m.) <number> (to|into|through) (bar |measure |m. |)<other number>',
  ],
  ['the last bar', 'the (final|closing) (bar|measure)', 'the end of the piece'],
  ['the last chord', 'the (final|closing) (chord|harmony)'],
  ['the second half of the piece', 'the second (section|strain|reprise|part)', 'the B section'],
  ['the first half of the piece', 'the first (section|strain|reprise|part)', 'the A section'],
  // Small words that say nothing about the notes.
  [
    '',
    '(just|simply|clearly|plainly|neatly|entirely|altogether|indeed|actually|also|again|then|thus|now|here|immediately|straight away|at once|straight|directly|duly|quickly|briefly)',
  ],
  [
    '<rest>$',
    '^(and|so|then|now|next|here|notice that|note that|observe that|we hear that|we have|we find|you can see that|you can hear that),? <rest>$',
  ],
  // What a place or a chord is.
  [
    'is',
    '(forms|makes|constitutes|functions as|serves as|acts as|works as|counts as|amounts to|turns out to be|can be heard as|can be labelled|is labelled|is called|is heard as|would be)',
  ],
  [
    'are',
    '(form|make|constitute|function as|serve as|act as|work as|count as|amount to|turn out to be|can be heard as|are called|are heard as)',
  ],
  [
    'has',
    '(contains|features|includes|uses|shows|presents|brings|employs|makes use of|consists of|opens out into)',
  ],
  ['have', '(contain|feature|include|use|show|present|bring|employ|make use of|consist of)'],
  ['begins', '(opens|starts|commences|sets out|sets off)'],
  ['begin', '(open|start|commence|set out|set off)'],
  ['ends', '(finishes|concludes|closes|comes to rest|comes to a close|comes to an end|stops)'],
  ['end', '(finish|conclude|close|come to rest|come to a close|come to an end|stop)'],
  ['returns', '(comes back|reappears|recurs|is heard again|is back|comes again)'],
  ['begins with', 'begins on'],
  ['rises', '(climbs|ascends|goes up|moves up|steps up|slides up|is pulled up|pulls up)'],
  ['falls', '(descends|drops|sinks|goes down|moves down|steps down|slides down)'],
  ['rise', '(climb|ascend|go up|move up|slide up)'],
  ['fall', '(descend|drop|sink|go down|move down|slide down)'],
  ['goes from', '(moves|passes|proceeds|progresses|leads|shifts|changes|travels|runs) from'],
  ['go from', '(move|pass|proceed|progress|lead|shift|change|travel|run) from'],
  ['goes to', '(moves|passes|proceeds|progresses|leads|shifts|leads on|moves on|goes on|gives way) to'],
  ['go to', '(move|pass|proceed|progress|lead|shift|lead on|move on|go on|give way) to'],
  ['<line> of <place>', "<place>'s <line>", '<line> in <place>'],
  ['resolves', '(is resolved|finds its resolution|gets resolved)'],
  ['is approached by', 'is (prepared|preceded|introduced|reached|led into) by'],
  ['<numeral> comes before <place>', '<place> is (approached|reached|prepared|preceded) (from|by) <numeral>'],
  [
    'modulates to <key>',
    '(moves|goes|passes|turns|swings|travels) (into|to) <key>',
    'takes us (into|to) <key>',
  ],
  ['<one numeral> and <other numeral>', '<one numeral> followed by <other numeral>'],
  ['<one numeral> <other numeral>', '<one numeral> then <other numeral>'],
  [
    '<place> goes <one numeral> <other numeral>',
    '<place> (is|are) <one numeral> (to|then|followed by|moving to|going to) <other numeral>',
  ],
  ['<words> and resolves to <rest>', '<words> (resolving|which resolves|that resolves) to <rest>'],
  [
    '<words> and goes to <rest>',
    '<words> (moving|going|leading|which goes|that goes|which leads|that leads) to <rest>',
  ],
  ['is <note>', 'is (the note|an?|the) <note>'],
];
