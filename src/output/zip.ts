import { crc32, deflateRawSync } from 'node:zlib';
import type { OutputFile } from './output-file.js';

/** Equal input gives equal bytes, so every entry carries the first date that the format knows: 1 January 1980. */
const date = 0x21;
const utf8Names = 0x0800;
const deflated = 8;
const version = 20;

const fields = (...parts: readonly (readonly [bytes: 2 | 4, value: number])[]): Buffer => {
  const buffer = Buffer.alloc(parts.reduce((sum, [bytes]) => sum + bytes, 0));
  let at = 0;
  for (const [bytes, value] of parts) at = buffer.writeUIntLE(value, at, bytes);
  return buffer;
};

/** Files packed into one ZIP archive (PKWARE APPNOTE 6.3.10, sections 4.3.7, 4.3.12 and 4.3.16), without folders of their own. */
export function zip(files: readonly OutputFile[]): Uint8Array {
  const parts: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const { name, bytes } of files) {
    const path = Buffer.from(name, 'utf8');
    const packed = deflateRawSync(bytes);
    const about: readonly (readonly [2 | 4, number])[] = [
      [2, version],
      [2, utf8Names],
      [2, deflated],
      [2, 0],
      [2, date],
      [4, crc32(bytes)],
      [4, packed.length],
      [4, bytes.length],
      [2, path.length],
      [2, 0],
    ];
    const local = Buffer.concat([fields([4, 0x04034b50], ...about), path]);
    directory.push(
      Buffer.concat([
        fields([4, 0x02014b50], [2, version], ...about, [2, 0], [2, 0], [2, 0], [4, 0], [4, offset]),
        path,
      ]),
    );
    parts.push(local, packed);
    offset += local.length + packed.length;
  }
  const entries = Buffer.concat(directory);
  const end = fields(
    [4, 0x06054b50],
    [2, 0],
    [2, 0],
    [2, files.length],
    [2, files.length],
    [4, entries.length],
    [4, offset],
    [2, 0],
  );
  return new Uint8Array(Buffer.concat([...parts, entries, end]));
}
