import type { Turn } from './turn.js';

/** What is said of a place, a chord or a line: verbs for verbs. */
export const verbTurns: readonly Turn[] = [
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
  [
    'the cadential six-four of <place> resolves to <rest>',
    '<place> (is|has) a cadential (six-four|6/4) (resolving|which resolves|that resolves) to <rest>',
  ],
  ['<words> and resolves to <rest>', '<words> (resolving|which resolves|that resolves) to <rest>'],
  [
    '<words> and goes to <rest>',
    '<words> (moving|going|leading|which goes|that goes|which leads|that leads) to <rest>',
  ],
  ['is <note>', 'is (the note|a|an|the) <note>'],
];
