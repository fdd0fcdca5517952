import { randomBytes } from 'node:crypto';
import { createServer } from 'node:http';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { askPath, eventsPath, fromWire, toWire } from '../../bridge/index.js';
import { refused } from '../answer.js';
import { guardedHeaders, site, textReply } from '../site/site.js';
import type { Reply } from '../site/site.js';
import type { StudioFiles } from '../site/studio-files.js';
import type { Workshop } from '../workshop.js';
import { sendEvents } from './events.js';
import { readBody } from './read-body.js';
import { doorkeeper } from './visitor.js';
import type { Doorkeeper } from './visitor.js';

/** A running server. */
export interface Served {
  /** The address that the user opens; it holds the secret. */
  readonly url: string;
  readonly close: () => Promise<void>;
}

/** An answer; a refusal is one as well. */
const wired = (value: unknown): Reply => ({
  status: 200,
  headers: { ...guardedHeaders, 'content-type': 'application/json' },
  body: new TextEncoder().encode(toWire(value)),
});

async function ask(name: string, request: IncomingMessage, workshop: Workshop): Promise<Reply> {
  if (request.headers['content-type']?.split(';')[0]?.trim() !== 'application/json')
    return textReply(415, 'a request is sent as JSON\n');
  const text = await readBody(request);
  if (text === undefined) return wired(refused('this is too much to be sent at once'));
  let payload: unknown;
  try {
    payload = fromWire(text);
  } catch {
    return wired(refused('this is no JSON'));
  }
  try {
    return wired(await workshop.answer(name, payload));
  } catch (error) {
    // A fault of the program. Who runs the server sees where; the window learns that there is one.
    process.stderr.write(`${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`);
    return textReply(500, 'this is a fault of the program, not of your files\n');
  }
}

/** The first visit: the secret leaves the address and becomes a cookie that no script reads and no other site sends. */
function letIn(keeper: Doorkeeper, token: string): Reply {
  return {
    status: 303,
    headers: {
      ...guardedHeaders,
      location: '/',
      'set-cookie': `${keeper.cookie}=${token}; Path=/; HttpOnly; SameSite=Strict`,
    },
    body: new Uint8Array(),
  };
}

const strange = textReply(
  403,
  'This page belongs to somebody who is working on a lesson. Open the address that Barwise printed when it started.\n',
);

function send(response: ServerResponse, { status, headers, body }: Reply, withBody: boolean): void {
  response.writeHead(status, { ...headers, 'content-length': body.length });
  response.end(withBody ? body : undefined);
}

/**
 * Serves the window on this machine alone.
 * @param port 0 for any free one
 * @throws the system's error where the port is taken
 */
export async function serve(workshop: Workshop, files: StudioFiles, port: number): Promise<Served> {
  const token = randomBytes(32).toString('base64url');
  const pages = site(workshop.page, files);
  const events = sendEvents(workshop);
  // Known once the system has given the port; nothing is received before.
  let keeper = doorkeeper(port, token);

  const reply = async (request: IncomingMessage): Promise<Reply | 'events'> => {
    if (!keeper.isAddressed(request)) return strange;
    const { pathname, searchParams } = new URL(`http://127.0.0.1${request.url ?? '/'}`);
    if (pathname === '/' && request.method === 'GET' && keeper.knows(searchParams.get('token')))
      return letIn(keeper, token);
    if (!keeper.isKnown(request)) return strange;
    if (pathname.startsWith(askPath)) {
      if (request.method !== 'POST' || !keeper.isFromOwnPage(request)) return strange;
      return ask(pathname.slice(askPath.length), request, workshop);
    }
    if (request.method !== 'GET' && request.method !== 'HEAD') return textReply(405, 'this is only read\n');
    if (pathname === eventsPath) {
      const { origin } = request.headers;
      return origin === undefined || keeper.isFromOwnPage(request) ? 'events' : strange;
    }
    return pages(pathname);
  };

  const server = createServer((request, response) => {
    reply(request).then(
      found => {
        if (found === 'events') events.open(response);
        else send(response, found, request.method !== 'HEAD');
      },
      () => {
        // The window has gone in the middle of a request, or sent no address.
        response.destroy();
      },
    );
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject).listen({ host: '127.0.0.1', port, exclusive: true }, resolve);
  });
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('the server has no port');
  keeper = doorkeeper(address.port, token);
  return {
    url: `http://127.0.0.1:${String(address.port)}/?token=${token}`,
    close: async () => {
      events.close();
      const closed = new Promise(resolve => server.close(resolve));
      server.closeAllConnections();
      await closed;
    },
  };
}
