import { fromBase64, toBase64 } from './base64.js';

/** What stands for bytes in the text. */
interface Bytes {
  readonly base64: string;
}

const isBytes = (value: unknown): value is Bytes =>
  typeof value === 'object' &&
  value !== null &&
  Object.keys(value).length === 1 &&
  'base64' in value &&
  typeof value.base64 === 'string';

/** A payload, an answer or an event as JSON (RFC 8259), with the bytes in it as `{"base64": "..."}`. */
export const toWire = (value: unknown): string =>
  JSON.stringify(value, function (this: Readonly<Record<string, unknown>>, key, part: unknown) {
    // Some kinds of bytes have already been turned into a list of numbers in `part`.
    const bytes = this[key];
    return bytes instanceof Uint8Array ? { base64: toBase64(bytes) } : part;
  });

/** What `toWire` wrote. Throws where the text is no JSON; bytes that are no base64 stay as they are, for the check of the payload. */
export const fromWire = (text: string): unknown =>
  JSON.parse(text, (_key, part: unknown) => (isBytes(part) ? (fromBase64(part.base64) ?? part) : part));
