import type { Turn } from './turn.js';

/** The piece and its parts. */
export const partTurns: readonly Turn[] = [
  ['the piece', 'the (hymn|song|tune|chorale|adagio|movement|excerpt|example|music|work|score|setting)'],
  ['<place>', 'the (passage|stretch|chord|harmony|chords|harmonies|section|phrase) (of|in|from|at) <place>'],
  [
    'in <place>',
    '(across|within|inside|over the course of|all through|right through|all the way through) <place>',
  ],
  [
    'in bars <number>-<other number>',
    'between (bar|bars|measures|mm.|m.) <number> and (bar |measure |m. |)<other number>',
    'from (bar|measure|m.) <number> (to|into|through) (bar |measure |m. |)<other number>',
  ],
  ['<place>', '^(in |)the music (of|in|from|at) <place>'],
  ['the last bar', 'the (final|closing) (bar|measure)', 'the end of the piece'],
  ['the last chord', 'the (final|closing) (chord|harmony)'],
  ['bars <number> and <other number>', 'both (bars|measures|mm.) <number> and <other number>'],
  ['<words> have <note>', '^<note> is heard in (every one of|each of|all of) <words>$'],
];
