import { app, session } from 'electron';
import type { WebContents } from 'electron';
import { isOwn, isPreview } from './origin.js';

/** The one thing that the window may ask the machine for: sound from the microphone, for its own page and no frame in it. */
function mayListen(contents: WebContents | null, kind: string, types: readonly string[]): boolean {
  const isSoundAlone = kind === 'media' && types.length > 0 && types.every(type => type === 'audio');
  return isSoundAlone && contents !== null && isOwn(contents.getURL()) && !isPreview(contents.getURL());
}

/** Refuses everything that the window does not need: other pages, new windows, permissions, devices, the network. */
export function closeDoors(): void {
  app.on('web-contents-created', (_event, contents) => {
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
    contents.on('will-attach-webview', event => {
      event.preventDefault();
    });
    contents.on('will-navigate', event => {
      event.preventDefault();
    });
    contents.on('will-redirect', event => {
      event.preventDefault();
    });
    contents.on('will-frame-navigate', event => {
      if (event.isMainFrame || !isPreview(event.url)) event.preventDefault();
    });
  });
  const { defaultSession } = session;
  defaultSession.setPermissionRequestHandler((contents, permission, answer, details) => {
    const types = 'mediaTypes' in details ? (details.mediaTypes ?? []) : [];
    answer(details.isMainFrame && mayListen(contents, permission, types));
  });
  defaultSession.setPermissionCheckHandler(
    (contents, permission, _origin, { isMainFrame, mediaType }) =>
      isMainFrame && mayListen(contents, permission, mediaType === undefined ? [] : [mediaType]),
  );
  defaultSession.setDevicePermissionHandler(() => false);
  defaultSession.webRequest.onBeforeRequest((details, answer) => {
    answer({ cancel: !isOwn(details.url) && !/^(blob|data|devtools):/u.test(details.url) });
  });
}
