import type { Chord } from './model.js';

/** Triads and sevenths that a common-tone diminished seventh embellishes. */
const embellished: readonly Chord['quality'][] = ['major', 'dominant seventh'];

/**
 * Whether a diminished seventh chord embellishes another that it shares a tone with: its seventh stays as the root of that chord, so that it
 * is no leading-tone chord, whatever else its spelling might lead to (Hutchinson, Music Theory for the 21st-Century Classroom,
 * Common-Tone Diminished Seventh Chords; Open Music Theory, Common-tone chords).
 */
export const embellishes = (
  diminished: Pick<Chord, 'quality' | 'tones'>,
  other: Pick<Chord, 'quality' | 'root'> | undefined,
): boolean =>
  diminished.quality === 'diminished seventh' &&
  other !== undefined &&
  other.root === diminished.tones[3] &&
  embellished.includes(other.quality);
