import { askPath, eventsPath, exposedName, fromWire, toWire } from '../bridge/index.js';
import type { Answer, Answers, Bridge, HostEvent, Payload, RequestName } from '../bridge/index.js';

/** The local server that the window came from. */
const localServer: Bridge = {
  ask: async <N extends RequestName>(name: N, payload: Payload<N>) => {
    let response: Response;
    let text: string;
    try {
      response = await fetch(askPath + name, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: toWire(payload),
      });
      text = await response.text();
    } catch {
      return {
        ok: false,
        problem: {
          message: 'the workshop does not answer',
          help: 'look whether `barwise studio --serve` still runs; keep this page open, your text is in it',
        },
      };
    }
    if (!response.ok) return { ok: false, problem: { message: text === '' ? response.statusText : text } };
    // The host answers by the table that both sides are built from.
    return fromWire(text) as Answer<Answers[N]>;
  },
  listen: heard => {
    const stream = new EventSource(eventsPath);
    stream.addEventListener('message', ({ data }: MessageEvent<string>) => {
      heard(JSON.parse(data) as HostEvent);
    });
    return () => {
      stream.close();
    };
  },
};

/** The way to the host: the one that the desktop shell exposes, else the local server. */
export const host = (): Bridge =>
  ((globalThis as Readonly<Record<string, unknown>>)[exposedName] as Bridge | undefined) ?? localServer;
