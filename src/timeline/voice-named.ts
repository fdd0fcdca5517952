import { choirPart } from '../score/index.js';
import type { Score, Voice, VoiceId } from '../score/index.js';

/** The voice that an author names by its id, its printed name or its part of the choir, in any case. */
export function voiceNamed(score: Score, named: string): VoiceId | undefined {
  const wanted = named.trim().toLowerCase();
  const { voices } = score;
  const found =
    voices.find(({ id }) => id.toLowerCase() === wanted) ??
    voices.find(({ name }) => name.toLowerCase() === wanted) ??
    voices.find(voice => choirPart(voice, score) === wanted);
  return found?.id;
}

/** What is printed or sung, where it says more than the id. */
function ownName(score: Score, voice: Voice): string | undefined {
  const name = choirPart(voice, score) ?? voice.name.trim();
  return name === '' || name === voice.id ? undefined : name;
}

/** How a voice is called in words: by its part of the choir or its printed name, else `voice T`. */
export function voiceInWords(score: Score, id: VoiceId): string {
  const voice = score.voices.find(each => each.id === id);
  return (voice === undefined ? undefined : ownName(score, voice)) ?? `voice ${id}`;
}

/** `the voices are RH (Right hand), LH`: help for an author who named another one. */
export function voicesInWords(score: Score): string {
  const names = score.voices
    .filter(voice => voice.overlayOf === undefined)
    .map(voice => {
      const name = ownName(score, voice);
      return name === undefined ? `\`${voice.id}\`` : `\`${voice.id}\` (${name})`;
    });
  return `the voices are ${names.join(', ')}`;
}
