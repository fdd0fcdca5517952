import { ipcMain } from 'electron';
import type { IpcMainInvokeEvent } from 'electron';
import { channels } from '../src/bridge/index.js';
import type { Answer } from '../src/bridge/index.js';
import { isOwn, isPreview } from './origin.js';
import type { StudioWindow } from './studio-window.js';

const refused = (message: string): Answer<never> => ({ ok: false, problem: { message } });

/** Whether a message comes from the page of a window itself: not from a frame in it, and not from a page that took its place. */
function isFromPage({ sender, senderFrame }: IpcMainInvokeEvent): boolean {
  if (senderFrame === null || senderFrame !== sender.mainFrame) return false;
  return isOwn(senderFrame.url) && !isPreview(senderFrame.url);
}

/** Answers what windows ask. Who asks is checked here, what is asked by the workshop against its table; a refusal is an answer. */
export function answerWindows(windowOf: (sender: number) => StudioWindow | undefined): void {
  ipcMain.handle(channels.ask, async (event, name: unknown, payload: unknown) => {
    const asking = windowOf(event.sender.id);
    if (asking === undefined || !isFromPage(event)) return refused('only the window itself may ask');
    if (typeof name !== 'string') return refused('nothing was asked');
    if (name === 'begin') asking.begins();
    if (name === 'leave') asking.leaves();
    return asking.workshop.answer(name, payload);
  });
}
