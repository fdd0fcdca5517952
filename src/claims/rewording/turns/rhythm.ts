import type { Turn } from './turn.js';

/** Durations, metre, texture and figuration. */
export const rhythmTurns: readonly Turn[] = [
  [
    '<line> of <place> plays broken chords and <line> of <place> plays <words>',
    '<line> plays broken chords in (continuous |constant |steady |even |)<words> (in|of|from|during|throughout) <place>$',
  ],
  [
    '<line> plays broken chords and <line> plays <word>',
    '<line> plays broken chords in (continuous |constant |steady |even |)<word>$',
  ],
  [
    '<line> plays broken chords and <line> plays <word> notes',
    '<line> plays broken chords in (continuous |constant |steady |even |)<word> notes$',
  ],
  [
    '<place> has a dotted rhythm',
    'the rhythm (of|in) <place> is dotted',
    '<place> (is|moves) in dotted rhythm',
  ],
  [
    'has only',
    '(has|plays|has only|plays only) (continuous|steady|running|unbroken|constant|flowing|even|a steady stream of|a continuous stream of|an unbroken stream of|nothing but)',
  ],
  [
    'moves in',
    '(moves|runs|goes|plays|proceeds) in (continuous|steady|running|unbroken|constant|flowing|even)',
  ],
  ['is in', 'is in (continuous|steady|running|unbroken|constant|flowing|even)'],
  [
    'has <number> notes a bar and has only <words>',
    '(has|plays|sings|strikes) <number> <words> (per|a|to a|in each|in every|to the) (bar|measure)',
  ],
  [
    'has only <words>',
    '(has|uses|plays|sings) <words> (only|alone|throughout)',
    'moves in <words> (only|alone|throughout)',
  ],
  [
    'mostly',
    '(mainly|largely|chiefly|for the most part|predominantly|almost always|almost entirely|generally|mostly)',
  ],
];
