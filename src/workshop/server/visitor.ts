import { createHash, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';

/** Tells the window that the user opened from everything else that can reach a port of this machine. */
export interface Doorkeeper {
  /** Name of the cookie; it holds the port, since cookies are shared by all ports of a host. */
  readonly cookie: string;
  /** Whether a secret is the one that was printed for the user. */
  readonly knows: (secret: string | null | undefined) => boolean;
  /**
   * Whether a request is addressed to this server by one of its own names: a page elsewhere whose name was made to lead to this machine is
   * not (RFC 9110, section 7.2, and what it says on routing by Host).
   */
  readonly isAddressed: (request: IncomingMessage) => boolean;
  /** Whether a request carries the cookie. */
  readonly isKnown: (request: IncomingMessage) => boolean;
  /** Whether a request comes from a page of this server (Fetch standard: Origin; Fetch Metadata: Sec-Fetch-Site). */
  readonly isFromOwnPage: (request: IncomingMessage) => boolean;
}

const digest = (text: string): Buffer => createHash('sha256').update(text).digest();

export function doorkeeper(port: number, token: string): Doorkeeper {
  const cookie = `barwise-${String(port)}`;
  const hosts = [`127.0.0.1:${String(port)}`, `localhost:${String(port)}`];
  const knows = (secret: string | null | undefined): boolean =>
    typeof secret === 'string' && timingSafeEqual(digest(secret), digest(token));
  return {
    cookie,
    knows,
    isAddressed: ({ headers: { host } }) => host !== undefined && hosts.includes(host),
    isKnown: ({ headers: { cookie: sent = '' } }) =>
      sent.split(';').some(pair => {
        const [name, value] = pair.trim().split('=');
        return name === cookie && knows(value);
      }),
    isFromOwnPage: ({ headers }) => {
      const site = headers['sec-fetch-site'];
      return (
        headers.origin === `http://${headers.host ?? ''}` && (site === undefined || site === 'same-origin')
      );
    },
  };
}
