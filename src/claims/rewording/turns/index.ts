import { formTurns } from './form.js';
import { harmonyTurns } from './harmony.js';
import { lineTurns } from './lines.js';
import { noteTurns } from './notes.js';
import { partTurns } from './parts.js';
import { rhythmTurns } from './rhythm.js';
import { smallWordTurns } from './small-words.js';
import { verbTurns } from './verbs.js';
import type { Turn } from './turn.js';

/** All of them; of those that fit, the ones that say most about the notes are tried first. */
export const turns: readonly Turn[] = [
  ...partTurns,
  ...harmonyTurns,
  ...lineTurns,
  ...noteTurns,
  ...formTurns,
  ...rhythmTurns,
  ...verbTurns,
  ...smallWordTurns,
];
