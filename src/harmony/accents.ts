import { momentAt } from './hearing.js';
import type { Moment } from './moments.js';
import type { Sound, Tone } from './sound.js';

/**
 * Whether a tone that meets its harmony at a moment is accented there: on a beat, and in a stronger place than what its voice goes on to
 * (common practice: an accented non-chord tone stands on a stronger beat than its resolution). A last tone is accented on the strong beats.
 */
export function isAccented(tone: Tone, entry: Moment, { tones }: Sound, moments: readonly Moment[]): boolean {
  const next = tone.next === undefined ? undefined : tones[tone.next];
  const after = next === undefined ? undefined : moments[momentAt(moments, next.on)];
  return entry.level <= 2 && entry.level < (after?.level ?? 2);
}

/**
 * Whether a tone is struck again at once in a better place: off the beat, or on a weaker beat than the tone that it anticipates, and for no
 * longer than a beat (Hutchinson, Non-Chord Tones: the anticipation is left by staying on the note; the weak place is common practice).
 */
export function anticipates(
  tone: Tone,
  entry: Moment,
  { tones }: Sound,
  moments: readonly Moment[],
): boolean {
  const next = tone.next === undefined ? undefined : tones[tone.next];
  if (tone.departure !== 'same' || next === undefined || tone.off - tone.on > entry.beat) return false;
  const after = moments[momentAt(moments, next.on)];
  return entry.level > 2 || entry.level > (after?.level ?? entry.level);
}
