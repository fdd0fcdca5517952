import { pathToFileURL } from 'node:url';
import { resolve } from 'node:path';
import { app, BrowserWindow, dialog, Menu, session } from 'electron';

/** The page is the same file that a student opens; the shell adds a window and nothing to the page. */
function openWindow(): BrowserWindow {
  return new BrowserWindow({
    width: 1280,
    height: 860,
    backgroundColor: '#fbf8f1',
    webPreferences: { contextIsolation: true, sandbox: true, nodeIntegration: false, webviewTag: false },
  });
}

async function showWalkthrough(window: BrowserWindow, file: string): Promise<void> {
  await window.loadURL(pathToFileURL(resolve(file)).href);
}

async function chooseWalkthrough(window: BrowserWindow): Promise<void> {
  const { canceled, filePaths } = await dialog.showOpenDialog(window, {
    title: 'Open a walkthrough',
    filters: [{ name: 'Walkthrough pages', extensions: ['html'] }],
    properties: ['openFile'],
  });
  const [file] = filePaths;
  if (!canceled && file !== undefined) await showWalkthrough(window, file);
}

function menuFor(window: BrowserWindow): Menu {
  return Menu.buildFromTemplate([
    {
      label: 'Lesson',
      submenu: [
        {
          label: 'Open walkthrough…',
          accelerator: 'CmdOrCtrl+O',
          click: () => {
            chooseWalkthrough(window).catch((error: unknown) => {
              dialog.showErrorBox('The walkthrough could not be opened', String(error));
            });
          },
        },
        { role: 'quit' },
      ],
    },
    { role: 'editMenu' },
    { role: 'viewMenu' },
  ]);
}

/** Refuses everything that a walkthrough page does not need: other pages, new windows, permissions, the network. */
function closeDoors(): void {
  app.on('web-contents-created', (_event, contents) => {
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
    contents.on('will-navigate', event => {
      event.preventDefault();
    });
  });
  session.defaultSession.setPermissionRequestHandler((_contents, _permission, answer) => {
    answer(false);
  });
  session.defaultSession.webRequest.onBeforeRequest((details, answer) => {
    answer({ cancel: !/^(file|blob|data|devtools):/.test(details.url) });
  });
}

await app.whenReady();
closeDoors();
const window = openWindow();
Menu.setApplicationMenu(menuFor(window));
const [file] = process.argv.slice(app.isPackaged ? 1 : 2);
if (file === undefined) await chooseWalkthrough(window);
else await showWalkthrough(window, file);
app.on('window-all-closed', () => {
  app.quit();
});
