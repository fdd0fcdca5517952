import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { app, BrowserWindow, dialog } from 'electron';
import { channels } from '../src/bridge/index.js';
import type { HostEvent } from '../src/bridge/index.js';
import { cacheFolder, stateFolder, workshop } from '../src/workshop/index.js';
import type { Workshop } from '../src/workshop/index.js';
import { chooseIn } from './dialogs.js';
import { home } from './origin.js';

/** A window with the workshop behind it. */
export interface StudioWindow {
  readonly window: BrowserWindow;
  readonly workshop: Workshop;
  readonly tell: (event: HostEvent) => void;
  /** Its page has begun to work: from now on it is asked before it closes. */
  readonly begins: () => void;
  /** It may be closed: nothing in it would be lost. */
  readonly leaves: () => void;
}

/**
 * Opens a window.
 * @param lesson the lesson that it opens first
 * @param made called before anything is loaded into it
 */
export async function studioWindow(
  lesson: string | undefined,
  made: (window: StudioWindow) => void,
): Promise<StudioWindow> {
  const host = await workshop({
    folder: app.getPath('documents'),
    ...(lesson === undefined ? {} : { lesson }),
    choose: chooseIn(() => opened),
    state: stateFolder(),
    speech: cacheFolder(),
    version: app.getVersion(),
    newWorker: () => new Worker(new URL('./lesson-worker.js', import.meta.url)),
  });
  const opened = new BrowserWindow({
    width: 1440,
    height: 900,
    minWidth: 640,
    minHeight: 480,
    show: false,
    backgroundColor: '#fbf8f1',
    title: 'Barwise',
    webPreferences: {
      preload: join(import.meta.dirname, 'preload.cjs'),
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webviewTag: false,
      webSecurity: true,
      spellcheck: false,
    },
  });
  const tell = (event: HostEvent): void => {
    if (!opened.isDestroyed()) opened.webContents.send(channels.event, event);
  };
  const stop = host.listen(tell);
  let hasBegun = false;
  let mayLeave = false;
  let isLost = false;
  opened.once('ready-to-show', () => {
    opened.show();
  });
  opened.on('close', event => {
    // The window keeps unsaved work, asks the user and closes itself; one that is lost can no longer do so.
    if (mayLeave || isLost || !hasBegun) return;
    event.preventDefault();
    tell({ kind: 'close-asked' });
  });
  opened.on('closed', () => {
    stop();
    void host.close();
  });
  opened.webContents.on('unresponsive', () => {
    isLost = true;
  });
  opened.webContents.on('responsive', () => {
    isLost = false;
  });
  opened.webContents.on('render-process-gone', () => {
    isLost = true;
    dialog.showErrorBox(
      'The window has stopped',
      'Unsaved work is kept and comes back when the lesson is opened again.',
    );
    opened.destroy();
  });
  const studio: StudioWindow = {
    window: opened,
    workshop: host,
    tell,
    begins: () => {
      hasBegun = true;
    },
    leaves: () => {
      mayLeave = true;
    },
  };
  made(studio);
  await opened.loadURL(home);
  return studio;
}
