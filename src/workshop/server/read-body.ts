import type { IncomingMessage } from 'node:http';
import { mostSound, mostText } from '../../bridge/index.js';

/** Most bytes of a request: a recording as base64, or a text of which every character is escaped, and a little for what is around it. */
const mostBytes = Math.max(Math.ceil((mostSound * 4) / 3), mostText * 6) + mostText * 6 + 100_000;

/** The body of a request as text; `undefined` where it is longer than any request of the table, and then the rest is not read. */
export async function readBody(request: IncomingMessage): Promise<string | undefined> {
  const parts: Buffer[] = [];
  let length = 0;
  for await (const part of request as AsyncIterable<Buffer>) {
    length += part.length;
    if (length > mostBytes) return undefined;
    parts.push(part);
  }
  return Buffer.concat(parts).toString('utf8');
}
