import { anticipates } from './accents.js';
import type { Moment } from './moments.js';
import type { Sound, Tone } from './sound.js';

/**
 * What it costs to hear a tone as foreign to the harmony, as a share of what an unexplained tone costs. The order is that of any
 * textbook list of non-chord tones (Hutchinson, Non-Chord Tones: approach and departure): the more its voice prepares and resolves
 * it and the weaker its beat, the easier the ear sets it aside.
 */
export const foreignShare = {
  /** In by step, out by step, off the beat. */
  passing: 0.28,
  /** The same on a beat: it leans on the harmony. */
  accentedPassing: 0.6,
  /** Held or repeated from before, then down by step. */
  suspension: 0.35,
  retardation: 0.4,
  /** In by leap or out of nothing, out by step. */
  appoggiatura: 0.55,
  anticipation: 0.4,
  /** The same on a weak beat. */
  anticipationOnBeat: 0.55,
  escape: 0.55,
  /** Sounds on through changes. */
  held: 0.6,
  /** A bass that stays, held or struck again, while the harmony moves over it. */
  pedal: 0.35,
  none: 1,
} as const;

/**
 * A tone that is struck together with a whole chord (three pitch classes) is heard as part of it: so much of what is left to an unexplained
 * tone is added to its share (common practice: ornaments move against tones that stay, whoever strikes with all the others speaks for a harmony).
 */
const withChord = { classes: 3, added: 0.3 } as const;

const isStep = (motion: Tone['approach']): boolean => motion === 'step up' || motion === 'step down';

/** Beats from which a tone is too long to be heard as a mere ornament; beyond it the share grows. */
const ornamentBeats = 1;

/** What a tone is heard among; `staying` are the tones of a bass that stays. */
export interface Surroundings {
  readonly sound: Sound;
  readonly moments: readonly Moment[];
  readonly staying: ReadonlySet<number>;
}

/** Share (0 to 1) for a tone at a moment. */
export function shareOf(tone: Tone, moment: Moment, around: Surroundings): number {
  const share = shareByVoice(tone, moment, around);
  const isInChord = tone.on === moment.start && moment.struckClasses >= withChord.classes;
  return isInChord ? share + (1 - share) * withChord.added : share;
}

/** The share by how its voice comes to the tone and leaves it. */
function shareByVoice(tone: Tone, moment: Moment, { sound, moments, staying }: Surroundings): number {
  if (staying.has(tone.index)) return foreignShare.pedal;
  const accented = moment.level <= 2;
  const held = tone.on < moment.start;
  const prepared = held || tone.approach === 'same';
  const beats = (tone.off - tone.on) / moment.beat;
  if (prepared && tone.departure === 'step down') return foreignShare.suspension;
  if (prepared && tone.departure === 'step up') return foreignShare.retardation;
  if (anticipates(tone, moment, sound, moments))
    return accented ? foreignShare.anticipationOnBeat : foreignShare.anticipation;
  const longer = 1 + Math.max(0, beats - ornamentBeats) / 2;
  if (isStep(tone.approach) && isStep(tone.departure))
    return Math.min(1, longer * (accented ? foreignShare.accentedPassing : foreignShare.passing));
  if (isStep(tone.departure)) return Math.min(1, longer * foreignShare.appoggiatura);
  if (isStep(tone.approach) && !accented && beats <= 1) return foreignShare.escape;
  return held || beats > 3 ? foreignShare.held : foreignShare.none;
}
