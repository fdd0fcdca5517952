import { open } from 'node:fs/promises';

/** Boxes that hold boxes on the way to the headers with dates (ISO/IEC 14496-12, 8.2 to 8.4). */
const containers = new Set(['moov', 'trak', 'mdia']);
const headers = new Set(['mvhd', 'tkhd', 'mdhd']);

/** Sets the dates of creation and modification in a box and the boxes inside it to 0. Changes the array in place. */
function clearMp4Dates(bytes: Uint8Array): void {
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
}

/** Sets the dates of creation and modification in an MP4 file to 0, so that equal sound gives equal bytes. Only its `moov` box is read. */
export async function clearMp4DatesIn(path: string): Promise<void> {
  const file = await open(path, 'r+');
  try {
    const { size: length } = await file.stat();
    const header = Buffer.alloc(16);
    for (let at = 0; at + 8 <= length;) {
      await file.read(header, 0, 16, at);
      const short = header.readUInt32BE(0);
      const size = short === 1 ? Number(header.readBigUInt64BE(8)) : short === 0 ? length - at : short;
      if (size < 8) return;
      if (header.toString('latin1', 4, 8) === 'moov') {
        const box = new Uint8Array(Math.min(size, length - at));
        await file.read(box, 0, box.length, at);
        clearMp4Dates(box);
        await file.write(box, 0, box.length, at);
      }
      at += size;
    }
  } finally {
    await file.close();
  }
}
