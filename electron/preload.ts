import { contextBridge, ipcRenderer } from 'electron';
import type { IpcRendererEvent } from 'electron';
import { channels, exposedName } from '../src/bridge/index.js';
import type { Bridge, HostEvent } from '../src/bridge/index.js';

/** All that the page gets of the shell: two functions. What may be asked is decided by the main process against its table. */
const bridge: Bridge = {
  ask: (name, payload) => ipcRenderer.invoke(channels.ask, name, payload),
  listen: heard => {
    const hear = (_event: IpcRendererEvent, event: HostEvent): void => {
      heard(event);
    };
    ipcRenderer.on(channels.event, hear);
    return () => {
      ipcRenderer.off(channels.event, hear);
    };
  },
};

contextBridge.exposeInMainWorld(exposedName, bridge);
