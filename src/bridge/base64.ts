const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const codes = Uint8Array.from(alphabet, sign => sign.charCodeAt(0));
const values = new Int16Array(128).fill(-1);
codes.forEach((code, value) => (values[code] = value));
const pad = '='.charCodeAt(0);
/** Characters that are joined at a time: an argument list has its limits. */
const portion = 8192;

/** Bytes as base64 (RFC 4648, section 4). */
export function toBase64(bytes: Uint8Array): string {
  const parts: string[] = [];
  let codesSoFar: number[] = [];
  for (let at = 0; at < bytes.length; at += 3) {
    const [a = 0, b, c] = [bytes[at], bytes[at + 1], bytes[at + 2]];
    const group = (a << 16) | ((b ?? 0) << 8) | (c ?? 0);
    codesSoFar.push(
      codes[group >> 18] ?? pad,
      codes[(group >> 12) & 63] ?? pad,
      b === undefined ? pad : (codes[(group >> 6) & 63] ?? pad),
      c === undefined ? pad : (codes[group & 63] ?? pad),
    );
    if (codesSoFar.length >= portion) {
      parts.push(String.fromCharCode(...codesSoFar));
      codesSoFar = [];
    }
  }
  return parts.join('') + String.fromCharCode(...codesSoFar);
}

/** The bytes of base64 with its padding; `undefined` where a sign does not belong to it or the padding is missing. */
export function fromBase64(text: string): Uint8Array | undefined {
  if (text.length % 4 !== 0) return undefined;
  const padding = text.endsWith('==') ? 2 : text.endsWith('=') ? 1 : 0;
  const bytes = new Uint8Array((text.length / 4) * 3 - padding);
  const valueAt = (at: number): number =>
    at >= text.length - padding ? 0 : (values[text.charCodeAt(at)] ?? -1);
  for (let at = 0, to = 0; at < text.length; at += 4, to += 3) {
    const [a, b, c, d] = [valueAt(at), valueAt(at + 1), valueAt(at + 2), valueAt(at + 3)];
    if ((a | b | c | d) < 0) return undefined;
    const group = (a << 18) | (b << 12) | (c << 6) | d;
    bytes[to] = group >> 16;
    bytes[to + 1] = (group >> 8) & 255;
    bytes[to + 2] = group & 255;
  }
  return bytes;
}
