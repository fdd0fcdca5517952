import type { Score, VoiceId } from '../score/index.js';

/** The voice that an author names by its id or its printed name, in any case. */
export function voiceNamed(score: Score, named: string): VoiceId | undefined {
  const wanted = named.trim().toLowerCase();
  const byId = score.voices.find(voice => voice.id.toLowerCase() === wanted);
  return (byId ?? score.voices.find(voice => voice.name.toLowerCase() === wanted))?.id;
}

/** How a voice is called in words: by its printed name, else `voice T`. */
export function voiceInWords(score: Score, id: VoiceId): string {
  const name = score.voices.find(voice => voice.id === id)?.name.trim() ?? '';
  return name === '' || name === id ? `voice ${id}` : name;
}

/** `the voices are RH (Right hand), LH`: help for an author who named another one. */
export function voicesInWords(score: Score): string {
  const names = score.voices
    .filter(voice => voice.overlayOf === undefined)
    .map(voice =>
      voice.name === '' || voice.name === voice.id ? `\`${voice.id}\`` : `\`${voice.id}\` (${voice.name})`,
    );
  return `the voices are ${names.join(', ')}`;
}
