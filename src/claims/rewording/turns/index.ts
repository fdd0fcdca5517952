import { cadenceTurns } from './cadences.js';
import { chordTurns } from './chords.js';
import { countTurns } from './counts.js';
import { durationTurns } from './durations.js';
import { formTurns } from './form.js';
import { harmonyTurns } from './harmony.js';
import { keyTurns } from './keys.js';
import { lineTurns } from './lines.js';
import { motionTurns } from './motion.js';
import { noteTurns } from './notes.js';
import { numeralTurns } from './numerals.js';
import { partTurns } from './parts.js';
import { pitchTurns } from './pitches.js';
import { presenceTurns } from './presence.js';
import { registerTurns } from './register.js';
import { rhythmTurns } from './rhythm.js';
import { sectionTurns } from './sections.js';
import { smallWordTurns } from './small-words.js';
import { toneTurns } from './tones.js';
import { verbTurns } from './verbs.js';
import { versionTurns } from './versions.js';
import type { Turn } from './turn.js';

/** All of them; of those that fit, the ones that say most about the notes are tried first. */
export const turns: readonly Turn[] = [
  ...partTurns,
  ...versionTurns,
  ...chordTurns,
  ...numeralTurns,
  ...keyTurns,
  ...cadenceTurns,
  ...harmonyTurns,
  ...toneTurns,
  ...lineTurns,
  ...motionTurns,
  ...registerTurns,
  ...noteTurns,
  ...pitchTurns,
  ...formTurns,
  ...sectionTurns,
  ...rhythmTurns,
  ...durationTurns,
  ...countTurns,
  ...verbTurns,
  ...presenceTurns,
  ...smallWordTurns,
];
