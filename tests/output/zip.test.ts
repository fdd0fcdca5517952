import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateRawSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { zip } from '../../src/output/zip.js';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const files = [
  { name: 'a.txt', bytes: bytes('one\n'.repeat(500)) },
  { name: 'empty', bytes: new Uint8Array() },
  { name: 'übung ♯.txt', bytes: bytes('zwei') },
];

/** Entries by the central directory, as a reader finds them (PKWARE APPNOTE 6.3.10, section 4.3.12). */
function entriesOf(archive: Uint8Array): readonly (readonly [string, string])[] {
  const data = Buffer.from(archive);
  const end = data.length - 22;
  expect(data.readUInt32LE(end)).toBe(0x06054b50);
  let at = data.readUInt32LE(end + 16);
  return Array.from({ length: data.readUInt16LE(end + 10) }, () => {
    expect(data.readUInt32LE(at)).toBe(0x02014b50);
    const [size, nameLength, local] = [
      data.readUInt32LE(at + 20),
      data.readUInt16LE(at + 28),
      data.readUInt32LE(at + 42),
    ];
    const name = data.toString('utf8', at + 46, at + 46 + nameLength);
    expect(data.readUInt32LE(local)).toBe(0x04034b50);
    const start = local + 30 + data.readUInt16LE(local + 26) + data.readUInt16LE(local + 28);
    at += 46 + nameLength;
    return [name, inflateRawSync(data.subarray(start, start + size)).toString('utf8')] as const;
  });
}

describe('a ZIP archive', () => {
  test('holds every file under its name', () => {
    expect(entriesOf(zip(files))).toEqual(
      files.map(file => [file.name, new TextDecoder().decode(file.bytes)]),
    );
  });

  test('is the same for the same files', () => {
    expect(zip(files)).toEqual(zip(files));
  });

  test('is accepted by another reader of the format, checksums and all', () => {
    const path = join(mkdtempSync(join(tmpdir(), 'zip-')), 'a.zip');
    writeFileSync(path, zip(files));
    const script =
      'import sys,zipfile; z=zipfile.ZipFile(sys.argv[1]); assert z.testzip() is None; print("\\n".join(z.namelist()))';
    let listed: string;
    try {
      listed = execFileSync('python3', ['-c', script, path], {
        encoding: 'utf8',
        env: { ...process.env, PYTHONUTF8: '1' },
      });
    } catch (error) {
      // Where Python is missing there is no second reader to ask.
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return;
      throw error;
    }
    expect(listed.trim().split('\n')).toEqual(files.map(({ name }) => name));
  });
});
