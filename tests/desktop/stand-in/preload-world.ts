/**
 * The text that runs in a page before its own: Electron's modules for a preload, and the preload itself. Electron gives a preload a world of
 * its own and copies what it exposes; here it shares the page's, and what it exposes is frozen.
 */
export const preloadWorld = (preload: string): string => `(() => {
  const hearers = new Map();
  const electron = {
    contextBridge: {
      exposeInMainWorld: (name, value) => {
        Object.defineProperty(globalThis, name, { value: Object.freeze(value), configurable: false });
      },
    },
    ipcRenderer: {
      // What crosses between processes is cloned (HTML standard: structured clone); here as text, bytes apart.
      invoke: async (channel, ...sent) => {
        const answer = await globalThis.standInInvoke({ channel, sent: sent.map(pack) });
        return unpack(answer);
      },
      on: (channel, heard) => hearers.set(channel, [...(hearers.get(channel) ?? []), heard]),
      off: (channel, heard) => hearers.set(channel, (hearers.get(channel) ?? []).filter(one => one !== heard)),
    },
  };
  const pack = value => {
    const cloned = structuredClone(value);
    return JSON.stringify(cloned, (_key, part) => part instanceof Uint8Array ? { bytesOfTheWire: [...part] } : part) ?? 'null';
  };
  const unpack = text => JSON.parse(text, (_key, part) => part?.bytesOfTheWire ? Uint8Array.from(part.bytesOfTheWire) : part);
  globalThis.standInSend = (channel, text) => {
    for (const heard of hearers.get(channel) ?? []) heard({}, unpack(text));
  };
  const ask = navigator.mediaDevices?.getUserMedia?.bind(navigator.mediaDevices);
  if (ask !== undefined)
    navigator.mediaDevices.getUserMedia = async constraints => {
      const types = ['audio', 'video'].filter(type => constraints?.[type]);
      if (await globalThis.standInPermission({ permission: 'media', types })) return ask(constraints);
      throw new DOMException('Permission denied', 'NotAllowedError');
    };
  if (window !== window.top) return;
  window.close = () => void globalThis.standInClose();
  const require = name => {
    if (name !== 'electron') throw new Error('a sandboxed preload has no ' + name);
    return electron;
  };
  ((require, module, exports) => {
${preload}
  })(require, { exports: {} }, {});
})();`;

/** The same for the side of the main process. */
export const unpack = (text: string): unknown =>
  JSON.parse(text, (_key, part: unknown) =>
    typeof part === 'object' &&
    part !== null &&
    'bytesOfTheWire' in part &&
    Array.isArray(part.bytesOfTheWire)
      ? Uint8Array.from(part.bytesOfTheWire as readonly number[])
      : part,
  );

export const pack = (value: unknown): string =>
  JSON.stringify(structuredClone(value), (_key, part: unknown) =>
    part instanceof Uint8Array ? { bytesOfTheWire: [...part] } : part,
  );
