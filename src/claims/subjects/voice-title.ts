import { choirPart } from '../../score/index.js';
import type { Score, Voice } from '../../score/index.js';

/** What is written on two staves for two hands (common practice). */
const keyboard = /^(?:piano|pianoforte|keyboard|harpsichord|clavichord|organ|celesta|harp)\b/iu;

/**
 * The hand that plays a voice, where the score is a grand staff: two voices on two staves, treble over bass, without names but for that of the one
 * instrument; `undefined` elsewhere.
 */
function handOf(voice: Voice, { voices }: Score): 'right hand' | 'left hand' | undefined {
  const parts = voices.filter(({ overlayOf }) => overlayOf === undefined);
  const [upper, lower] = parts;
  const isNamed = ({ id, name }: Voice): boolean => name !== '' && name !== id;
  if (parts.length !== 2 || upper === undefined || lower === undefined || isNamed(lower)) return undefined;
  const isGrandStaff =
    upper.staff !== lower.staff &&
    upper.clef.startsWith('treble') &&
    lower.clef.startsWith('bass') &&
    (!isNamed(upper) || keyboard.test(upper.name));
  if (!isGrandStaff) return undefined;
  return voice.staff === upper.staff ? 'right hand' : 'left hand';
}

/** A voice by its hand, its part of the choir or the name that the score prints, else by its id: `left hand`, `Viola`, `2`. */
export const voiceLabel = (voice: Voice, score: Score): string =>
  handOf(voice, score) ?? choirPart(voice, score) ?? (voice.name === '' ? voice.id : voice.name);

/** The same in a sentence: `the left hand`, `Viola`, `voice 2`. */
export function voiceTitle(voice: Voice, score: Score): string {
  const part = handOf(voice, score) ?? choirPart(voice, score);
  if (part !== undefined) return `the ${part}`;
  return voice.name === '' || voice.name === voice.id ? `voice ${voice.id}` : voice.name;
}
