import { compare, isBefore } from '../../score/index.js';
import type { Note, Score } from '../../score/index.js';
import type { Range } from '../model.js';
import { edgeOf } from './line-notes.js';
import type { LineNote } from './line-notes.js';
import { noteEnd, soundingIn } from './sounding.js';
import { voiceTitle } from './voice-title.js';

/** A line of the texture with the name that a message gives it. */
export interface TextureLine {
  readonly name: string;
  readonly notes: readonly LineNote[];
  /** Whether it is a voice of its own and not the top or the bottom of chords. */
  readonly isVoice: boolean;
}

/** Whether a voice sounds more than one note at once. */
export const isChordal = (notes: readonly Note[]): boolean =>
  notes.some((note, at) => {
    const next = notes[at + 1];
    return next !== undefined && isBefore(next.onset, noteEnd(note));
  });

/**
 * The lines that sound: every voice of the score, and of a voice that plays chords its highest and its lowest notes. From the top of the score
 * down.
 */
export function textureLines(score: Score, range: Range): readonly TextureLine[] {
  const sounding = soundingIn(score, range).filter(note => !note.grace);
  return score.voices.flatMap((voice): readonly TextureLine[] => {
    const own = sounding.filter(note => note.voice === voice.id).sort((a, b) => compare(a.onset, b.onset));
    const name = voiceTitle(voice, score);
    if (own.length === 0) return [];
    if (!isChordal(own)) return [{ name, notes: edgeOf(own, range, 'top'), isVoice: true }];
    return [
      { name: `the top of ${name}`, notes: edgeOf(own, range, 'top'), isVoice: false },
      { name: `the bottom of ${name}`, notes: edgeOf(own, range, 'bottom'), isVoice: false },
    ];
  });
}
