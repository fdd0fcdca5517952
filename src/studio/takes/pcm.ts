/**
 * Blocks of samples between -1 and 1 as whole numbers of 16 bits, low byte first, as a WAV file holds them (RIFF WAVE, IBM and Microsoft
 * 1991). What lies outside is cut off.
 */
export function toPcm16(blocks: readonly Float32Array[]): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(blocks.reduce((sum, { length }) => sum + length, 0) * 2);
  const view = new DataView(bytes.buffer);
  let at = 0;
  for (const block of blocks)
    for (const sample of block) {
      view.setInt16(at, Math.max(-32_768, Math.min(32_767, Math.round(sample * 32_768))), true);
      at += 2;
    }
  return bytes;
}

/** Blocks as one stretch of samples. */
export function joined(blocks: readonly Float32Array[]): Float32Array {
  const all = new Float32Array(blocks.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const block of blocks) {
    all.set(block, at);
    at += block.length;
  }
  return all;
}
