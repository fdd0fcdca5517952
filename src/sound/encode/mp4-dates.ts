/** Boxes that hold boxes on the way to the headers with dates (ISO/IEC 14496-12, 8.2 to 8.4). */
const containers = new Set(['moov', 'trak', 'mdia']);
const headers = new Set(['mvhd', 'tkhd', 'mdhd']);

/** Sets the dates of creation and modification in an MP4 file to 0, so that equal sound gives equal bytes. Changes the array in place. */
export function clearMp4Dates(bytes: Uint8Array): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const walk = (from: number, to: number): void => {
    for (let at = from; at + 8 <= to;) {
      const short = view.getUint32(at);
      const size = short === 1 ? Number(view.getBigUint64(at + 8)) : short === 0 ? to - at : short;
      const name = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
      if (size < 8) return;
      if (containers.has(name)) walk(at + 8, Math.min(to, at + size));
      // A version 1 header has dates of 64 bits, version 0 of 32.
      if (headers.has(name)) bytes.fill(0, at + 12, at + 12 + (bytes[at + 8] === 1 ? 16 : 8));
      at += size;
    }
  };
  walk(0, bytes.length);
  return bytes;
}
