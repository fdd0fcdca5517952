import { alignRecording } from './align-recording.js';
import { spell } from './spell.js';
import type { SpellingOptions } from './reading.js';
import type { SpokenSound } from './speak.js';
import type { Mono } from '../mono.js';

/** A recording as the speech of a text: its words have the times that their weight and the pauses give them. */
export function speakTake(text: string, sound: Mono, options: SpellingOptions = {}): SpokenSound {
  const { pieces } = spell(text, options);
  const times = alignRecording(pieces, sound);
  return {
    ...sound,
    recorded: true,
    seconds: sound.samples.length / sound.sampleRate,
    words: pieces.map((piece, index) => ({
      from: piece.from,
      to: piece.to,
      start: times[index]?.start ?? 0,
      end: times[index]?.end ?? 0,
    })),
    // Nobody has to guess how a person reads it aloud.
    doubts: [],
  };
}
