import type { Score, Voice } from '../../score/index.js';

/** The hand that plays a voice, where the score is two staves without names, one voice on each, the lower in the bass clef. */
function handOf(voice: Voice, { voices }: Score): 'right hand' | 'left hand' | undefined {
  const parts = voices.filter(({ overlayOf }) => overlayOf === undefined);
  const [upper, lower] = parts;
  const isGrandStaff =
    parts.length === 2 &&
    upper?.staff !== lower?.staff &&
    parts.every(({ id, name }) => name === '' || name === id) &&
    upper?.clef.startsWith('treble') === true &&
    lower?.clef.startsWith('bass') === true;
  if (!isGrandStaff) return undefined;
  return voice.staff === upper.staff ? 'right hand' : 'left hand';
}

/** A voice as a message calls it: by the name that the score prints, by its hand, or by its number. */
export function voiceTitle(voice: Voice, score: Score): string {
  if (voice.name !== '' && voice.name !== voice.id) return voice.name;
  const hand = handOf(voice, score);
  return hand === undefined ? `voice ${voice.id}` : `the ${hand}`;
}
