/** What is needed of a voice; `staff` counts from 0. */
interface Voice {
  readonly name: string;
  readonly staff: number;
}

/**
 * A voice by its own name, or by where it stands: `staff 1`, `upper voice of staff 2`. A name that others bear too, or one over a staff whose
 * other voices have none, is that of a group.
 * @param voices of the score, on each staff from the top
 */
export function voiceInWords(voices: readonly Voice[], index: number): string {
  const voice = voices[index];
  const staff = voice?.staff ?? 0;
  const together = voices.filter(other => other.staff === staff);
  const isOwn =
    together.every(({ name }) => name !== '') &&
    voices.filter(({ name }) => name === voice?.name).length === 1;
  if (voice !== undefined && isOwn) return voice.name;
  // Layers of one voice bear its name together.
  const isOfLayers =
    voice !== undefined &&
    voice.name !== '' &&
    voices.every(other => (other.staff === staff) === (other.name === voice.name));
  const place = isOfLayers ? voice.name : `staff ${staff + 1}`;
  const position = voice === undefined ? -1 : together.indexOf(voice);
  if (together.length < 2 || position < 0) return place;
  if (together.length > 2) return `voice ${position + 1} of ${place}`;
  return `${position === 0 ? 'upper' : 'lower'} voice of ${place}`;
}
