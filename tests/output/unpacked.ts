import { inflateRawSync } from 'node:zlib';

/** The files of an archive by their names (local headers, as PKWARE APPNOTE 6.3.10, section 4.3.7, has them). */
export function unpacked(archive: Uint8Array): ReadonlyMap<string, Buffer> {
  const data = Buffer.from(archive);
  const files = new Map<string, Buffer>();
  for (let at = 0; data.readUInt32LE(at) === 0x04034b50;) {
    const [size, nameLength] = [data.readUInt32LE(at + 18), data.readUInt16LE(at + 26)];
    const start = at + 30 + nameLength;
    files.set(data.toString('utf8', at + 30, start), inflateRawSync(data.subarray(start, start + size)));
    at = start + size;
  }
  return files;
}
