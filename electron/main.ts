import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { app, BrowserWindow, Menu } from 'electron';
import { answerWindows } from './channels.js';
import { closeDoors } from './closed-doors.js';
import { menu } from './menu.js';
import { claimScheme, servePages } from './serve-pages.js';
import { studioWindow } from './studio-window.js';
import type { StudioWindow } from './studio-window.js';

/** The open windows, by the number of what they show. */
const windows = new Map<number, StudioWindow>();

async function open(lesson: string | undefined): Promise<void> {
  const opened = await studioWindow(lesson, made => {
    const { id } = made.window.webContents;
    windows.set(id, made);
    made.window.on('closed', () => windows.delete(id));
  });
  opened.window.focus();
}

/** The lesson among the words with which the program was started. */
function lessonIn(words: readonly string[], folder: string): string | undefined {
  const named = words.slice(app.isPackaged ? 1 : 2).find(word => /\.ya?ml$/iu.test(word));
  const path = named === undefined ? undefined : resolve(folder, named);
  return path !== undefined && existsSync(path) ? path : undefined;
}

claimScheme();
// One program keeps unsaved work: a second start opens a window of the first.
if (app.requestSingleInstanceLock()) {
  app.on('second-instance', (_event, words, folder) => {
    void open(lessonIn(words, folder));
  });
  app.on('window-all-closed', () => {
    app.quit();
  });
  await app.whenReady();
  closeDoors();
  servePages(address => {
    for (const { workshop } of windows.values()) {
      const page = workshop.page(address);
      if (page !== undefined) return page;
    }
    return undefined;
  });
  answerWindows(sender => windows.get(sender));
  Menu.setApplicationMenu(
    menu(command => {
      const front = BrowserWindow.getFocusedWindow();
      if (front !== null) windows.get(front.webContents.id)?.tell({ kind: 'menu', command });
    }),
  );
  await open(lessonIn(process.argv, process.cwd()));
} else app.quit();
