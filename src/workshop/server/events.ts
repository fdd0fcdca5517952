import type { ServerResponse } from 'node:http';
import { toWire } from '../../bridge/index.js';
import { guardedHeaders } from '../site/site.js';
import type { Workshop } from '../workshop.js';

/** A comment now and then tells a window that has gone from one that is quiet. In milliseconds. */
const heartbeat = 15_000;

/** Sends what the workshop tells to every window that listens (HTML standard: server-sent events). */
export interface EventStreams {
  readonly open: (response: ServerResponse) => void;
  readonly close: () => void;
}

export function sendEvents(workshop: Workshop): EventStreams {
  const streams = new Set<ServerResponse>();
  const sendAll = (text: string): void => {
    for (const stream of streams) stream.write(text);
  };
  const stop = workshop.listen(event => {
    sendAll(`data: ${toWire(event)}\n\n`);
  });
  const beat = setInterval(() => {
    sendAll(': still here\n\n');
  }, heartbeat).unref();
  return {
    open: response => {
      response.writeHead(200, { ...guardedHeaders, 'content-type': 'text/event-stream' });
      response.write('retry: 1000\n\n');
      streams.add(response);
      response.on('close', () => streams.delete(response));
    },
    close: () => {
      stop();
      clearInterval(beat);
      for (const stream of streams) stream.end();
    },
  };
}
