import { randomBytes } from 'node:crypto';
import { styleNonceMark } from '../../bridge/index.js';
import { previewPath } from '../preview.js';
import type { Workshop } from '../workshop.js';
import { previewPolicy, windowPolicy } from './content-policy.js';
import type { StudioFiles } from './studio-files.js';

/** What is sent for an address. */
export interface Reply {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Uint8Array;
}

/** Headers of everything that is sent. */
export const guardedHeaders = {
  'cache-control': 'no-store',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'microphone=(self), camera=(), geolocation=(), display-capture=()',
  'referrer-policy': 'no-referrer',
  'x-content-type-options': 'nosniff',
} as const;

/** Text as a reply. */
export const textReply = (status: number, text: string): Reply => ({
  status,
  headers: { ...guardedHeaders, 'content-type': 'text/plain; charset=utf-8' },
  body: new TextEncoder().encode(text),
});

/**
 * Everything that the window loads: its own files and the student's pages. The desktop shell and the local server send the same.
 * @returns a function from the path of an address to what is sent
 */
export function site(page: Workshop['page'], files: StudioFiles): (address: string) => Reply {
  return address => {
    if (address.startsWith(previewPath)) {
      const html = page(address);
      if (html === undefined) return textReply(404, 'this page has been replaced by a newer one\n');
      const headers = {
        ...guardedHeaders,
        'content-type': 'text/html; charset=utf-8',
        'content-security-policy': previewPolicy,
      };
      return { status: 200, headers, body: html };
    }
    const file = files.find(address);
    if (file === undefined) return textReply(404, 'there is nothing at this address\n');
    if (!file.type.startsWith('text/html'))
      return { status: 200, headers: { ...guardedHeaders, 'content-type': file.type }, body: file.bytes };
    const nonce = randomBytes(16).toString('base64');
    const html = new TextDecoder().decode(file.bytes).replaceAll(styleNonceMark, nonce);
    const headers = {
      ...guardedHeaders,
      'content-type': file.type,
      'content-security-policy': windowPolicy(nonce),
      'cross-origin-opener-policy': 'same-origin',
    };
    return { status: 200, headers, body: new TextEncoder().encode(html) };
  };
}
