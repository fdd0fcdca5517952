/** Samples of a tone between two silences as whole numbers of 16 bits, low byte first; lengths in seconds. */
export function tone(seconds: number, silence = 0, sampleRate = 16_000): Uint8Array<ArrayBuffer> {
  const [before, length] = [Math.round(silence * sampleRate), Math.round(seconds * sampleRate)];
  const bytes = Buffer.alloc((length + 2 * before) * 2);
  for (let frame = 0; frame < length; frame += 1)
    bytes.writeInt16LE(Math.round(9000 * Math.sin(frame / 6)), (before + frame) * 2);
  return new Uint8Array(bytes);
}
