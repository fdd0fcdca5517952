import type { Turn } from './turn.js';

/** Durations, metre, texture and figuration. */
export const rhythmTurns: readonly Turn[] = [
  [
    '<place> has a dotted rhythm',
    'the rhythm (of|in) <place> is dotted',
    '<place> (is|moves) in dotted rhythm',
  ],
];
