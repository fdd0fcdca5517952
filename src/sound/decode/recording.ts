import type { Mono } from '../mono.js';
import { readWav } from '../wav.js';

/** How files of sound begin: bytes at an offset (RFC 9639 for FLAC, RFC 3533 for Ogg, RFC 8794 for WebM, ISO/IEC 14496-12 for M4A, AIFF by Apple 1989). */
const others: readonly { readonly name: string; readonly at: number; readonly bytes: string }[] = [
  { name: 'an M4A file', at: 4, bytes: 'ftyp' },
  { name: 'an Ogg file', at: 0, bytes: 'OggS' },
  { name: 'a FLAC file', at: 0, bytes: 'fLaC' },
  { name: 'a WebM file', at: 0, bytes: '\x1aE\xdf\xa3' },
  { name: 'an AIFF file', at: 0, bytes: 'FORM' },
];

const has = (file: Uint8Array, at: number, bytes: string): boolean =>
  file.length >= at + bytes.length &&
  [...bytes].every((byte, index) => file[at + index] === byte.charCodeAt(0));

/** An ID3 tag, or the header of a frame: eleven bits set, then version and layer, of which `00` is none (ISO/IEC 11172-3, 2.4.1.3). */
const isMp3 = (file: Uint8Array): boolean =>
  has(file, 0, 'ID3') ||
  (file[0] === 0xff && ((file[1] ?? 0) & 0xe0) === 0xe0 && ((file[1] ?? 0) & 0x06) !== 0);

/**
 * Reads a recording, WAV or MP3, told apart by what is in the file and not by its name. Throws a RangeError that says what is wrong for
 * anything else.
 */
export async function readRecording(file: Uint8Array): Promise<Mono> {
  if (has(file, 0, 'RIFF')) return readWav(file);
  if (isMp3(file)) return (await import('./mp3.js')).readMp3(file);
  const known = others.find(({ at, bytes }) => has(file, at, bytes));
  throw new RangeError(`${known?.name ?? 'it'} is neither WAV nor MP3`);
}
